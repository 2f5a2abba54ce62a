"""What the pages of build and care share: heading, findings, assumptions, amounts in words."""

from collections.abc import Callable

from rich.console import Console
from rich.table import Table

from brimful.design.care.model import Care
from brimful.findings import Finding
from brimful.quantities import Dimension, System, show
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.paper import terminal, text_of
from brimful.render.summary import COLOURS, loose, titled_table

Body = Callable[[Care, System, Console], None]
Sentence = Callable[[Care, System], str]


def system_of(care: Care) -> System:
    """The units of the report."""
    return System.METRIC if care.units == "metric" else System.US


def show_page(care: Care, findings: tuple[Finding, ...], answer: Sentence, body: Body) -> None:
    """Print a page to the terminal; on a narrow or piped one it stays readable."""
    print_page(care, findings, answer, body, terminal())


def page_text(care: Care, findings: tuple[Finding, ...], answer: Sentence, body: Body) -> str:
    """The page as plain text, as wide as a printed page."""
    return text_of(lambda console: print_page(care, findings, answer, body, console))


def print_page(care: Care, findings: tuple[Finding, ...], answer: Sentence, body: Body, console: Console) -> None:
    """The sentence first, then what to mind, then the tables, then what was assumed."""
    console.print(care.title, style="bold", markup=False)
    console.print(answer(care, system_of(care)), markup=False)
    if findings:
        console.print("\nTo mind", style="bold")
    for finding in findings:
        console.print(*finding_lines([finding]), style=COLOURS[finding.severity], markup=False)
    body(as_words(care), system_of(care), console)
    console.print(_assumptions(as_words(care)))


def amount(value: float, unit: str, system: System) -> str:
    """An amount of the order in words a shop understands."""
    if unit == "each":
        return f"{value:.0f}"
    if unit == "m":
        return show(value, Dimension.LENGTH, system)
    if unit == "kg":
        return show(value, Dimension.MASS, system)
    if unit == "l":
        return loose(value, system)
    return f"{value / 0.764554857984:.2f} cu yd" if system is System.US else f"{value:.2f} m³"


def money(value: float, currency: str) -> str:
    """A sum of money; a sign stands before it, letters behind.

    >>> money(1234.5, "$"), money(1234.5, "EUR")
    ('$1,234.50', '1,234.50 EUR')
    """
    return f"{value:,.2f} {currency}" if currency.isalpha() else f"{currency}{value:,.2f}"


def _assumptions(care: Care) -> Table:
    table = titled_table("\nAssumed here, because the plan does not say", ["to change it, set", "taken", "source"])
    for one in care.assumptions:
        table.add_row(one.field, f"{one.what}: {one.value}", f"[dim]{one.source}[/dim]")
    return table
