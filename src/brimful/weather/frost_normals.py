"""Frost dates as a weather service publishes them: one row a station, a column for each threshold and chance.

The layout of NOAA's annual normals 1991–2020 (read in public code and fixtures; special values from memory): columns
such as ANN-TMIN-PRBLST-T32FP10 hold MM/DD, the day on or after which the last 32 °F still comes with that chance;
PRBFST the day on or before which the first comes. Values are quoted and padded with blanks.
"""

import csv
import datetime
import re
from pathlib import Path

from brimful.errors import WeatherError
from brimful.records import record
from brimful.weather.file_text import read_text
from brimful.weather.problem import weather_error

_COLUMN = re.compile(r"ANN-TMIN-PRB(LST|FST)-T(\d{2})FP(\d{2})")
_NONE = {"-4444", "-6666", "-7777", "-9999", ""}  # never, too few years, rounds to nothing, missing (memory)


@record
class FrostDay:
    """One published date: the chance of a last frost on or after it, or of a first one on or before it."""

    threshold_c: float
    last: bool
    chance: float
    month: int
    day: int


def read_frost_normals(path: Path) -> tuple[FrostDay, ...]:
    """The frost dates of a station's normals file.

    Raises:
        WeatherError: no such columns, no station, or a date that is none
    """
    return frost_days(read_text(path), str(path))


def frost_days(text: str, file: str) -> tuple[FrostDay, ...]:
    """The frost dates in the text of a normals file; special values for "never" and "not known" are left out.

    Raises:
        WeatherError: as `read_frost_normals`
    """
    rows = [row for row in csv.reader(text.splitlines()) if row]
    columns = {i: m for i, name in enumerate(rows[0] if rows else ()) if (m := _COLUMN.fullmatch(name.strip()))}
    if not columns or len(rows) < 2:
        raise weather_error(
            file,
            "no frost columns" if not columns else "no station",
            expected="annual normals with columns such as ANN-TMIN-PRBLST-T32FP50, one row below them",
            remedy="Ask the weather service for its annual normals by station.",
            line=1,
        )
    return tuple(
        _frost_day(columns[i], rows[1][i].strip(), file)
        for i in columns
        if i < len(rows[1]) and rows[1][i].strip() not in _NONE
    )


def _frost_day(column: re.Match[str], value: str, file: str) -> FrostDay:
    try:
        date = datetime.datetime.strptime(f"2001/{value}", "%Y/%m/%d")
    except ValueError:
        raise _no_date(column[0], value, file) from None
    threshold = (int(column[2]) - 32) / 1.8
    return FrostDay(threshold, column[1] == "LST", int(column[3]) / 100, date.month, date.day)


def _no_date(column: str, value: str, file: str) -> WeatherError:
    return weather_error(file, f'"{value}" in {column}', expected="a date as MM/DD", remedy="Mend the file.", line=2)
