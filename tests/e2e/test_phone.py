"""The phone at the container: two taps, no signal, the server gone and back, an entry that is refused."""

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.cli.bad_plans import GOOD
from tests.e2e.conftest import Served
from tests.e2e.test_page import BEYOND, LEAST_PX, STANDING_ALONE
from tests.web.visitor import plan_in

from brimful.journal import Entry
from brimful.services import entries_of

CONTAINER = "p/rail/container/rail%202"
PLAIN_HTTP = "Object.defineProperty(window, 'isSecureContext', { value: false }); delete Crypto.prototype.randomUUID;"
STORES = {
    "database": "",
    "simple store": "IDBFactory.prototype.open = () => { throw new Error('none') };",
}
KEPT = """async () => (await Promise.all((await caches.keys()).map(async (name) =>
  (await (await caches.open(name)).keys()).map((one) => one.url)))).join(' ')"""


def port_of(served: Served) -> str:
    """The port that a server listens on."""
    return served.address.rstrip("/").rpartition(":")[2]


def written(plan: Path, count: int, seconds: float = 20.0) -> tuple[Entry, ...]:
    """The journal, as soon as it holds so many entries."""
    end = time.monotonic() + seconds
    while len(entries := entries_of(plan, raw=True)) < count:
        assert time.monotonic() < end, f"{len(entries)} of {count} entries came"
        time.sleep(0.1)
    return entries


def kept_for_later(page: Page, seconds: float = 20.0) -> None:
    """Wait until the page and its parts are kept on the phone."""
    end = time.monotonic() + seconds
    while CONTAINER not in (there := page.evaluate(KEPT)) or "outbox.js" not in there:
        assert time.monotonic() < end, there
        time.sleep(0.1)


def gone(served: Served) -> None:
    """The server killed, as by a power cut."""
    served.process.kill()
    served.process.wait()


def test_a_tap_is_in_the_journal_and_one_more_takes_it_back(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """Dry is one tap on the container's page and stays there with Undo; the page is not loaded anew."""
    plan, page = plan_in(tmp_path), visit("phone")
    served = start(plan)
    page.goto(served.address + CONTAINER)
    page.evaluate("window.here = true")
    page.get_by_label("Your name").first.fill("Ann")
    page.get_by_role("button", name="Dry").click()
    expect(page.locator(".outbox")).to_contain_text("Noted: dry, rail 2.")
    (entry,) = written(plan, 1)
    assert (entry.kind, entry.value, entry.place, entry.by) == ("finger", 0.0, "rail 2", "Ann")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".outbox")).to_contain_text("Taken back.")
    written(plan, 2)
    assert entries_of(plan) == ()
    assert page.evaluate("window.here")
    page.goto(served.address + "p/rail/container/rail%203")
    expect(page.get_by_label("Your name").first).to_have_value("Ann")
    assert page.wrong == []  # type: ignore[attr-defined]


@pytest.mark.parametrize("store", STORES)
def test_what_is_noted_while_the_server_is_gone_is_sent_once(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page], store: str
) -> None:
    """Notes wait, told by their number, outlive the page being opened anew, and are written once each when another
    server is there, for which the page's token is stale."""
    plan, page = plan_in(tmp_path), visit("phone")
    page.add_init_script(STORES[store])
    served = start(plan)
    page.goto(served.address + CONTAINER)
    kept_for_later(page)
    with page.expect_response("**/entries") as answer:
        page.get_by_role("button", name="Fed").click()
    answer.value.finished()
    written(plan, 1)
    gone(served)
    page.get_by_role("button", name="Wet").click()
    page.get_by_role("button", name="Trimmed").click()
    expect(page.locator(".outbox")).to_contain_text("2 notes wait here until the server is back.")
    page.goto(served.address + CONTAINER)
    page.get_by_role("button", name="Deadheaded").click()
    expect(page.locator(".outbox")).to_contain_text("3 notes wait here until the server is back.")
    start(plan, "--port", port_of(served))
    entries = written(plan, 4)
    expect(page.locator(".outbox")).not_to_contain_text("here until the server is back")
    page.wait_for_timeout(1500)
    assert [one.kind for one in entries] == ["fed", "finger", "trimmed", "deadheaded"]
    assert len(entries_of(plan, raw=True)) == 4


