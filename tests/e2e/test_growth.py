"""The weeks as a slider: the run grows under the hand and the page follows, at rest for those who ask for it."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from tests.e2e.conftest import DEMO, Served


@pytest.mark.parametrize("motion", ["no-preference", "reduce"])
def test_the_run_grows_under_the_slider(server: Served, visit: Callable[..., Page], motion: str) -> None:
    """The picture changes at once, then the address; keys keep their place, and a chosen container stays chosen."""
    page = visit(reduced_motion=motion)
    page.goto(f"{server.address}p/{DEMO}/?c=gate%201")
    page.get_by_role("slider").focus()
    page.keyboard.press("End")
    expect(page.locator(".drawing img").first).to_have_attribute("src", re.compile("run-week-16"))
    page.wait_for_url("**week=16&c=gate%201")
    expect(page.get_by_role("slider")).to_be_focused()
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    page.wait_for_url("**week=8&c=gate%201")
    expect(page.locator(".weeks output")).to_have_text("8 weeks after planting")
    expect(page.locator(".stand[aria-current]")).to_have_count(1)
    assert page.wrong == []  # type: ignore[attr-defined]
