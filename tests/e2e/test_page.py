"""The page in a browser: links, sizes, light and dark, without script, by keyboard, with the server gone."""

import importlib.resources
import os
import re
import shutil
import signal
import urllib.error
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from tests.e2e.conftest import DEMO, SIZES, Served, fetched

from brimful.services import example
from brimful.web.pages import PAGES

ALL = bool(os.environ.get("BRIMFUL_TEST_ALL"))
HOME = f"p/{DEMO}/"
LENSES = [page.key for page in PAGES]
AXE = (importlib.resources.files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8")
MOST_BYTES = 1_000_000
LEAST_PX = 44
STANDING_ALONE = """least => [...document.querySelectorAll('a[href], button, summary, select, textarea,'
  + ' input:not([type=hidden]):not([type=checkbox]):not([type=radio])')].filter(one => {
    const box = one.getBoundingClientRect();
    if (!box.width || !box.height || box.right < 0 || getComputedStyle(one).visibility === 'hidden') return false;
    if (one.closest('table')) return false;
    const line = one.closest('p, li, td, th, dd, dt, figcaption, label, h2, h3') || one.parentElement;
    const alone = line.textContent.trim() === one.textContent.trim();
    if (one.matches('a') && getComputedStyle(one).display === 'inline' && !alone) return false;
    return Math.round(box.height) < least || Math.round(box.width) < least;
  }).map(one => `${one.outerHTML.slice(0, 120)} ${JSON.stringify(one.getBoundingClientRect())}`)"""
FOCUSED = "() => `${document.activeElement.className}|${document.activeElement.textContent.trim()}`"
BEYOND = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


def pages() -> list[str]:
    """Every kind of page: lenses of all and of one container, the container, a figure, a plan that is broken, lists."""
    one = "?c=dock%20pots%201"
    return ["", *(f"{HOME}{key}" for key in LENSES), *(f"{HOME}{key}{one}" for key in LENSES), f"{HOME}explain",
            "p/broken/", "p/a%2520b%20%26%20%27c%27/", "nowhere"]  # fmt: skip


def links_of(page: Page) -> set[str]:
    """Where a page leads and what it loads, without the place in the page."""
    found = page.evaluate("() => [...document.querySelectorAll('[href], [src]')].map(x => x.href || x.src)")
    return {link.partition("#")[0] for link in found if isinstance(link, str)}


def first_container(page: Page) -> str:
    """The address of the first container in the row."""
    href = page.locator(".stand").first.get_attribute("href")
    assert href is not None
    return href


@pytest.mark.parametrize("size", SIZES)
def test_every_link_on_every_page_answers(server: Served, visit: Callable[..., Page], size: str) -> None:
    """Each page stands without a word in the console, fits its width, and everything it leads to is there."""
    page, links = visit(size), set[str]()
    for path in pages()[:-1]:
        answer = page.goto(server.address + path)
        assert answer is not None
        assert answer.status == 200, path
        page.wait_for_load_state("networkidle")
        assert page.evaluate(BEYOND) <= 0, f"{path} is wider than the {size}"
        links |= links_of(page)
    assert page.wrong == []  # type: ignore[attr-defined]
    assert [link for link in links if not link.startswith((server.address, "data:"))] == []
    links = {link for link in links if link.startswith("http")} if size == "desk" or ALL else set()
    dead = {link: code for link in sorted(links) if (code := page.request.get(link).status) != 200}
    assert dead == {}


@pytest.mark.parametrize(
    ("size", "scheme"),
    [("desk", "light"), ("phone", "dark"), *([("desk", "dark"), ("phone", "light")] if ALL else [])],
)
def test_nothing_stands_in_a_readers_way(server: Served, visit: Callable[..., Page], size: str, scheme: str) -> None:
    """No page breaks a rule of accessibility that a machine can check, in light or dark."""
    page = visit(size, color_scheme=scheme, bypass_csp=True, reduced_motion="reduce")
    found: dict[str, list[str]] = {}
    for path in pages():
        page.goto(server.address + path)
        page.wait_for_load_state("networkidle")
        page.evaluate(AXE)
        for one in page.evaluate("() => axe.run(document, {resultTypes: ['violations']})")["violations"]:
            told = [node["html"][:120] + " | " + node["failureSummary"][:200] for node in one["nodes"][:2]]
            found.setdefault(f"{one['id']}: {one['help']}", []).extend([path, *told])
    assert not found, "\n".join(f"{rule}\n  " + "\n  ".join(where) for rule, where in found.items())


@pytest.mark.parametrize("size", SIZES)
def test_what_is_touched_is_large_enough(server: Served, visit: Callable[..., Page], size: str) -> None:
    """Links and buttons that stand alone, in no sentence and no table, are a finger wide and high."""
    page, small = visit(size), dict[str, list[str]]()
    for path in pages():
        page.goto(server.address + path)
        if found := page.evaluate(STANDING_ALONE, LEAST_PX):
            small[path] = found[:4]
    assert not small, "\n".join(f"{path}\n  " + "\n  ".join(ones) for path, ones in small.items())


def test_the_first_load_is_light(server: Served, visit: Callable[..., Page]) -> None:
    """A reader who comes for the first time loads less than a megabyte, whichever page comes first."""
    script = """() => performance.getEntries().reduce((sum, x) => sum + (x.transferSize || 0), 0)"""
    for path in pages()[1 : 1 + len(LENSES)]:
        page = visit("phone")
        page.goto(server.address + path)
        page.wait_for_load_state("networkidle")
        assert 0 < page.evaluate(script) < MOST_BYTES, path


def test_every_page_works_without_script(server: Served, visit: Callable[..., Page]) -> None:
    """Without script each lens is there whole, shows the row, and leads from container to container."""
    page = visit("phone", java_script_enabled=False)
    for key in LENSES:
        page.goto(f"{server.address}{HOME}{key}")
        expect(page.locator("nav [aria-current=page]")).to_have_count(1)
        assert page.locator("#below").count() == 1, key
        assert page.locator(".stand").count() > 1, key
    page.goto(server.address + HOME)
    page.locator(".stand").nth(2).click()
    expect(page.locator(".stand[aria-current]")).to_have_count(1)
    page.locator(".ground").click()
    expect(page.locator(".stand[aria-current]")).to_have_count(0)
    assert page.wrong == []  # type: ignore[attr-defined]


def test_the_keyboard_reaches_everything_in_order(server: Served, visit: Callable[..., Page]) -> None:
    """Tab goes from the way past the row over the lenses to each container; Enter chooses one and stays on it."""
    page = visit()
    page.goto(server.address + HOME)
    page.wait_for_load_state("networkidle")
    stands, order = page.locator(".stand").count(), []
    for _ in range(stands + len(LENSES) + 4):
        page.keyboard.press("Tab")
        order.append(
            page.evaluate(
                "() => (document.activeElement.className || '') + '|' + document.activeElement.textContent.trim()"
            )
        )
    kinds = [one.partition("|")[0].split(" ")[0] for one in order]
    assert kinds[0] == "skip"
    nav = [one.partition("|")[2] for one in order[2 : 2 + len(LENSES)]]
    assert nav == [one.title for one in PAGES]
    assert kinds[2 + len(LENSES) :].count("stand") == stands
    page.locator(".stand").nth(1).focus()
    assert page.evaluate("() => getComputedStyle(document.activeElement).outlineStyle") != "none"
    page.keyboard.press("Enter")
    expect(page.locator(".stand").nth(1)).to_have_attribute("aria-current", "true")
    expect(page.locator(".stand").nth(1)).to_be_focused()
    page.go_back()
    expect(page.locator(".stand[aria-current]")).to_have_count(0)


def test_the_page_follows_the_file(start: Callable[..., Served], visit: Callable[..., Page], tmp_path: Path) -> None:
    """A plan changed in an editor shows up by itself; a plan broken there says what to mend, and comes back."""
    plan = tmp_path / "balcony.toml"
    shutil.copy(example("balcony"), plan)
    text = plan.read_text()
    page = visit()
    page.goto(start(plan).address)
    expect(page.locator(".place")).to_contain_text(re.compile(r"\w"))
    plan.write_text(re.sub(r"(?m)^title = .*$", 'title = "Moved to the roof"', text, count=1))
    expect(page.locator("h1, .place")).to_contain_text("Moved to the roof", timeout=10_000)
    plan.write_text("nonsense")
    expect(page.locator("#page")).to_contain_text("cannot be worked out yet", timeout=10_000)
    plan.write_text(text)
    expect(page.locator("#page")).not_to_contain_text("cannot be worked out yet", timeout=10_000)


def test_two_plans_side_by_side_are_not_loaded_anew(
    start: Callable[..., Served], visit: Callable[..., Page], tmp_path: Path
) -> None:
    """While two plans are worked out their figures come in place; once both are, nothing is asked any more."""
    plans = tmp_path / "plans"
    shutil.copytree(example(DEMO).parent, plans, ignore=shutil.ignore_patterns("__pycache__"))
    (plans / "other.toml").write_text(example(DEMO).read_text().replace('"25 psi"', '"20 psi"'))
    served, page = start(plans), visit()
    page.goto(f"{served.address}compare?a={DEMO}&b=other")
    expect(page.locator("main")).to_contain_text("Working out")
    page.evaluate("window.stays = true")
    page.locator("h2 a").first.focus()
    expect(page.locator("main")).not_to_contain_text("Working out", timeout=90_000)
    expect(page.locator(".beside")).to_contain_text("water in a season")
    assert page.evaluate("window.stays")
    assert page.evaluate("document.activeElement.textContent") == DEMO
    assert page.locator("meta[http-equiv=refresh]").count() == 0
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.wait_for_timeout(2_500)
    assert asked == []
    assert page.wrong == []  # type: ignore[attr-defined]


def test_a_server_gone_is_said(start: Callable[..., Served], visit: Callable[..., Page]) -> None:
    """Stopped, the server leaves no traceback and a good exit code, and the page says that nobody answers."""
    served, page = start(example("balcony")), visit()
    page.goto(served.address)
    served.done("balcony")
    assert served.stop() == 0
    assert served.told.read_text().endswith("Stopped.\n")
    assert "Traceback" not in served.told.read_text()
    expect(page.locator(".away")).to_contain_text("does not answer", timeout=10_000)
    page.locator(".stand").first.click()
    expect(page.locator(".stand").first).to_be_visible()


def test_ctrl_c_amid_the_work_is_clean(start: Callable[..., Served]) -> None:
    """Ended while it works, the server goes within a few seconds, without a traceback."""
    served = start(example(DEMO))
    fetched(served.address)
    assert served.stop() == 0
    assert "Traceback" not in served.told.read_text()


def test_a_port_that_is_taken_is_said(server: Served, tmp_path: Path) -> None:
    """A second server on the same port says so in a sentence."""
    import subprocess
    import sys

    port = server.address.rstrip("/").rpartition(":")[2]
    command = [sys.executable, "-m", "brimful", "serve", str(example("balcony")), "--no-browser", "--port", port]
    said = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert said.returncode == 1
    assert "Choose another with --port" in said.stderr
    assert "Traceback" not in said.stderr


def test_sharing_from_the_link_to_the_page(start: Callable[..., Served], visit: Callable[..., Page]) -> None:
    """The link lets a phone in, the phrase lets another in, and the terminal tells neither of what was asked."""
    served = start(example("balcony"), "--share", BRIMFUL_PHRASE="nine wet terracotta pots")
    place = served.address.partition("/enter/")[0]
    with pytest.raises(urllib.error.HTTPError, match="401"):
        fetched(f"{place}/p/balcony/")
    page = visit("phone")
    page.goto(served.address)
    expect(page.locator(".stand").first).to_be_visible()
    other = visit("phone")
    other.goto(f"{place}/p/balcony/water?c=x")
    other.locator("#phrase").fill("nine dry terracotta pots")
    other.keyboard.press("Enter")
    expect(other.locator("[role=alert]")).to_contain_text("does not let you in")
    other.locator("#phrase").fill("nine wet terracotta pots")
    other.keyboard.press("Enter")
    expect(other.locator(".stand").first).to_be_visible()
    told = served.told.read_text()
    token = served.address.rpartition("/")[2]
    assert "not encrypted" in told
    lines = told[told.index("127.0.0.1 GET") :]
    assert token not in lines
    assert "terracotta" not in told
    assert "c=x" not in lines
    assert "GET /enter/… 200" in lines
    served.process.send_signal(signal.SIGINT)


def test_a_short_phrase_is_refused(tmp_path: Path) -> None:
    """A phrase that is soon guessed starts nothing."""
    import subprocess
    import sys

    command = [sys.executable, "-m", "brimful", "serve", str(example("balcony")), "--no-browser", "--share"]
    environment = {**os.environ, "BRIMFUL_PHRASE": "pots"}
    said: Any = subprocess.run(
        command, capture_output=True, text=True, timeout=60, check=False, env=environment, stdin=subprocess.DEVNULL
    )
    assert said.returncode == 1
    assert "12 or more" in said.stderr


def test_what_is_typed_while_an_answer_is_under_way_stays(
    start: Callable[..., Served], visit: Callable[..., Page]
) -> None:
    """A page that is being fetched anew does not replace fields that were filled in meanwhile."""
    served, page = start(example("balcony")), visit()
    page.goto(served.address)
    served.done("balcony")
    page.goto(f"{served.address}p/balcony/notes?c=rail%201")
    page.get_by_text("Note anything, in words").click()
    page.evaluate(
        """async () => {
          const coming = redraw(location.href, written);
          document.getElementById('said').value = 'half a thought';
          await coming;
        }"""
    )
    assert page.evaluate("written()")
    assert page.get_by_label("What you saw or did").input_value() == "half a thought"
