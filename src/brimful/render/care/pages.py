"""The three pages by name."""

from dataclasses import replace
from types import ModuleType

from brimful.design.care.model import Care
from brimful.findings import Finding
from brimful.render.care import feed, shop, work
from brimful.render.care.page import page_text, show_page

CONCERNS = {"feed": ("feed", "site")}
"""Fields whose assumptions a page lists, where not all of them do."""
PAGES: dict[str, ModuleType] = {"shop": shop, "work": work, "feed": feed}


def show_part_page(care: Care, findings: tuple[Finding, ...], part: str) -> None:
    """Print the page of one part."""
    show_page(_concerning(care, part), findings, PAGES[part].answer, PAGES[part].body)


def part_text(care: Care, findings: tuple[Finding, ...], part: str) -> str:
    """The page of one part as plain text."""
    return page_text(_concerning(care, part), findings, PAGES[part].answer, PAGES[part].body)


def _concerning(care: Care, part: str) -> Care:
    """Build and care with the assumptions that bear on a part: how pads are laid is no matter of feed."""
    if part not in CONCERNS:
        return care
    return replace(care, assumptions=tuple(one for one in care.assumptions if one.field.startswith(CONCERNS[part])))
