"""Changing a plan in a browser: from the first question to the book, edits undone, conflicts, dragging, the phone."""

import shutil
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from tests.e2e.conftest import SIZES, Served

from brimful.services import example

BEYOND = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
SQUARE, BALCONY = "courthouse_square", "balcony"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Two examples, with what stands beside them, to be changed."""
    place = tmp_path / "plans"
    place.mkdir()
    for name in (f"{SQUARE}.toml", f"{BALCONY}.toml", "fallon_2015.csv"):
        shutil.copy(example(SQUARE).parent / name, place / name)
    return place


def row_of(path: Path, number: int = 0) -> dict[str, Any]:
    """A row of a plan as its file says it."""
    found: dict[str, Any] = tomllib.loads(path.read_text())["containers"][number]
    return found


def field(page: Page, path: str) -> Any:
    """A field on the page by its path in the plan."""
    return page.locator(f'[data-path="{path}"]')


@pytest.mark.parametrize("size", SIZES)
def test_from_the_first_question_to_the_book(
    start: Callable[..., Served], visit: Callable[..., Page], tmp_path: Path, size: str
) -> None:
    """In an empty folder the questions lead to a plan, its Row page, and its book as a PDF."""
    place = tmp_path / "empty"
    place.mkdir()
    served, page = start(place), visit(size)
    page.goto(served.address)
    page.get_by_role("link", name="A new plan").click()
    page.wait_for_load_state()  # until the script listens
    page.get_by_label("How wide are they at the rim?").fill("24 psi")
    expect(page.locator(".said.error").first).to_contain_text("pressure")
    page.get_by_label("What is the plan called?").fill("Quay wall")
    page.get_by_label("How many containers?").fill("5")
    page.get_by_label("How wide are they at the rim?").fill("24 in")
    page.get_by_label("How high are they?").fill("20 in")
    expect(page.locator("#so-far")).to_contain_text("minute", timeout=30_000)
    assert page.evaluate(BEYOND) <= 0
    page.get_by_role("button", name="Make the plan").click()
    expect(page.locator(".stand")).to_have_count(5)
    served.done("quay-wall")
    book = page.request.get(f"{served.address}p/quay-wall/download/book-letter.pdf")
    assert book.body().startswith(b"%PDF")
    assert page.wrong == []  # type: ignore[attr-defined]


def test_an_edit_shows_at_once_and_is_undone(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """A field left is saved and the page redrawn in place; Ctrl-Z takes it back, Ctrl-Shift-Z does it again."""
    path, page = folder / f"{BALCONY}.toml", visit()
    before = path.read_text()
    served = start(folder)
    page.goto(f"{served.address}p/{BALCONY}/edit?field=containers.1.count")
    count = row_of(path)["count"]
    expect(field(page, "containers.1.count")).to_be_focused()
    field(page, "containers.1.count").fill(str(count + 1))
    page.keyboard.press("Tab")
    expect(page.locator(".undo [role=status]")).to_contain_text(f"{count} → {count + 1}")
    assert row_of(path)["count"] == count + 1
    assert page.evaluate("() => document.activeElement.matches('[data-path]')"), "whoever tabs on stays in the form"
    page.evaluate("() => document.activeElement.blur()")
    page.keyboard.press("Control+z")
    expect(page.locator(".undo [role=status]")).to_contain_text("Undone")
    assert path.read_text() == before
    page.keyboard.press("Control+Shift+z")
    expect(page.locator(".undo [role=status]")).to_contain_text("Done last")
    assert row_of(path)["count"] == count + 1
    assert page.wrong == []  # type: ignore[attr-defined]


def test_what_has_not_changed_of_the_run_stays_and_what_has_is_new(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """After edits of all kinds the run is what a page loaded anew shows; a row that nobody touched is not made anew."""
    page, served = visit(), start(folder)
    run = "() => [...document.querySelectorAll('#page > .symbols, #page > .run')].map((one) => one.outerHTML).join('')"
    page.goto(f"{served.address}p/{SQUARE}/edit?at=containers.1")
    page.evaluate("() => document.querySelectorAll('.run .row').forEach((row) => { row.untouched = true; })")
    for path, words in (("name", "east side"), ("apart", "9 ft"), ("count", "7"), ("count", "5")):
        page.evaluate("() => performance.clearMeasures()")
        field(page, f"containers.1.{path}").fill(words)
        page.keyboard.press("Enter")
        page.wait_for_function("() => performance.getEntriesByName('edit').length")
        if path == "name":
            assert page.evaluate("() => document.querySelector('.run .row').untouched"), "the row was made anew"
        served.done(SQUARE)
        changed = page.evaluate(run)
        assert words in changed or path == "apart"
        page.reload()
        assert page.evaluate(run) == changed
    assert page.wrong == []  # type: ignore[attr-defined]


def test_a_value_that_stops_the_plan_is_said_beside_it(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """What is wrong is said while it is typed, saved all the same, marked at its field, and gone with one undo."""
    path, page = folder / f"{BALCONY}.toml", visit()
    before = path.read_text()
    page.goto(f"{start(folder).address}p/{BALCONY}/edit?field=supply.pressure")
    field(page, "supply.pressure").fill("3 gal")
    expect(page.locator(".box .live .error")).to_contain_text("pressure")
    field(page, "supply.pressure").press("Tab")
    expect(page.locator(".box.marked")).to_contain_text("Stops the plan")
    page.locator("#undo-button").click()
    expect(page.locator(".box.marked")).to_have_count(0)
    assert path.read_text() == before


def test_what_someone_else_saved_is_shown_beside_mine(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """A file changed while a field is being written is not overwritten: both are shown, and either can be kept."""
    path, page = folder / f"{BALCONY}.toml", visit()
    page.goto(f"{start(folder).address}p/{BALCONY}/edit?field=title")
    field(page, "title").fill("Mine")
    theirs = path.read_text() + "\n# a note of someone else\n"
    path.write_text(theirs)
    field(page, "title").press("Tab")
    expect(page.locator(".versions")).to_contain_text("a note of someone else")
    expect(page.locator(".versions")).to_contain_text("Mine")
    assert path.read_text() == theirs
    page.get_by_role("link", name="Keep theirs").click()
    assert path.read_text() == theirs
    expect(field(page, "title")).not_to_have_value("Mine")


def test_everything_can_be_done_without_script(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """Without script, on the phone: a field saved, a row doubled, a plant added, undone, by buttons alone."""
    path, page = folder / f"{BALCONY}.toml", visit("phone", java_script_enabled=False)
    before = path.read_text()
    page.goto(f"{start(folder).address}p/{BALCONY}/edit?at=containers.1")
    page.locator('[data-path="containers.1.name"]').fill("north rail")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".undo [role=status]")).to_contain_text("north rail")
    page.get_by_role("button", name="Duplicate").click()
    assert row_of(path, 1)["name"] == "north rail b"
    page.get_by_role("link", name="Add a plant").click()
    page.get_by_label("Name", exact=True).fill("lantana")
    page.get_by_role("button", name="Search").click()
    page.locator(".offers button").first.click()
    assert "lantana" in str(row_of(path, 1)["plants"])
    for _ in range(3):
        page.get_by_role("button", name="Undo").click()
    assert path.read_text() == before
    assert page.wrong == []  # type: ignore[attr-defined]


def drag(page: Page, what: Any, dx: float, dy: float) -> None:
    """Take something by its middle and let it go so many pixels further, when nothing is under way."""
    page.wait_for_function("() => !document.body.dataset.doing", timeout=120_000)
    page.wait_for_timeout(600)  # the last redraw fades in
    what.scroll_into_view_if_needed()
    box = what.bounding_box()
    assert box is not None
    at = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(*at)
    page.mouse.down()
    page.mouse.move(at[0] + dx, at[1] + dy, steps=3)
    page.mouse.up()


def test_a_row_is_dragged_and_moved_by_keys(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path
) -> None:
    """A row dragged on the site plan stands there in the file; its end turns it; keys move it; undo leads back."""
    path, page = folder / f"{SQUARE}.toml", visit()
    before, rail = path.read_text(), ".broad [data-row='1']"
    page.goto(f"{start(folder).address}p/{SQUARE}/edit?at=containers.1")

    ones = page.locator(f"{rail} [data-kind=container]")
    drag(page, ones.nth(2), 30, 60)
    expect(page.locator(".undo [role=status]")).to_contain_text("steps moved")
    east, north = row_of(path)["start"]
    assert float(east.split()[0]) > 0 > float(north.split()[0])
    drag(page, ones.last, -5, 80)
    expect(page.locator(".undo [role=status]")).to_contain_text("steps turned")
    assert float(row_of(path)["heading"].split()[0]) > 90
    page.locator(rail).focus()
    page.keyboard.press("Shift+ArrowUp")
    expect(page.locator(".undo [role=status]")).to_contain_text("steps moved")
    page.wait_for_function("() => document.activeElement.dataset.row === '1'")
    for left in (2, 1, 0):
        page.locator("#undo-button").click()
        expect(page.locator(".undo [role=status]")).to_contain_text("Done last" if left else "Undone")
        page.wait_for_timeout(300)
    assert path.read_text() == before
    assert page.wrong == []  # type: ignore[attr-defined]


@pytest.mark.parametrize("size", SIZES)
def test_every_table_fits_its_screen(
    start: Callable[..., Served], visit: Callable[..., Page], folder: Path, size: str
) -> None:
    """Each section, the text, the plants and the comparison stand within the width and say nothing in the console."""
    page, served = visit(size), start(folder)
    page.goto(f"{served.address}p/{SQUARE}/edit")
    tabs = [one.get_attribute("href") for one in page.locator(".tabs li a").all()]
    assert len(tabs) > 10
    more = [
        f"/p/{SQUARE}/text",
        f"/p/{SQUARE}/pick?at=recipe.heat.plants",
        f"/compare?a={SQUARE}&b={BALCONY}",
        "/start",
        "/?all",
    ]
    for path in (*tabs, *more):
        page.goto(f"{served.address.rstrip('/')}{path}")
        assert page.evaluate(BEYOND) <= 0, path
    assert page.wrong == []  # type: ignore[attr-defined]
