"""Rows about money: what a piece, a metre, a litre or a kilogram costs, and in what packs or rolls it is sold."""

from collections.abc import Iterator

from brimful.catalog.cells import choice, number, numbers, text
from brimful.catalog.rows.row import Row
from brimful.records import record


@record(kw_only=True)
class Price(Row):
    """What one unit of a thing costs; the key is the thing's own key in its table.

    `pack` is how many units one pack holds, `rolls` the lengths of roll [m] it is sold in; where `currency` is empty
    the price is in the plan's own.
    """

    table = "prices"
    name: str = text("name", optional=True)
    per: str = choice("per", "each", "m", "l", "kg", "m3")
    price: float = number("price", 0, 100000)
    pack: float | None = number("pack", 1e-6, 1e6, optional=True)
    rolls: tuple[float, ...] = numbers("rolls", 0.1, 2000)
    supplier: str = text("supplier", optional=True)
    currency: str = text("currency", optional=True)

    @property
    def names(self) -> tuple[str, ...]:
        """Its name, where the table gives one of its own."""
        return (self.name,) if self.name else ()

    def faults(self) -> Iterator[str]:
        """Only what is sold by length comes in rolls."""
        if self.rolls and self.per != "m":
            yield f"rolls were given for a thing sold by {self.per}; expected them for things sold by m only"
