"""Rows about money: what a piece or a metre costs, in the plan's own currency."""

from dataclasses import dataclass

from brimful.catalog.cells import choice, number
from brimful.catalog.rows.row import Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Price(Row):
    """What one piece or one metre of a thing costs; the key is the thing's own key in its table."""

    table = "prices"
    per: str = choice("per", "each", "m", "l")
    price: float = number("price", 0, 100000)
