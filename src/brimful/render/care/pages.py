"""The three pages by name."""

from types import ModuleType

from brimful.design.care.model import Care
from brimful.findings import Finding
from brimful.render.care import feed, shop, work
from brimful.render.care.page import page_text, show_page

PAGES: dict[str, ModuleType] = {"shop": shop, "work": work, "feed": feed}


def show_part_page(care: Care, findings: tuple[Finding, ...], part: str) -> None:
    """Print the page of one part."""
    show_page(care, findings, PAGES[part].answer, PAGES[part].body)


def part_text(care: Care, findings: tuple[Finding, ...], part: str) -> str:
    """The page of one part as plain text."""
    return page_text(care, findings, PAGES[part].answer, PAGES[part].body)
