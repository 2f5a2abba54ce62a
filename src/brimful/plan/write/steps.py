"""What can be done to a plan's text, as data."""

from collections.abc import Mapping, Sequence
from datetime import date

from brimful.plan.positions import Path
from brimful.records import record

Value = str | bool | int | float | date | Sequence["Value"] | Mapping[str, "Value"]


class Refused(Exception):  # noqa: N818  (reads as what it says)
    """An edit that cannot be done, in words."""


@record
class Set:
    """Give a field a value; a table that is missing on the way is added."""

    path: Path
    value: Value


@record
class Remove:
    """Take out a field, a table, or an entry of a list, with the notes directly above a table or entry."""

    path: Path


@record
class Add:
    """Add an entry to a list, such as a row to `containers`: before the entry `at`, or at the end."""

    path: Path
    value: Value
    at: int | None = None


@record
class Duplicate:
    """Add an entry's like directly after it."""

    path: Path


@record
class Move:
    """Move an entry of a list to another place in it, counted from 0."""

    path: Path
    to: int


Step = Set | Remove | Add | Duplicate | Move


def called(path: Path) -> str:
    """A path as a person says it, entries counted from 1."""
    parts = [f"entry {part + 1}" if isinstance(part, int) else str(part)[:60] for part in path]
    return " ".join(parts) or "the plan"
