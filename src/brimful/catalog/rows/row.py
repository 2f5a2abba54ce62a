"""What every row has, and checks that several kinds of row share.

`certainty` is how sure the row's main figures are; where some are less sure, `source` says which:
read: seen in the source; memory: recalled, not checked; practice: habit of the trade, no source; calculated: follows
from others; assumed: chosen for this table.
"""

from collections.abc import Iterator
from typing import ClassVar

from brimful.catalog.cells import choice, text
from brimful.records import record

CERTAINTIES = ("read", "memory", "practice", "calculated", "assumed")


@record(kw_only=True)
class Row:
    """What every row has."""

    table: ClassVar[str]
    key: str = text("key")
    source: str = text("source")
    certainty: str = choice("certainty", *CERTAINTIES)

    @property
    def names(self) -> tuple[str, ...]:
        """Other words a person may call it by."""
        return (self.name,) if hasattr(self, "name") else ()

    def faults(self) -> Iterator[str]:
        """What does not fit together within the row, each a sentence: what was given, what was expected."""
        return iter(())


def in_order(what: str, *values: float) -> Iterator[str]:
    """A fault where the values do not rise."""
    if list(values) != sorted(values):
        given = ", ".join(f"{v:.6g}" for v in values)
        yield f"{what} {given} was given; expected each at least the one before it"
