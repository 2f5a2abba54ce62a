"""Whether values can be what they are said to be: physical limits, and the unit they look like when they break them."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from brimful.weather.problem import weather_error
from brimful.weather.record import FloatArray, WeatherNote, day_of_year
from brimful.weather.variables import BY_FIELD, Variable

STRAY_SHARE = 0.01  # up to one value in a hundred is a slip of the instrument; more is a wrong unit

Values = Mapping[str, FloatArray]


def within_limits(values: Values, lines: NDArray[np.integer], file: str) -> tuple[Values, list[WeatherNote]]:
    """The values with impossible ones blanked, and a note for each variable that had some.

    Raises:
        WeatherError: so many values are impossible that the unit must be wrong
    """
    kept: dict[str, FloatArray] = {}
    notes: list[WeatherNote] = []
    for name, numbers in values.items():
        variable = BY_FIELD[name]
        low, high = variable.limits
        wild = np.flatnonzero((numbers < low) | (numbers > high))
        known = np.count_nonzero(np.isfinite(numbers))
        if wild.size > max(3, STRAY_SHARE * known) or (wild.size and wild.size == known):
            at = int(wild[np.argmax(np.abs(numbers[wild]))])
            raise _wrong_unit(variable, numbers, at, file, int(lines[at]))
        if wild.size:
            first, line = numbers[wild[0]], int(lines[wild[0]])
            message = f"{wild.size} values of {variable.key} are impossible, first {first:g} {variable.unit}"
            notes.append(WeatherNote("impossible", f"{message}; they count as not known.", line))
        kept[name] = np.where((numbers < low) | (numbers > high), np.nan, numbers)
    return kept, notes


def _wrong_unit(variable: Variable, numbers: FloatArray, at: int, file: str, line: int) -> Exception:
    low, high = variable.limits
    hint = _looks_like(variable, numbers)
    return weather_error(
        file,
        f"{variable.key} {numbers[at]:g} {variable.unit} was given{hint}",
        expected=f"{low:g} to {high:g} {variable.unit}",
        remedy="State the column's true unit in the plan.",
        line=line,
    )


def _looks_like(variable: Variable, numbers: FloatArray) -> str:
    """The first unit that people forget in which the numbers would be possible."""
    low, high = variable.limits
    for spelling in variable.guesses:
        unit = variable.unit_named(spelling)
        if unit is None:
            continue
        turned = (numbers - unit.zero) * unit.factor
        if not ((turned < low) | (turned > high)).any():
            return f", which looks like {spelling}"
    return ""


def doubts(values: Values, dates: NDArray[np.datetime64], latitude_deg: float | None) -> list[WeatherNote]:
    """What is possible and yet unlikely: °C said to be °F, humidity as a share, wind in km/h, the other hemisphere."""
    notes = []
    tmax = values["tmax_c"]
    if np.nanmax(tmax, initial=-99.0) < 5.0 and np.nanmin(tmax, initial=99.0) < -10.0 and tmax.size > 90:
        notes.append(_doubt("tmax", f"the hottest day has {np.nanmax(tmax):.1f} °C", "°C read as °F"))
    for name in ("rh_max_pct", "rh_mean_pct"):
        if name in values and np.nanmax(values[name], initial=0.0) <= 1.0:
            notes.append(_doubt(name[:-4], "no day is above 1 %", "a share, 0 to 1, read as %"))
    wind = values.get("wind_m_s")
    if wind is not None and np.isfinite(wind).any() and np.nanmean(wind) > 9.0:
        notes.append(_doubt("wind", f"its mean is {np.nanmean(wind):.1f} m/s, a gale", "km/h or mph read as m/s"))
    if latitude_deg is not None and _upside_down(values, dates, latitude_deg):
        half = "northern" if latitude_deg > 0 else "southern"
        message = (
            f"The latitude {latitude_deg:g}° lies in the {half} half of the Earth, the record's warm season does not"
        )
        notes.append(WeatherNote("hemisphere", f"{message}. Check the sign of the latitude (south is negative)."))
    return notes


def _doubt(key: str, fact: str, guess: str) -> WeatherNote:
    return WeatherNote("unit_doubt", f"{key}: {fact}; it looks like {guess}. Check the column's unit.")


def _upside_down(values: Values, dates: NDArray[np.datetime64], latitude_deg: float) -> bool:
    """Whether the yearly swing of temperature runs against the latitude by more than 3 °C each way."""
    mean_c = (values["tmax_c"] + values["tmin_c"]) / 2.0
    known = np.isfinite(mean_c)
    days = day_of_year(dates)[known]
    if np.unique(days).size < 300 or abs(latitude_deg) < 15.0:
        return False
    northern = np.cos(2.0 * np.pi * (days - 200) / 365.25)  # 1 in mid-July
    swing = np.polyfit(northern, mean_c[known], 1)[0]
    return bool(swing * np.sign(latitude_deg) < -3.0)