def test_over_plain_http_the_page_says_to_be_kept_open(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """Where the browser grants no service worker the page says so in one line, and notes wait in it all the same."""
    plan, page = plan_in(tmp_path), visit("phone")
    page.add_init_script(PLAIN_HTTP)
    served = start(plan)
    page.goto(served.address + CONTAINER)
    expect(page.locator("[data-plain-http]").first).to_be_visible()
    gone(served)
    page.get_by_role("button", name="Dry").click()
    expect(page.locator(".outbox")).to_contain_text("1 note waits here until the server is back. Keep this page open")
    start(plan, "--port", port_of(served))
    (entry,) = written(plan, 1)
    assert entry.place == "rail 2"


def test_a_refused_note_stays_with_its_reason(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """What cannot be taken is told with why, can be put right there, and goes when it is thrown away."""
    plan, page = plan_in(tmp_path), visit("phone")
    served = start(plan)
    page.goto(f"{served.address}p/rail/notes?c=rail%202")
    page.get_by_text("Note anything, in words").click()
    page.get_by_label("What you saw or did").fill("weight heavy")
    page.locator("#words").get_by_role("button", name="Note").click()
    strip = page.locator(".outbox")
    expect(strip).to_contain_text("Not taken, rail 2: weight:")
    page.reload()
    expect(strip).to_contain_text("Not taken, rail 2: weight:")
    strip.get_by_label("What you noted").fill("weight 21 kg")
    strip.get_by_role("button", name="Send again").click()
    (entry,) = written(plan, 1)
    assert (entry.kind, entry.value, entry.place) == ("weight", 21.0, "rail 2")
    expect(strip).not_to_contain_text("Not taken")
    page.evaluate("document.querySelector('.note [value=Dry], .note [value=dry]').value = 'probe deep'")
    page.get_by_role("button", name="Dry").click()
    expect(strip).to_contain_text("Not taken, rail 2: probe:")
    strip.get_by_role("button", name="Throw away").click()
    expect(strip).not_to_contain_text("Not taken")
    assert len(entries_of(plan, raw=True)) == 1


def test_measures_are_noted_by_their_fields(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """A catch is two numbers and a button; the fields are empty again for the next."""
    plan, page = plan_in(tmp_path, text=GOOD), visit("phone")
    served = start(plan)
    page.goto(served.address + CONTAINER)
    page.get_by_text("Measured, ran, replaced").click()
    page.get_by_label("Caught").fill("300")
    page.get_by_label("in", exact=True).fill("5")
    page.locator("form:has(#caught)").get_by_role("button").click()
    (entry,) = written(plan, 1)
    assert entry.kind == "catch"
    assert entry.during_s == 300.0
    expect(page.get_by_label("Caught")).to_have_value("")


def test_without_script_the_same_taps_work(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """The buttons are plain forms: noted, said, undone, each with a page loaded anew."""
    plan, page = plan_in(tmp_path), visit("phone", java_script_enabled=False)
    served = start(plan)
    page.goto(served.address + CONTAINER)
    page.get_by_role("button", name="Moist").click()
    expect(page.locator("#noted")).to_contain_text("Noted: finger test moist")
    assert len(entries_of(plan)) == 1
    page.get_by_role("button", name="Undo").click()
    assert entries_of(plan) == ()


@pytest.mark.parametrize("path", ["container/rail%202", "notes", "notes?c=rail%202"])
@pytest.mark.parametrize("size", ["phone", "desk"])
def test_every_target_is_a_finger_wide(
    tmp_path: Path, start: Callable[..., Served], visit: Callable[..., Page], path: str, size: str
) -> None:
    """With all folds open and a note at the foot nothing is too small to touch or wider than the page."""
    page = visit(size)
    served = start(plan_in(tmp_path))
    page.goto(f"{served.address}{CONTAINER}")
    page.get_by_role("button", name="Dry").click()
    page.goto(f"{served.address}p/rail/{path}")
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
    assert page.evaluate(STANDING_ALONE, LEAST_PX) == []
    assert page.evaluate(BEYOND) <= 0
