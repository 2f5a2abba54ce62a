"""Daily weather from GHCN-Daily by-station files, in both layouts.

The lean one has no header and one element of one day a line: ID, YYYYMMDD, ELEMENT, VALUE, M-FLAG, Q-FLAG, S-FLAG,
OBS-TIME (NOAA readme-by_station, read). The wide one has a header, STATION, DATE, LATITUDE, LONGITUDE, ELEVATION, NAME,
and for each element a column and its flags in ELEMENT_ATTRIBUTES (memory). Values that failed a quality check (Q-FLAG)
are dropped. There is no radiation or humidity in either.
"""

import csv
import math
import re
from collections.abc import Iterator, Sequence

import numpy as np

from brimful.weather import dates
from brimful.weather.problem import clip, weather_error
from brimful.weather.raw import RawDays
from brimful.weather.record import SERVICE_WIND_HEIGHT_M, FloatArray, WeatherNote

# element → field of the record, and the size of one unit of the file: tenths of °C, mm and m/s (read), minutes (memory)
ELEMENTS = {
    "TMAX": ("tmax_c", 0.1),
    "TMIN": ("tmin_c", 0.1),
    "PRCP": ("rain_mm", 0.1),
    "AWND": ("wind_m_s", 0.1),
    "TSUN": ("sunshine_h", 1 / 60),
}
_LEAN = re.compile(r'"?[A-Z]{2}[A-Z0-9_-]{9}"?,"?\d{8}"?,"?[A-Z]{2}[A-Z0-9]{2}"?,')
_MISSING = -9999.0


def is_lean(first_line: str) -> bool:
    """Whether a line is a row of the lean layout.

    >>> is_lean("USW00024233,20150422,TMAX,156,,,W,2400")
    True
    """
    return _LEAN.match(first_line) is not None


def is_wide(first_line: str) -> bool:
    """Whether a line is a header of the wide layout: flags beside each element tell it from an export in °F."""
    header = [cell.strip().strip('"').upper() for cell in first_line.split(",")]
    return {"STATION", "DATE"} <= set(header) and any(name.endswith("_ATTRIBUTES") for name in header)


def read_lean(text: str, file: str) -> RawDays:
    """The days of a file in the lean layout.

    Raises:
        WeatherError: a line that is not of the layout, two stations in one file, or no temperatures
    """
    found: dict[str, dict[str, float]] = {}
    lines: dict[str, int] = {}
    failed: list[int] = []
    station = ""
    for line, row in _rows(text, file):
        if len(row) < 6:
            raise _bad(
                file,
                line,
                f'the line "{clip(",".join(row))}" has {len(row)} parts',
                "ID, date, element, value and flags",
            )
        station = _one_station(station or row[0], row[0], file, line)
        element = row[2].strip()
        if element not in ELEMENTS:
            continue
        lines.setdefault(row[1], line)
        found.setdefault(row[1], {})
        if row[5].strip():
            failed.append(line)
            continue
        found[row[1]][element] = _value(row[3], element, file, line)
    return _days(found, lines, failed)


def read_wide(text: str, file: str) -> RawDays:
    """The days of a file in the wide layout; latitude and elevation come with it.

    Raises:
        WeatherError: a value that is not a number, two stations in one file, or no temperatures
    """
    rows = _rows(text, file)
    header = [name.strip().upper() for name in next(rows)[1]]
    at = {name: n for n, name in enumerate(header)}
    found: dict[str, dict[str, float]] = {}
    lines: dict[str, int] = {}
    failed: list[int] = []
    station, first = "", None
    for line, row in rows:
        cells = row + [""] * (len(header) - len(row))
        first = first or cells
        station = _one_station(station or cells[at["STATION"]], cells[at["STATION"]], file, line)
        day = cells[at["DATE"]].strip()
        lines.setdefault(day, line)
        values = found.setdefault(day, {})
        for element in ELEMENTS:
            text_value = cells[at[element]].strip() if element in at else ""
            flags = cells[at[f"{element}_ATTRIBUTES"]].split(",") if f"{element}_ATTRIBUTES" in at else []
            if text_value and len(flags) > 1 and flags[1].strip():
                failed.append(line)
            elif text_value:
                values[element] = _value(text_value, element, file, line)
    latitude, elevation = (
        _float(first[at[name]]) if first and name in at else None for name in ("LATITUDE", "ELEVATION")
    )
    return _days(found, lines, failed, latitude, elevation)


def _rows(text: str, file: str) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(text.splitlines())
    try:
        for row in reader:
            if row:
                yield reader.line_num, row
    except csv.Error as problem:
        raise _bad(
            file, reader.line_num, f"the line cannot be read as CSV ({problem})", "a row of GHCN-Daily"
        ) from problem


def _days(
    found: dict[str, dict[str, float]],
    lines: dict[str, int],
    failed: Sequence[int],
    latitude_deg: float | None = None,
    elevation_m: float | None = None,
) -> RawDays:
    days = list(found)
    values: dict[str, FloatArray] = {}
    for element, (field, _) in ELEMENTS.items():
        numbers = np.array([found[day].get(element, math.nan) for day in days])
        if np.isfinite(numbers).any():
            values[field] = numbers
    notes: tuple[WeatherNote, ...] = ()
    if failed:
        message = f"{len(failed)} values failed the source's quality check; they count as not known."
        notes = (WeatherNote("quality", message, failed[0]),)
    parsed, _ = dates.from_text(days)
    at = np.array([lines[day] for day in days], dtype=np.int64)
    return RawDays(parsed, values, at, notes, SERVICE_WIND_HEIGHT_M, latitude_deg, elevation_m)


def _value(text: str, element: str, file: str, line: int) -> float:
    number = _float(text)
    if number is None:
        raise _bad(file, line, f'{element} is "{clip(text)}"', "a whole number of tenths")
    return math.nan if number == _MISSING else number * ELEMENTS[element][1]


def _float(text: str) -> float | None:
    try:
        number = float(text)
    except ValueError:
        return None
    return number if math.isfinite(number) else None


def _one_station(first: str, this: str, file: str, line: int) -> str:
    if first != this:
        raise _bad(file, line, f'the station changes from "{clip(first)}" to "{clip(this)}"', "one station a file")
    return first


def _bad(file: str, line: int, given: str, expected: str) -> Exception:
    return weather_error(file, given, expected=expected, remedy="Fetch the station's file again.", line=line)
