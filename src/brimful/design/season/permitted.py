"""When the timer may run and what is wanted of it; the day's timetable of the whole site."""

import math
from collections.abc import Sequence
from datetime import date

from brimful.design.model import ZoneWorked
from brimful.design.run_times import LEACHING
from brimful.design.season.model import StartWorked, ZoneSeason
from brimful.design.season.years import Years
from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import TimerSpec
from brimful.domains.watering.run_time import TimerLimits
from brimful.domains.watering.settings import Wanted
from brimful.domains.watering.timetable import Timetable, ZoneRun, site_timetable
from brimful.plan.schema import Plan, Timer

RELIABILITY = 0.95
HOURS = ((4.0, 9.0), (18.0, 21.0))
REST_MINUTES = 30
"""Between two starts of one zone, for the mix to take the water in (common practice, no source)."""


def wanted_of(plan: Plan, timer: TimerSpec, years: Years, notes: Notes) -> Wanted:
    """Reliability, permitted hours and days, and what the timer can do."""
    reliability = plan.season.reliability
    if reliability is None:
        reliability = RELIABILITY
        notes.assume("season.reliability", "weather-years in which no container may run dry", "95 %")
    if not plan.timer.hours:
        notes.assume("timer.hours", "hours in which the timer may run", "4:00 to 9:00 and 18:00 to 21:00")
    windows = windows_of(plan.timer)
    hours = tuple(dict.fromkeys(hour for a, b in windows for hour in range(math.floor(a), math.ceil(b))))
    minutes = sum(60.0 * (end - begin) for begin, end in windows)
    return Wanted(
        reliability,
        start_hours=hours,
        weekdays=plan.timer.days or tuple(range(7)),
        first_weekday=_first_weekday(plan, years, notes),
        timer=TimerLimits(timer.step_minutes, timer.most_starts, minutes, timer.longest_minutes),
    )


def leaching_of(plan: Plan, notes: Notes) -> float:
    """Share of the season's water that shall drain and carry salts out."""
    leaching: float | None = plan.season.leaching
    if leaching is not None:
        return leaching
    said = f"{100 * LEACHING:.0f} % of the season's water, at least"
    notes.assume("season.leaching", "water that drains to carry salts out", said, "UF/IFAS ENH1268 (read: below 15 %)")
    return LEACHING


def windows_of(timer: Timer) -> tuple[tuple[float, float], ...]:
    """Permitted times of the day in order [h]; those that touch or overlap are one."""
    joined: list[tuple[float, float]] = []
    for begin, end in sorted(timer.hours or HOURS):
        if joined and begin <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((begin, end))
    return tuple(joined)


def _first_weekday(plan: Plan, years: Years, notes: Notes) -> int:
    """Weekday of planting day, 0 Monday; it matters only where some days are not permitted."""
    if plan.site.year is None:
        if 0 < len(set(plan.timer.days)) < 7:
            notes.assume("site.year", "weekday of the season's first day", "Monday")
        return 0
    return date.fromordinal(date(plan.site.year, 1, 1).toordinal() + int(years.day_of_year[0]) - 1).weekday()


def timetable_of(
    plan: Plan, worked: tuple[ZoneWorked, ...], seasons: list[ZoneSeason], step_minutes: int
) -> tuple[tuple[StartWorked, ...], tuple[str, ...]]:
    """Starts of the day in each zone's thirstiest week, the supply shared, and the zones that find no room."""
    by_name = {zone.name: zone for zone in worked}
    runs = []
    for zone in seasons:
        week = max(zone.weeks, key=lambda week: week.starts_per_day_count * week.minutes_per_start)
        if week.minutes_per_start:
            flow = by_name[zone.zone].flow_l_h
            runs.append(ZoneRun(zone.zone, flow, week.minutes_per_start, week.starts_per_day_count, REST_MINUTES))
    table = shared_timetable(plan.timer, worked, runs, step_minutes)
    starts = tuple(StartWorked(s.zone, clock_words(s.begin_minute), clock_words(s.end_minute)) for s in table.slots)
    return starts, tuple(run.zone for run in table.unplaced)


def shared_timetable(
    timer: Timer, worked: Sequence[ZoneWorked], runs: Sequence[ZoneRun], step_minutes: int
) -> Timetable:
    """When each zone starts in the permitted times, never more together than the supply gives."""
    windows = tuple((round(60 * a), round(60 * b)) for a, b in windows_of(timer))
    return site_timetable(runs, supply_of(worked, runs), windows_minutes=windows, step_minutes=step_minutes)


def supply_of(worked: Sequence[ZoneWorked], runs: Sequence[ZoneRun]) -> float:
    """What the supply gives to zones together [L/h]: the least that any of them finds, and each of them alone."""
    gives = [z.supply_l_h for z in worked if z.supply_l_h is not None and math.isfinite(z.supply_l_h)]
    return max([*(run.flow_l_h for run in runs), min(gives, default=0.0)], default=1.0)


def clock_words(minute: int) -> str:
    """A minute of the day as a clock shows it.

    >>> clock_words(245)
    '4:05'
    """
    return f"{minute // 60}:{minute % 60:02d}"
