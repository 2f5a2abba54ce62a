"""Rows as read, put in order: one row a day, sorted, unbroken, highest above lowest, gaps filled, doubts told."""

from dataclasses import replace

import numpy as np

from brimful.weather import gaps, plausible
from brimful.weather.problem import weather_error
from brimful.weather.raw import RawDays
from brimful.weather.record import SERVICE_WIND_HEIGHT_M, DailyWeather, WeatherNote

LONGEST_YEARS = 250


def in_order(
    raw: RawDays,
    source: str,
    *,
    wind_height_m: float | None = None,
    latitude_deg: float | None = None,
    elevation_m: float | None = None,
) -> DailyWeather:
    """The record that the rows make. The place and the wind's height, where given, go before what the file says.

    Raises:
        WeatherError: nothing usable is left, or the values cannot be in the unit that was stated
    """
    latitude = raw.latitude_deg if latitude_deg is None else latitude_deg
    elevation = raw.elevation_m if elevation_m is None else elevation_m
    height = raw.wind_height_m if wind_height_m is None else wind_height_m
    days, notes = _one_a_day(raw, source)
    values, found = plausible.within_limits(days.values, days.lines, source)
    days = replace(days, values={name: v for name, v in values.items() if np.isfinite(v).any()})
    days, swapped = _swapped(_unbroken(days, source))
    notes += [*found, *swapped, *_gaps(days), *plausible.doubts(days.values, days.dates, latitude)]
    if height is None and "wind_m_s" in days.values:
        message = (
            "Wind is taken as measured at 10 m, the height of weather services' masts; set its height if it is not."
        )
        notes.append(WeatherNote("wind_height", message))
    filled, found = gaps.fill(days.values, days.dates)
    return DailyWeather(
        source,
        days.dates,
        **filled,
        wind_height_m=SERVICE_WIND_HEIGHT_M if height is None else height,
        latitude_deg=latitude,
        elevation_m=elevation,
        notes=(*raw.notes, *notes, *found),
    )


def _one_a_day(raw: RawDays, source: str) -> tuple[RawDays, list[WeatherNote]]:
    """Sorted by date; of two rows for one day the first is kept."""
    notes = []
    real = np.flatnonzero(~np.isnat(raw.dates))
    if not real.size:
        raise weather_error(
            source, "no row has a date", expected="dates such as 2015-04-22", remedy="Check the date column.", line=1
        )
    dates = raw.dates[real]
    if (dates[1:] < dates[:-1]).any():
        at = int(raw.lines[real[np.flatnonzero(dates[1:] < dates[:-1])[0] + 1]])
        notes.append(WeatherNote("unsorted", "The days are not in order; they were sorted.", at))
    _, first = np.unique(dates, return_index=True)
    twice = np.setdiff1d(np.arange(dates.size), first)
    if twice.size > 0.2 * dates.size:
        given = f"{dates.size} rows for {first.size} days"
        remedy = "Hourly records must be made daily first; several stations must be split."
        raise weather_error(source, given, expected="one row a day", remedy=remedy, line=int(raw.lines[real[twice[0]]]))
    if twice.size:
        where = f"{twice.size} days stand twice, first {dates[twice[0]]}; the first row of each was kept."
        notes.append(WeatherNote("duplicate", where, int(raw.lines[real[twice[0]]])))
    keep = real[first]
    values = {name: numbers[keep] for name, numbers in raw.values.items()}
    return replace(raw, dates=raw.dates[keep], values=values, lines=raw.lines[keep]), notes


def _unbroken(raw: RawDays, source: str) -> RawDays:
    """Every day from the first to the last, unknown ones as NaN."""
    for name, word in (("tmax_c", "tmax"), ("tmin_c", "tmin")):
        if name not in raw.values:
            raise weather_error(
                source,
                f"{word} is not known on any day",
                expected=f"{word} on most days",
                remedy="Choose another station or column.",
            )
    first, last = raw.dates[0], raw.dates[-1]
    if (last - first).astype(int) > LONGEST_YEARS * 366:
        raise weather_error(
            source,
            f"the days run from {first} to {last}",
            expected=f"at most {LONGEST_YEARS} years",
            remedy="One of the dates is wrong.",
            line=int(raw.lines[-1]),
        )
    dates = np.arange(first, last + 1)
    at = (raw.dates - first).astype(np.int64)
    values = {}
    for name, numbers in raw.values.items():
        values[name] = np.full(dates.size, np.nan)
        values[name][at] = numbers
    lines = np.zeros(dates.size, dtype=np.int64)
    lines[at] = raw.lines
    return replace(raw, dates=dates, values=values, lines=lines)


def _swapped(raw: RawDays) -> tuple[RawDays, list[WeatherNote]]:
    """Highest and lowest temperature exchanged where the lowest is the higher one."""
    tmax, tmin = raw.values["tmax_c"], raw.values["tmin_c"]
    wrong = np.flatnonzero(tmin > tmax)
    if not wrong.size:
        return raw, []
    message = f"tmin is above tmax on {wrong.size} days, first {raw.dates[wrong[0]]}; the two were exchanged."
    values = {**raw.values, "tmax_c": np.fmax(tmax, tmin), "tmin_c": np.fmin(tmax, tmin)}
    values["tmax_c"][np.isnan(tmax)] = np.nan
    values["tmin_c"][np.isnan(tmin)] = np.nan
    return replace(raw, values=values), [WeatherNote("swapped", message, int(raw.lines[wrong[0]]))]


def _gaps(raw: RawDays) -> list[WeatherNote]:
    """A note on days for which there is no temperature: how many, the longest run, whether whole months are missing."""
    missing = np.isnan(raw.values["tmax_c"]) | np.isnan(raw.values["tmin_c"])
    if not missing.any():
        return []
    spans = list(gaps.runs(missing))
    a, b = max(spans, key=lambda span: span[1] - span[0])
    days = int(missing.sum())
    message = f"{days} of {missing.size} days lack a temperature, in {len(spans)} gaps"
    notes = [WeatherNote("gap", f"{message}; the longest is {raw.dates[a]} to {raw.dates[b - 1]} ({b - a} days).")]
    months = raw.dates.astype("datetime64[M]")
    whole = [str(month) for month in np.unique(months) if missing[months == month].all()]
    if whole:
        named = ", ".join(whole[:6]) + (f" and {len(whole) - 6} more" if len(whole) > 6 else "")
        notes.append(WeatherNote("month_missing", f"Nothing is known of {named}; what stands there is a guess."))
    return notes
