"""The exception tree: callers' mistakes and the outside world. A wrong plan is findings, never an exception.

BrimfulError
├── QuantityError      text that is not the quantity that was asked for
├── PlanUnreadable     the plan file is missing, too large, not text, not TOML
├── NotSaved           a text could not be saved; it is carried along, so that nothing is lost
│   └── PlanChanged    the plan on disk is not what it was when it was opened; both are carried along
├── CatalogError       a table cannot be read
├── WeatherError       a weather file cannot be used
├── JournalError       the journal cannot be opened, read or written
│   └── EntryRefused   an entry cannot be taken down as it stands
└── SolverError        a sum that should have converged did not
"""

from typing import Any


class BrimfulError(Exception):
    """Something that Brimful says in one sentence and without a traceback."""


class QuantityError(BrimfulError, ValueError):
    """Text that cannot be read as the quantity that was asked for; says what was given, expected, and what to do."""


class PlanUnreadable(BrimfulError):  # noqa: N818  (reads as what it says)
    """The plan file cannot be read at all: missing, too large, not text, not TOML."""


class NotSaved(BrimfulError):  # noqa: N818  (reads as what it says)
    """A text could not be saved; says why, and carries the text."""

    def __init__(self, words: str, mine: str) -> None:
        super().__init__(words)
        self.mine = mine


class PlanChanged(NotSaved):
    """The plan on disk is not what it was when it was opened: changed by someone else, or gone.

    `theirs` is the draft of what stands there now, with an empty text where nothing does.
    """

    def __init__(self, words: str, mine: str, theirs: Any) -> None:
        super().__init__(words, mine)
        self.theirs = theirs


class CatalogError(BrimfulError):
    """A catalogue table, ours or the user's, cannot be read; says which file and line."""


class WeatherError(BrimfulError):
    """A weather file cannot be used; says which file, line, what was given and expected."""


class JournalError(BrimfulError):
    """The journal cannot be opened, read or written; says where, why, and that nothing half was taken down."""


class EntryRefused(JournalError, ValueError):  # noqa: N818  (reads as what it says)
    """An entry cannot be taken down as it stands; says all that is wrong with it."""


class SolverError(BrimfulError):
    """A numerical solution did not converge; says on what and how far it came."""
