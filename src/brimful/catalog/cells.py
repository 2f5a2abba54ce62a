"""Cells: what a column of a table holds, read from text and checked. A row class declares its columns with these."""

import math
from collections.abc import Callable
from dataclasses import MISSING, Field, field, fields
from typing import TYPE_CHECKING, Any

from brimful.records import record

if TYPE_CHECKING:
    from brimful.quantities import Dimension

KPA_TO_M = 1 / 9.80665
"""Pressure in a table is kPa; inside it is metres of water of 1000 kg/m³ at standard gravity."""

PLAIN_NUMBER = "a plain number; its unit stands in the heading"

_CANONICAL = {
    "mm": ("LENGTH", 1e-3),
    "cm": ("LENGTH", 1e-2),
    "m": ("LENGTH", 1.0),
    "kpa": ("PRESSURE", KPA_TO_M),
    "l_h": ("FLOW", 1.0),
    "l": ("VOLUME", 1.0),
    "kg": ("MASS", 1.0),
    "kg_m3": ("DENSITY", 1.0),
    "m_s": ("SPEED", 1.0),
    "c": ("TEMPERATURE", 1.0),
}
"""Unit at the end of a heading → dimension, and its size in that dimension's canonical unit."""


@record
class Column:
    """One column: its heading, how a cell is read (ValueError says what was expected), and whether it may be empty."""

    heading: str
    read: Callable[[str], Any]
    required: bool
    default: Any = None
    stem: str = ""
    low: float = -math.inf
    high: float = math.inf
    dimension: str = ""

    def in_unit(self, unit: str) -> "Column | None":
        """The same column with its numbers in another unit of the same kind; None where there is no such unit."""
        from brimful.quantities import Dimension, parse

        if not self.dimension:
            return None
        dimension = Dimension[self.dimension]
        words = unit.replace("_", "/")
        try:
            parse(f"1 {words}", dimension)
        except ValueError:
            return None
        return Column(f"{self.stem}_{unit}", self._reader(words, dimension), self.required, self.default)

    def _reader(self, unit: str, dimension: "Dimension") -> Callable[[str], float]:
        from brimful.quantities import parse

        def read(cell: str) -> float:
            try:
                value = parse(f"{float(cell)!r} {unit}", dimension)
            except ValueError:
                raise ValueError(PLAIN_NUMBER) from None
            return _within(value, self.low, self.high, dimension.unit)

        return read


def columns_of(row_class: type) -> dict[str, Column]:
    """Field → column, in the order a row class declares them."""
    return {f.name: f.metadata["column"] for f in fields(row_class) if "column" in f.metadata}


def text(heading: str, *, optional: bool = False) -> Any:
    """A column of words."""
    return _field(Column(heading, str, not optional, ""))


def choice(heading: str, *allowed: str, optional: bool = False) -> Any:
    """A column that holds one of a few words."""
    known = {word: word for word in allowed}

    def read(cell: str) -> str:
        try:
            return known[cell]
        except KeyError:
            raise ValueError(f"one of {', '.join(allowed)}") from None

    return _field(Column(heading, read, not optional, ""))


def flag(heading: str) -> Any:
    """A column of yes and no."""
    known = {"yes": True, "no": False}

    def read(cell: str) -> bool:
        try:
            return known[cell]
        except KeyError:
            raise ValueError("yes or no") from None

    return _field(Column(heading, read, required=True))


def words(heading: str, *allowed: str, optional: bool = False) -> Any:
    """A column of words with | between them."""

    def read(cell: str) -> tuple[str, ...]:
        found = tuple(cell.split("|"))
        if "" in found or (allowed and not set(found) <= set(allowed)):
            raise ValueError(
                f"words with | between, each one of {', '.join(allowed)}" if allowed else "words with | between"
            )
        return found

    return _field(Column(heading, read, not optional, ()))


def number(heading: str, low: float, high: float, *, unit: str = "", optional: bool = False) -> Any:
    """A column of numbers from `low` to `high`, both canonical; the heading ends in the unit, which sets the scale."""
    dimension, scale = _CANONICAL[unit] if unit else ("", 1.0)
    full = f"{heading}_{unit}" if unit else heading

    def read(cell: str) -> float:
        try:
            value = float(cell) * scale
        except ValueError:
            raise ValueError(PLAIN_NUMBER) from None
        return value if low <= value <= high else _within(value, low, high, unit, scale)

    return _field(Column(full, read, not optional, None, heading, low, high, dimension))


def whole(heading: str, low: int, high: int, *, optional: bool = False) -> Any:
    """A column of whole numbers."""

    def read(cell: str) -> int:
        if not (cell.lstrip("-").isdecimal() and cell.isascii() and low <= int(cell[:9]) <= high):
            raise ValueError(f"a whole number from {low} to {high}")
        return int(cell)

    return _field(Column(heading, read, not optional))


def numbers(heading: str, low: float, high: float, *, scale: float = 1.0) -> Any:
    """A column of numbers with | between them; may be empty."""

    def read(cell: str) -> tuple[float, ...]:
        return tuple(_scaled(part, low, high, scale) for part in cell.split("|"))

    return _field(Column(heading, read, required=False, default=()))


def pairs(heading: str, low: float, high: float, *, scale: float = 1.0) -> Any:
    """A column of pairs a:b with | between them; may be empty."""

    def read(cell: str) -> tuple[tuple[float, float], ...]:
        found = [part.split(":") for part in cell.split("|")]
        if any(len(pair) != 2 for pair in found):
            raise ValueError("pairs height:diameter with | between them")
        return tuple((_scaled(a, 0.0, high, scale), _scaled(b, low, high, scale)) for a, b in found)

    return _field(Column(heading, read, required=False, default=()))


def _scaled(cell: str, low: float, high: float, scale: float) -> float:
    try:
        value = float(cell) * scale
    except ValueError:
        raise ValueError("plain numbers; their unit stands in the heading") from None
    return _within(value, low, high, "", scale)


def _within(value: float, low: float, high: float, unit: str, scale: float = 1.0) -> float:
    if not low <= value <= high:
        raise ValueError(f"{low / scale:.6g} to {high / scale:.6g} {unit}".rstrip())
    return value


def _field(column: Column) -> Any:
    default: Any = MISSING if column.required else column.default
    made: Field[Any] = field(default=default, metadata={"column": column})
    return made
