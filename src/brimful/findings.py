"""A wrong or doubtful plan is data: a Finding says how bad, where, what, and what mends it."""

from dataclasses import dataclass, field
from difflib import get_close_matches
from enum import Enum

from brimful.records import record


class Severity(Enum):
    """How bad a finding is; an error stops the design, a warning and a note do not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where in a file: line and column count from 1; 0 means the file as a whole. `field` is the dotted path."""

    file: str = ""
    line: int = 0
    column: int = 0
    field: str = ""

    def __str__(self) -> str:
        parts = [self.file, *(str(n) for n in (self.line, self.column) if n)]
        return ":".join(part for part in parts if part)


@record
class Finding:
    """One thing to know: a stable code, how bad, where, what is so, and what to do about it."""

    code: str
    severity: Severity
    message: str
    remedy: str = ""
    where: Place = field(default_factory=Place)


def nearest(word: str, known: list[str] | tuple[str, ...], most: int = 3) -> list[str]:
    """The known words most like `word`, best first; empty where nothing is near.

    >>> nearest("hieght", ["height", "width", "weight"])
    ['height', 'weight']
    """
    return get_close_matches(word, known, n=most, cutoff=0.6)


def did_you_mean(word: str, known: list[str] | tuple[str, ...]) -> str:
    """A ready sentence that offers the nearest known words, or an empty string.

    >>> did_you_mean("hieght", ["height", "width"])
    'Did you mean "height"?'
    """
    near = nearest(word, known)
    quoted = " or ".join(f'"{w}"' for w in near)
    return f"Did you mean {quoted}?" if near else ""
