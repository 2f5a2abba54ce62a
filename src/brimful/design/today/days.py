"""The season's days as they were and as they are expected: weather so far, what ran, what was poured by hand."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from brimful.design.season.telling import Telling, season_of
from brimful.design.season.years import Years
from brimful.design.season.zones import ZoneWeeks
from brimful.design.today.told import Ground, Told
from brimful.domains.learning import Days
from brimful.domains.watering.season import counted_rain_mm
from brimful.domains.watering.settings import Wanted
from brimful.records import record
from brimful.weather import DailyWeather, reference_et

FloatArray = NDArray[np.float64]
AHEAD_DAYS = 7
"""Days beyond today that are looked at: a timer may be kept from running for as long."""
NOON_H = 12
_TRACE_MM = 1e-6


@record
class Sky:
    """Weather of each day from planting on, arrays of shape (days,), and how many of them were measured or foretold."""

    et0_mm: FloatArray
    rain_mm: FloatArray
    known: NDArray[np.bool_]


def sky_of(years: Years, recent: DailyWeather | None, planted: date, days: int, *, coastal: bool) -> Sky:
    """The mean of the weather-years, and in its place what the recent weather tells."""
    at = np.minimum(np.arange(days), years.day_of_year.size - 1)
    et0 = years.et0_mm.mean(axis=1)[at]
    rain = counted_rain_mm(years.rain_mm, years.et0_mm).mean(axis=1)[at]
    known = np.zeros(days, dtype=np.bool_)
    if recent is not None:
        index = (recent.dates - np.datetime64(planted)).astype(np.int64)
        inside = (index >= 0) & (index < days)
        own = reference_et(recent, coastal=coastal).et0_mm
        inside &= np.isfinite(own)
        et0[index[inside]], known[index[inside]] = own[inside], True
        if recent.rain_mm is not None:
            fell = np.nan_to_num(recent.rain_mm)
            rain[index[inside]] = counted_rain_mm(fell, own)[inside]
    return Sky(et0, rain, known)


def gauged(sky: Sky, told: Sequence[Told], day_of: Mapping[Told, int]) -> Sky:
    """The sky with rain as it was read in the gauge; a reading before noon is of the day before."""
    rain = sky.rain_mm.copy()
    for one in told:
        day = day_of.get(one)
        if one.kind == "rain" and day is not None and one.value is not None:
            fell_on = day - 1 if one.at.hour < NOON_H and day > 0 else day
            rain[fell_on] = counted_rain_mm(np.array(one.value), sky.et0_mm[fell_on])
    return replace(sky, rain_mm=rain)


def days_of(
    telling: Sequence[Telling], years: Years, hours: FloatArray, sky: Sky, minutes: FloatArray, poured_l: FloatArray
) -> Days:
    """What the days bring to each container if it is as designed."""
    days = sky.et0_mm.size
    season = season_of(list(telling), years, hours)
    at = np.minimum(np.arange(days), years.day_of_year.size - 1)
    light = np.stack([one.light for one in telling], axis=1)[at]
    demand = sky.et0_mm[:, None] * light * season.litres_per_mm[at]
    rain = np.maximum(sky.rain_mm, _TRACE_MM)
    caught = season.rain_litres_per_mm[at] + poured_l / rain[:, None]
    return Days(demand, minutes, rain, caught)


def minutes_run(
    zones: Sequence[ZoneWeeks], zone_of: Sequence[str], wanted: Wanted, today: int, days: int
) -> FloatArray:
    """Minutes the printed table runs each container's zone on each day, (days, containers); none today and after."""
    minutes = np.zeros((days, len(zone_of)))
    by_name = {zone.zone: zone for zone in zones}
    for column, name in enumerate(zone_of):
        weeks = by_name[name].weeks
        for day in range(min(today, days)):
            week = weeks[min(day // 7, len(weeks) - 1)]
            if permitted(wanted, day):
                minutes[day, column] = week.starts_per_day_count * week.minutes_per_start
    return minutes


def with_told(
    minutes: FloatArray, told: Sequence[Told], ground: Ground, day_of: Mapping[Told, int]
) -> tuple[FloatArray, FloatArray]:
    """Minutes as they were told in place of the table's, all runs of a day together, and litres poured by hand."""
    ran, poured = minutes.copy(), np.zeros_like(minutes)
    seen: set[tuple[int, int]] = set()
    for one in told:
        day, at = day_of.get(one), ground.at(one.place)
        if day is None or one.value is None:
            continue
        if one.kind == "ran":
            for container in at:
                before = ran[day, container] if (day, container) in seen else 0.0
                ran[day, container] = before + one.value / 60.0
                seen.add((day, container))
        elif one.kind == "hand-watered" and at:
            poured[day, list(at)] += one.value / len(at)
    return ran, poured


def permitted(wanted: Wanted, day: int) -> bool:
    """Whether water may run on a day of the season."""
    return (wanted.first_weekday + day) % 7 in wanted.weekdays


def days_until_water(wanted: Wanted, today: int) -> int:
    """Days from today to the next on which water may run, at most a week."""
    return next((ahead for ahead in range(1, AHEAD_DAYS + 1) if permitted(wanted, today + ahead)), AHEAD_DAYS)


def season_day(planted: date, on: date, last: date) -> int:
    """The day of the season, 0 on planting day; below 0 before it, and past the last day after it."""
    return (min(on, last + timedelta(days=1)) - planted).days


def days_told(planted: date, told: Sequence[Told]) -> dict[Told, int]:
    """The day of the season of each entry; those from before planting are left out."""
    days = {one: (one.at.date() - planted).days for one in told}
    return {one: day for one, day in days.items() if day >= 0}
