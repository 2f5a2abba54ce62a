"""A chart by itself in a browser: drawn live, its values under the pointer, a legend to choose from, day and night."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.e2e.conftest import DEMO, Served
from tests.e2e.test_page import AXE, LEAST_PX, STANDING_ALONE

FLOW = f"p/{DEMO}/chart/zone-1-flow"
MARKS = "#chart .mark-symbol.role-mark path"
BEYOND = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
DRAWN_MS = 60_000
"""The first of a machine is made then."""


@pytest.mark.parametrize(("size", "scheme"), [("desk", "light"), ("phone", "dark")])
def test_a_chart_draws_itself(server: Served, visit: Callable[..., Page], size: str, scheme: str) -> None:
    """Marks appear, the pointer shows values with their unit, the width is kept; nothing comes from elsewhere."""
    page = visit(size, color_scheme=scheme, reduced_motion="reduce")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(server.address + FLOW)
    expect(page.locator(MARKS).first).to_be_visible(timeout=DRAWN_MS)
    page.locator(MARKS).first.hover()
    expect(page.locator("#vg-tooltip-element")).to_be_visible()
    expect(page.locator("#vg-tooltip-element")).to_contain_text("% of the mean")
    expect(page.locator("#vg-tooltip-element")).to_contain_text("gph")
    assert page.evaluate(BEYOND) <= 0
    assert [one for one in asked if not one.startswith((server.address, "data:"))] == []
    assert page.wrong == []  # type: ignore[attr-defined]


@pytest.mark.parametrize(("size", "scheme"), [("desk", "light"), ("phone", "dark")])
@pytest.mark.parametrize("chart", ["zone-1-flow", "season-1-hot-week", "crew"])
def test_nothing_stands_in_a_readers_way(
    server: Served, visit: Callable[..., Page], chart: str, size: str, scheme: str
) -> None:
    """A drawn chart with its table open breaks no rule of accessibility that a machine can check."""
    page = visit(size, color_scheme=scheme, bypass_csp=True, reduced_motion="reduce")
    page.goto(f"{server.address}p/{DEMO}/chart/{chart}")
    expect(page.locator("#chart svg.marks")).to_be_visible(timeout=DRAWN_MS)
    page.locator("summary").click()
    page.evaluate(AXE)
    found = page.evaluate("() => axe.run(document, {resultTypes: ['violations']})")["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []
    assert page.evaluate(STANDING_ALONE, LEAST_PX) == []


def test_a_name_in_the_legend_holds_its_series(server: Served, visit: Callable[..., Page]) -> None:
    """A name touched, the other rows' points step back; touched again all stand as before."""
    page = visit()
    page.goto(server.address + FLOW)
    expect(page.locator(MARKS).first).to_be_visible(timeout=DRAWN_MS)
    faint = page.locator(f"{MARKS}[opacity='0.12']")
    expect(faint).to_have_count(0)
    page.locator("#chart .role-legend-label text").first.click()
    expect(faint).not_to_have_count(0)


def test_look_closer_leads_there_and_back(server: Served, visit: Callable[..., Page]) -> None:
    """From the picture of a chart to the live one and back to the lens, by links alone."""
    page = visit()
    page.goto(f"{server.address}p/{DEMO}/water")
    page.get_by_role("link", name="Look closer").first.click()
    expect(page.locator("#chart svg.marks")).to_be_visible(timeout=DRAWN_MS)
    page.get_by_role("link", name="Back to Water").click()
    expect(page).to_have_url(f"{server.address}p/{DEMO}/water")


def test_without_script_the_picture_stands(server: Served, visit: Callable[..., Page]) -> None:
    """The picture and the table are there."""
    page = visit(java_script_enabled=False)
    page.goto(server.address + FLOW)
    expect(page.locator("#chart img")).to_be_visible()
    page.locator("summary").click()
    expect(page.get_by_role("columnheader", name="% of the mean")).to_be_visible()


def test_a_machine_makes_its_script_once(
    start: Callable[..., Served], visit: Callable[..., Page], tmp_path: Path
) -> None:
    """With an empty cache the chart draws all the same, and what was made lies in the cache afterwards."""
    from brimful.services import example

    served = start(example("balcony"), XDG_CACHE_HOME=str(tmp_path / "cache"))
    page = visit()
    page.goto(f"{served.address}p/balcony/chart/zone-1-flow")
    expect(page.locator("#chart svg.marks")).to_be_visible(timeout=DRAWN_MS)
    assert [one.suffixes for one in (tmp_path / "cache" / "brimful").iterdir()] == [[".js", ".gz"]]
