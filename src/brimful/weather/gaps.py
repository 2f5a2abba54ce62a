"""Days that a record lacks, filled by stated rules; what else is missing is left to the rules of FAO-56."""

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from brimful.weather.record import Dates, FloatArray, WeatherNote, day_of_year

SHORT_GAP_DAYS = 5  # common practice, no source: weather holds for about so long
WINDOW_DAYS = 7  # other years lend the days within a week of the date; common practice, no source

_WORDS = {"tmax_c": "tmax", "tmin_c": "tmin", "wind_m_s": "wind", "rain_mm": "rain"}


def fill(values: Mapping[str, FloatArray], dates: Dates) -> tuple[dict[str, FloatArray], list[WeatherNote]]:
    """The values with gaps in temperature, wind and rain filled, and a note on each rule used.

    Temperature and wind: up to 5 days in a row lie on a line between their neighbours; longer gaps of temperature take
    the mean of the same week in other years, else the line. Rain that is not known is none, the safe side.
    """
    filled, notes = dict(values), []
    for name in ("tmax_c", "tmin_c", "wind_m_s"):
        if name in filled:
            filled[name], found = _filled(filled[name], dates, name)
            notes += found
    if "rain_mm" in filled and np.isnan(filled["rain_mm"]).any():
        count = int(np.isnan(filled["rain_mm"]).sum())
        filled["rain_mm"] = np.nan_to_num(filled["rain_mm"])
        notes.append(WeatherNote("filled", f"rain: {count} days are not known; none was taken, the safe side."))
    return filled, notes


def runs(missing: NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    """Start and end (past the last) of each run of true values."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], missing, [False]))))
    yield from zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)


def _filled(numbers: FloatArray, dates: Dates, name: str) -> tuple[FloatArray, list[WeatherNote]]:
    missing = np.isnan(numbers)
    if not missing.any() or missing.all():
        return numbers, []
    at = np.arange(numbers.size)
    line = np.interp(at, at[~missing], numbers[~missing])
    result, word, notes = numbers.copy(), _WORDS[name], []
    gaps = list(runs(missing))
    short = [(a, b) for a, b in gaps if b - a <= SHORT_GAP_DAYS]
    for a, b in short:
        result[a:b] = line[a:b]
    if short:
        days = sum(b - a for a, b in short)
        span = f"{days} day{'s' * (days != 1)} in gaps of up to {SHORT_GAP_DAYS} (first {dates[short[0][0]]})"
        notes.append(_note(f"{word}: {span} were laid on a line between neighbours"))
    if name != "wind_m_s":
        for a, b in gaps:
            if b - a <= SHORT_GAP_DAYS:
                continue
            result[a:b], rule = _long(numbers, dates, line, slice(a, b))
            notes.append(_note(f"{word}: {dates[a]} to {dates[b - 1]} ({b - a} days) {rule}"))
    return result, notes


def _long(numbers: FloatArray, dates: Dates, line: FloatArray, gap: slice) -> tuple[FloatArray, str]:
    """A long gap from the same week of other years where they have it, else along a line."""
    usual = _usual(numbers, dates)[day_of_year(dates[gap]) - 1]
    if np.isfinite(usual).all():
        return usual, "took the mean of the same days, a week either way, in the rest of the record"
    return np.where(
        np.isfinite(usual), usual, line[gap]
    ), "were laid on a line between neighbours, as no other year has them"


def _usual(numbers: FloatArray, dates: Dates) -> FloatArray:
    """The mean of each day of the year with a week either way, over the years that have it."""
    days, known = day_of_year(dates) - 1, np.isfinite(numbers)
    total = _smeared(np.bincount(days[known], weights=numbers[known], minlength=366))
    count = _smeared(np.bincount(days[known], minlength=366))
    full = count > WINDOW_DAYS  # at least half of one year's window
    return np.where(full, total / np.maximum(count, 1.0), np.nan)


def _smeared(by_day: NDArray[np.generic]) -> FloatArray:
    """Sums over a week either way, round the year."""
    total = np.zeros(by_day.size)
    for shift in range(-WINDOW_DAYS, WINDOW_DAYS + 1):
        total += np.roll(by_day, shift)
    return total


def _note(message: str) -> WeatherNote:
    return WeatherNote("filled", f"{message}.")
