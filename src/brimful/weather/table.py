"""Daily weather from a table: CSV with a header, split by comma, semicolon or tab."""

import csv
import math
from collections.abc import Mapping, Sequence

import numpy as np

from brimful.records import record
from brimful.weather import dates
from brimful.weather.columns import Layout, layout_of
from brimful.weather.problem import clip, weather_error
from brimful.weather.raw import RawDays
from brimful.weather.record import Dates, FloatArray, WeatherNote

_MISSING = frozenset({"", "na", "n/a", "nan", "null", "none", "-", "--", "m", "no record", "missing"})
_SENTINELS = (-9999.0, -999.0)
_LARGEST = 1e9  # in no unit is any weather larger; such a value is found impossible later


@record
class Rows:
    """A table as text: its header, the columns below it, and each row's line in the file."""

    header: Sequence[str]
    header_line: int
    columns: Sequence[Sequence[str]]
    lines: Sequence[int]
    decimal_comma: bool


def read_table(text: str, given: Mapping[str, str], file: str) -> RawDays:
    """The days of a table; `given` maps a key (date, tmax, tmin, rain …) to "HEADER unit".

    Raises:
        WeatherError: no table, no dates, no temperatures, or a unit that is missing or wrong
    """
    rows = _rows(text, file)
    layout = layout_of(rows.header, given, file=file, line=rows.header_line)
    notes = list(layout.notes)
    days = _dates(rows, layout, notes)
    values = {}
    for column in layout.columns:
        numbers = _numbers(rows, column.at, notes)
        values[column.variable.field] = (numbers - column.unit.zero) * column.unit.factor
    return RawDays(days, values, np.asarray(rows.lines), tuple(notes))


def _rows(text: str, file: str) -> Rows:
    lines = text.splitlines() or [""]
    first = next((n for n, line in enumerate(lines) if line.strip() and not line.lstrip().startswith("#")), 0)
    delimiter = max(",;\t", key=lines[first].count)
    reader = csv.reader(lines[first:], delimiter=delimiter)
    try:
        table = [(reader.line_num + first, row) for row in reader if row]
    except csv.Error as problem:
        raise _no_table(file, first + reader.line_num, f"the line cannot be read as CSV ({problem})") from problem
    if not table or len(table[0][1]) < 3:
        raise _no_table(file, first + 1, f'the line "{clip(lines[first])}" is no header of a table')
    (header_line, header), body = table[0], table[1:]
    if not body:
        raise _no_table(file, header_line, "there are no days below the header")
    width = len(header)
    columns = list(zip(*(row if len(row) == width else _fitted(row, width) for _, row in body), strict=True))
    names = [name.strip() for name in header]
    return Rows(names, header_line, columns, [line for line, _ in body], delimiter == ";")


def _fitted(row: list[str], width: int) -> list[str]:
    return row[:width] + [""] * (width - len(row))


def _no_table(file: str, line: int, given: str) -> Exception:
    return weather_error(
        file,
        given,
        expected="a header with the columns' names, then one row a day",
        remedy="Save the days as CSV with columns date, tmax_c, tmin_c, rain_mm or the like.",
        line=line,
    )


def _dates(rows: Rows, layout: Layout, notes: list[WeatherNote]) -> Dates:
    if "date" in layout.dates:
        cells = rows.columns[layout.dates["date"]]
        days, unsure = dates.from_text(cells)
        if unsure:
            message = f'Dates like "{clip(cells[0])}" can be read two ways; written 2015-04-22 they can not.'
            notes.append(WeatherNote("date_order", message, rows.lines[0]))
    else:
        parts = [_numbers(rows, layout.dates[key], notes) for key in ("year", "month", "day")]
        cells = ["-".join(rows.columns[layout.dates[key]][n] for key in ("year", "month", "day")) for n in _range(rows)]
        whole = [np.where((np.abs(part) < 1e4) & (part == np.floor(part)), part, 0).astype(np.int64) for part in parts]
        days = dates.from_parts(*whole)
    wrong = np.flatnonzero(np.isnat(days))
    if wrong.size:
        at = int(wrong[0])
        message = f'{wrong.size} rows have no such date, first "{clip(cells[at])}"; they were left out.'
        notes.append(WeatherNote("bad_date", message, rows.lines[at]))
    return days


def _range(rows: Rows) -> range:
    return range(len(rows.lines))


def _numbers(rows: Rows, at: int, notes: list[WeatherNote]) -> FloatArray:
    """A column's numbers; NaN where a cell is empty, a known word for missing, or no number (which is noted)."""
    cells = rows.columns[at]
    if rows.decimal_comma:
        cells = [cell.replace(",", ".") for cell in cells]
    try:
        numbers = np.array([float(cell) for cell in cells])
    except ValueError:
        numbers = np.array([_number(cell) for cell in cells])
        odd = [n for n, cell in enumerate(cells) if math.isnan(numbers[n]) and cell.strip().lower() not in _MISSING]
        if odd:
            where = f'{len(odd)} cells of the column "{rows.header[at]}" are no numbers, first "{clip(cells[odd[0]])}"'
            notes.append(WeatherNote("no_number", f"{where}; they count as not known.", rows.lines[odd[0]]))
    numbers[np.isin(numbers, _SENTINELS)] = np.nan
    held: FloatArray = np.clip(numbers, -_LARGEST, _LARGEST)
    return held


def _number(cell: str) -> float:
    if cell.strip().lower() in ("t", "trace"):
        return 0.0
    try:
        return float(cell)
    except ValueError:
        return math.nan
