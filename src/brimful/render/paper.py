"""What words are printed on: the terminal as wide as it is, or plain text as wide as a printed page."""

import io
from collections.abc import Callable

from rich.console import Console

PAGE = 100
"""Letters across where no terminal says how wide it is."""


def terminal() -> Console:
    """The terminal; on a piped one the text stays as wide as a page."""
    console = Console(highlight=False, emoji=False)
    return console if console.is_terminal else Console(highlight=False, emoji=False, width=PAGE)


def text_of(print_on: Callable[[Console], None]) -> str:
    """What a function prints, as plain text as wide as a page."""
    page = io.StringIO()
    print_on(Console(file=page, width=PAGE, no_color=True, highlight=False, emoji=False))
    return page.getvalue()
