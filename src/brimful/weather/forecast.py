"""Daily weather from the JSON of a public forecast or archive service: parallel arrays below "daily", with their units.

The form (read in public test fixtures): latitude, longitude, elevation, daily_units {name: unit}, and daily {time:
["2015-04-22", …], name: [values, null where missing]}. Wind is that at 10 m; the day's highest wind is not its mean
and never used.
"""

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from brimful.weather import dates
from brimful.weather.problem import clip, weather_error
from brimful.weather.raw import RawDays
from brimful.weather.record import SERVICE_WIND_HEIGHT_M, FloatArray, WeatherNote
from brimful.weather.variables import BY_NAME, Variable

DAILY_NAMES = (
    "temperature_2m_max",
    "temperature_2m_min",
    "dew_point_2m_mean",
    "relative_humidity_2m_max",
    "relative_humidity_2m_min",
    "shortwave_radiation_sum",
    "sunshine_duration",
    "wind_speed_10m_mean",
    "precipitation_sum",
    "et0_fao_evapotranspiration",
)  # what to ask the service for

LARGEST = 1e9  # in no unit is any weather larger


def read_forecast(text: str, file: str) -> RawDays:
    """The days of a saved answer of the service.

    Raises:
        WeatherError: not JSON, an answer that tells of an error, no days, a unit that is not known
    """
    answer = _answer(text, file)
    daily, units = answer.get("daily"), answer.get("daily_units")
    if not isinstance(daily, dict) or not isinstance(units, dict) or not isinstance(daily.get("time"), list):
        raise _bad(file, 'the JSON has no "daily" with "time" and no "daily_units"', "daily values with their units")
    time = [str(day) for day in daily["time"]]
    if not time:
        raise _bad(file, "the answer has no days", "at least one day")
    values, notes = _values(daily, units, len(time), file)
    days, _ = dates.from_text(time)
    latitude, elevation = (_number(answer.get(name)) for name in ("latitude", "elevation"))
    lines = np.zeros(len(time), dtype=np.int64)
    return RawDays(days, values, lines, tuple(notes), SERVICE_WIND_HEIGHT_M, latitude, elevation)


def _answer(text: str, file: str) -> dict[str, Any]:
    try:
        answer = json.loads(text)
    except (ValueError, RecursionError) as problem:
        line = problem.lineno if isinstance(problem, json.JSONDecodeError) else 0
        raise _bad(file, "the text is not JSON, or breaks off", "a whole answer of the service", line) from problem
    if not isinstance(answer, dict):
        raise _bad(file, "the JSON is a list", "one answer of the service, for one place")
    if answer.get("error"):
        reason = clip(str(answer.get("reason", "no reason given")), 200)
        raise _bad(file, f'the service answered with an error: "{reason}"', "an answer with days")
    return answer


def _values(
    daily: Mapping[str, Any], units: Mapping[str, Any], days: int, file: str
) -> tuple[dict[str, FloatArray], list[WeatherNote]]:
    values: dict[str, FloatArray] = {}
    notes = []
    for name, numbers in daily.items():
        variable = BY_NAME.get(name)
        if name.endswith(("wind_speed_10m_max", "windspeed_10m_max")):
            message = f'"{name}" is the highest wind of the day; ET0 needs the mean, so it was left out.'
            notes.append(WeatherNote("wind_max", message))
        if variable is None or variable.field in values:
            continue
        if not isinstance(numbers, list) or len(numbers) != days:
            raise _bad(
                file, f'"{clip(name)}" does not have one value for each of the {days} days', "arrays of one length"
            )
        values[variable.field] = _converted(name, numbers, variable, str(units.get(name, "")), file)
    return values, notes


def _converted(name: str, numbers: Sequence[Any], variable: Variable, spelling: str, file: str) -> FloatArray:
    unit = variable.unit_named(spelling) if spelling else None
    if unit is None:
        given = f'the unit of "{name}" is "{clip(spelling)}"'
        raise _bad(file, given, f"{variable.dimension.words} unit such as {variable.unit}")
    plain = [_number(value) for value in numbers]
    return (np.array([math.nan if v is None else v for v in plain]) - unit.zero) * unit.factor


def _number(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > LARGEST:
        return None
    return None if math.isnan(value) else float(value)


def _bad(file: str, given: str, expected: str, line: int = 0) -> Exception:
    return weather_error(file, given, expected=expected, remedy="Save the service's answer again.", line=line)
