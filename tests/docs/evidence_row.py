"""One row of docs/evidence.md, and how it is written."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

CERTAINTIES = ("read", "memory", "practice", "calculated")


@dataclass(frozen=True, slots=True)
class Row:
    """A published value beside ours: what, source, the value as printed, what gives ours, how far off it may be.

    `certainty` is of the published value: read in the source, from memory, practice of the trade, or calculated apart.
    """

    what: str
    source: str
    certainty: str
    published: str
    ours: Callable[[], float]
    tolerance: float

    @property
    def decimals(self) -> int:
        """Decimals that ours is written with: one more than the published value has."""
        return len(self.published.partition(".")[2]) + 1

    def difference(self) -> float:
        """Ours less the published value."""
        return float(self.ours()) - float(self.published)

    def line(self) -> str:
        """The row as a line of the table."""
        off = f"{self.difference():+z.{self.decimals}f}"
        nothing = f"{0:.{self.decimals}f}"
        ours = f"{float(self.ours()):z.{self.decimals}f}"
        cells = (self.what, self.source, self.published, ours, off.replace(f"+{nothing}", "0"), self.certainty)
        return f"| {' | '.join(cells)} |"


def lines(rows: tuple[Row, ...]) -> Iterator[str]:
    """A table of rows."""
    yield "| what | source | published | ours | difference | certainty |"
    yield "|---|---|---|---|---|---|"
    yield from (row.line() for row in rows)
