"""The season worked out whole: from a settled plan and its weather to each zone's weeks."""

import math
from pathlib import Path

import numpy as np

from brimful.catalog import Catalog
from brimful.design.climate import read_weather_of
from brimful.design.season.frosts import frosts_of
from brimful.design.season.light import sun_of
from brimful.design.season.model import SeasonWorked, StartWorked, ZoneSeason
from brimful.design.season.years import Years, words_of, years_of
from brimful.design.season.zones import Inputs, zone_season
from brimful.design.settle.notes import Notes
from brimful.design.stages import Outcome
from brimful.domains.climate.sun import SunPlace, sun_events
from brimful.domains.watering.run_time import TimerLimits
from brimful.domains.watering.season import daylight_shares
from brimful.domains.watering.settings import Wanted
from brimful.domains.watering.timetable import Timetable, ZoneRun, site_timetable
from brimful.plan.read import Places
from brimful.plan.schema import Plan

RELIABILITY = 0.95
HOURS = ((4, 9), (18, 21))
DAYS_2000 = 9497  # days from 2000-01-01 to 2026-01-01


def work_out_season(
    plan: Plan, outcome: Outcome, catalog: Catalog, *, places: Places, folder: Path
) -> tuple[SeasonWorked | None, Notes]:
    """The season of a plan that was worked out, and what there is to say of it; None where its weather will not do."""
    notes = Notes(places)
    design, settled = outcome.design, outcome.settled
    if design is None or settled is None:
        return None, notes
    weather = read_weather_of(plan.site, folder, notes)
    if weather is None:
        return None, notes
    years = years_of(weather, plan.site, settled.season, notes)
    sun, light = sun_of(plan, settled.rows, years)
    wanted = _wanted(plan, settled.timer.step_minutes, settled.timer.most_starts, notes)
    money = plan.water.price / plan.water.per if plan.water is not None else None
    inputs = Inputs(years, _hours(plan, years), wanted, catalog, light, money)
    rows = {row.name: (row, spec) for row, spec in zip(design.rows, settled.rows, strict=True)}
    zones = [season for zone in design.zones if (season := zone_season(zone, rows, inputs)) is not None]
    table = _timetable(plan, outcome, zones)
    worked = SeasonWorked(
        title=plan.title,
        units=plan.units,
        place=design.site.place,
        first_day=words_of(int(years.day_of_year[0])),
        last_day=words_of(int(years.day_of_year[-1])),
        weather=years.words,
        years_count=years.count,
        reliability_share=wanted.reliability,
        zones=tuple(zones),
        timetable=tuple(StartWorked(s.zone, _clock(s.begin_minute), _clock(s.end_minute)) for s in table.slots),
        unplaced=tuple(run.zone for run in table.unplaced),
        frosts=frosts_of(weather, plan.site, settled.season, folder, notes),
        sun=sun,
        filled=design.site.filled,
        currency=plan.currency,
        assumptions=(*design.assumptions, *notes.assumptions.values()),
        findings=(),
    )
    return worked, notes


def _wanted(plan: Plan, step: int, most: int, notes: Notes) -> Wanted:
    reliability = plan.season.reliability
    if reliability is None:
        reliability = RELIABILITY
        notes.assume("season.reliability", "weather-years in which no container may run dry", "95 %")
    if not plan.timer.hours:
        notes.assume("timer.hours", "hours in which the timer may run", "4:00 to 9:00 and 18:00 to 21:00")
    windows = plan.timer.hours or HOURS
    starts = tuple(hour for begin, end in windows for hour in range(math.ceil(begin), math.ceil(end)))
    minutes = sum(60.0 * (end - begin) for begin, end in windows)
    days = plan.timer.days or tuple(range(7))
    return Wanted(reliability, start_hours=starts, weekdays=days, timer=TimerLimits(step, most, minutes))


def _hours(plan: Plan, years: Years) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """How the day's demand is spread over the hours of the clock, by the sun's rise and set."""
    longitude = plan.site.longitude or 0.0
    place = SunPlace(plan.site.latitude or 0.0, longitude, round(longitude / 15.0))
    events = sun_events(DAYS_2000 + years.day_of_year - 1, place)
    return daylight_shares(events.sunrise_h, events.sunset_h)


def _timetable(plan: Plan, outcome: Outcome, zones: list[ZoneSeason]) -> Timetable:
    """The day of the thirstiest week: when each zone starts, the supply shared."""
    assert outcome.design is not None
    worked = {zone.name: zone for zone in outcome.design.zones}
    runs = []
    for zone in zones:
        week = max(zone.weeks, key=lambda week: week.starts_per_day_count * week.minutes_per_start)
        if week.minutes_per_start:
            flow = worked[zone.zone].flow_l_h
            runs.append(ZoneRun(zone.zone, flow, week.minutes_per_start, week.starts_per_day_count, 30))
    supplies = [z.supply_l_h for z in worked.values() if z.supply_l_h is not None and math.isfinite(z.supply_l_h)]
    supply = max([*(run.flow_l_h for run in runs), *supplies[:1]], default=1.0)
    windows = tuple((round(60 * a), round(60 * b)) for a, b in (plan.timer.hours or HOURS))
    return site_timetable(runs, supply, windows_minutes=windows)


def _clock(minute: int) -> str:
    return f"{minute // 60}:{minute % 60:02d}"
