"""Which column of a table is what, and in which unit: from the plan's column map, else from the headers."""

import re
from collections.abc import Mapping, Sequence

from brimful.errors import WeatherError
from brimful.findings import did_you_mean
from brimful.quantities.units import Unit
from brimful.records import record
from brimful.weather.problem import clip, weather_error
from brimful.weather.record import WeatherNote
from brimful.weather.variables import BY_KEY, BY_NAME, Variable

DATE_KEYS = ("date", "year", "month", "day")
_DATE_NAMES = {"date": "date", "time": "date", "datum": "date", "year": "year", "month": "month", "day": "day"}
_BRACKETED = re.compile(r"(?P<name>.*?)\s*[(\[]\s*(?P<unit>[^()\[\]]+?)\s*[)\]]")
_ALIASES = {"rh": "rh_mean", "humidity": "rh_mean", "precipitation": "rain", "dew_point": "dew", "sun": "sunshine"}


@record
class Column:
    """One column of the table: where it stands and what it holds."""

    at: int
    variable: Variable
    unit: Unit


@record
class Layout:
    """Where everything stands in a table: the date columns by key, the variables, and what was left out."""

    dates: Mapping[str, int]
    columns: tuple[Column, ...]
    notes: tuple[WeatherNote, ...] = ()


def layout_of(header: Sequence[str], given: Mapping[str, str], *, file: str, line: int) -> Layout:
    """What stands where. Headers are matched by common names; `given` (key → "HEADER unit") goes before them.

    Raises:
        WeatherError: a given column is not there, a unit is not one, a date or temperature column is missing
    """
    place = _Table(tuple(header), file, line)
    asked = {_key(key, place): text for key, text in given.items()}
    dates, columns, notes = _found(place, skip=set(asked))
    for key, text in asked.items():
        if key in DATE_KEYS:
            dates[key] = place.find(text, key)[0]
        elif text.strip():
            columns[key] = place.column(text, BY_KEY[key])
    _check(place, dates, columns)
    return Layout(dates, tuple(columns.values()), tuple(notes))


@record
class _Table:
    header: tuple[str, ...]
    file: str
    line: int

    def problem(self, given: str, expected: str, remedy: str) -> WeatherError:
        return weather_error(self.file, given, expected=expected, remedy=remedy, line=self.line)

    def find(self, text: str, key: str) -> tuple[int, str]:
        """The column that a map's text begins with (the longest header that fits) and the rest of the text."""
        plain = text.strip()
        fits = [
            (len(name), at)
            for at, name in enumerate(self.header)
            if name and plain.lower().startswith(name.lower()) and not plain[len(name) : len(name) + 1].isalnum()
        ]
        if not fits:
            names = ", ".join(clip(name, 24) for name in self.header[:20])
            hint = did_you_mean(plain.split()[0] if plain else "", list(self.header))
            raise self.problem(
                f'the column "{clip(plain)}" for {key} is not in the file',
                f"one of: {names}",
                hint or "Check its name.",
            )
        length, at = max(fits)
        return at, plain[length:].strip(" ()[],_")

    def column(self, text: str, variable: Variable) -> Column:
        at, spelling = self.find(text, variable.key)
        spelling = spelling or _split(self.header[at])[1]
        unit = variable.unit_named(spelling) if spelling else None
        if unit is None:
            raise self.no_unit(self.header[at], variable, spelling)
        return Column(at, variable, unit)

    def no_unit(self, header: str, variable: Variable, spelling: str) -> WeatherError:
        dimension = variable.dimension.words
        given = f'the unit "{clip(spelling)}"' if spelling else "no unit"
        return self.problem(
            f'the column "{clip(header)}" for {variable.key} has {given}',
            f"a unit of {dimension.split(' ', 1)[1]}, for example {variable.unit}",
            f'Write it in the plan: columns = {{ {variable.key} = "{clip(header)} {variable.unit}" }}.',
        )


def _key(key: str, place: _Table) -> str:
    known = (*DATE_KEYS, *BY_KEY)
    name = _ALIASES.get(key.lower(), key.lower())
    if name not in known:
        hint = did_you_mean(name, known)
        raise place.problem(f'the column map names "{clip(key)}"', f"one of: {', '.join(known)}", hint)
    return name


def _found(place: _Table, skip: set[str]) -> tuple[dict[str, int], dict[str, Column], list[WeatherNote]]:
    dates: dict[str, int] = {}
    columns: dict[str, Column] = {}
    notes: list[WeatherNote] = []
    for at, header in enumerate(place.header):
        name, spelling = _split(header)
        key, variable = _DATE_NAMES.get(name), BY_NAME.get(name)
        if key and key not in skip:
            dates.setdefault(key, at)
        if variable is None or variable.key in skip or variable.key in columns:
            continue
        unit = variable.unit_named(spelling) if spelling else None
        if unit is not None:
            columns[variable.key] = Column(at, variable, unit)
        elif variable.key in ("tmax", "tmin") or spelling:
            raise place.no_unit(header, variable, spelling)
        else:
            advice = f'write columns = {{ {variable.key} = "{header} {variable.unit}" }} with its unit'
            message = f'The column "{header}" was left out, because nothing says its unit; {advice}.'
            notes.append(WeatherNote("no_unit", message, place.line))
    return dates, columns, notes


def _split(header: str) -> tuple[str, str]:
    """A header's name and unit: "tmax (°F)", "tmax °F" and "tmax_F" are ("tmax", "°F" or "F")."""
    match = _BRACKETED.fullmatch(header.strip())
    if match:
        return _plain(match["name"]), match["unit"]
    parts = [part for part in re.split(r"[_\s]+", header.strip()) if part]
    for length in range(len(parts), 0, -1):
        name, rest = "_".join(parts[:length]).lower(), parts[length:]
        variable = BY_NAME.get(name.replace("-", "_"))
        for unit in ("/".join(rest), " ".join(rest)):
            if variable and (not unit or variable.unit_named(unit)):
                return name.replace("-", "_"), unit
    return _plain(header), ""


def _plain(name: str) -> str:
    return "_".join(re.split(r"[_\s.\-]+", name.strip().lower()))


def _check(place: _Table, dates: Mapping[str, int], columns: Mapping[str, Column]) -> None:
    header = clip(", ".join(place.header), 120)
    if "date" not in dates and not {"year", "month", "day"} <= set(dates):
        raise place.problem(
            f"no date column was found among: {header}",
            "a column of dates, or year, month and day",
            'Name it in the plan: columns = { date = "HEADER" }.',
        )
    for key in ("tmax", "tmin"):
        if key not in columns:
            raise place.problem(
                f"no {key} column was found among: {header}",
                f"the {'highest' if key == 'tmax' else 'lowest'} temperature of each day",
                f'Name it in the plan with its unit: columns = {{ {key} = "HEADER °F" }}.',
            )
