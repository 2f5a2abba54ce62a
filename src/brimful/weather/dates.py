"""Dates as weather files write them, to numpy days; what is no date becomes NaT."""

import re
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from brimful.weather.record import Dates

_YEAR_FIRST = re.compile(r"\s*(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?\s*")
_COMPACT = re.compile(r"\s*(\d{4})(\d{2})(\d{2})\s*")
_YEAR_LAST = re.compile(r"\s*(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})(?:[T ].*)?\s*")
_NO_DATE = ("0", "0", "0")

Whole = NDArray[np.int64]


def from_text(cells: Sequence[str]) -> tuple[Dates, bool]:
    """The days of a column of dates, and whether day-first or month-first could not be told apart.

    2015-04-22, 2015/4/22, 20150422, and 4/22/2015 or 22.4.2015: which of the two, the column itself tells by a number
    above 12; where none is, dots mean day first and slashes month first.
    """
    shape, order = _shape_of(next((cell for cell in cells if cell.strip()), ""), cells)
    matches = [shape.fullmatch(cell) for cell in cells]
    parts = np.array([match.groups() if match else _NO_DATE for match in matches], dtype=np.int64).reshape(-1, 3)
    if order != "year last":
        return from_parts(parts[:, 0], parts[:, 1], parts[:, 2]), False
    day_first = bool((parts[:, 0] > 12).any())
    month_first = bool((parts[:, 1] > 12).any())
    unsure = not day_first and not month_first
    if day_first or (unsure and "." in cells[0]):
        return from_parts(parts[:, 2], parts[:, 1], parts[:, 0]), unsure
    return from_parts(parts[:, 2], parts[:, 0], parts[:, 1]), unsure


def from_parts(year: Whole, month: Whole, day: Whole) -> Dates:
    """The days of year, month and day columns; NaT where there is no such day."""
    possible = (year >= 1800) & (year <= 2200) & (month >= 1) & (month <= 12) & (day >= 1) & (day <= 31)
    safe = [np.where(possible, part, 1) for part in (year, month, day)]
    months = (safe[0] - 1970) * 12 + safe[1] - 1
    dates = months.astype("datetime64[M]").astype("datetime64[D]") + (safe[2] - 1).astype("timedelta64[D]")
    real = possible & (dates.astype("datetime64[M]").astype(np.int64) == months)
    return np.where(real, dates, np.datetime64("NaT", "D"))


def _shape_of(first: str, cells: Sequence[str]) -> tuple[re.Pattern[str], str]:
    for shape, order in ((_YEAR_FIRST, "year first"), (_COMPACT, "year first"), (_YEAR_LAST, "year last")):
        if shape.fullmatch(first):
            return shape, order
    likely = next((c for c in cells[:50] if _YEAR_FIRST.fullmatch(c) or _YEAR_LAST.fullmatch(c)), "")
    return _shape_of(likely, ()) if likely else (_YEAR_FIRST, "year first")
