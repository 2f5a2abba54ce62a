"""Today worked out whole: the season followed from planting day, what it tells, and what to do about it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from brimful.design.care.model import SeasonTasks
from brimful.design.model import Assumption, Design
from brimful.design.season.telling import Telling, every_one_of, store_of
from brimful.design.season.whole import LaidOut
from brimful.design.season.zones import ZoneWeeks
from brimful.design.settle import Settled
from brimful.design.today.clock import at_their_hours
from brimful.design.today.days import (
    AHEAD_DAYS,
    FloatArray,
    Sky,
    days_of,
    days_told,
    gauged,
    minutes_run,
    season_day,
    sky_of,
    with_told,
)
from brimful.design.today.due import due_of
from brimful.design.today.look import believed_of, feel_next, look_of
from brimful.design.today.model import TodayWorked
from brimful.design.today.run import Morning, zone_today
from brimful.design.today.told import Ground, Told, metered, readings_of
from brimful.domains.learning import Days, Reading, Site, believed_on, held_untold_l
from brimful.domains.watering.season import Store
from brimful.plan.names import zone_words
from brimful.plan.schema import Plan
from brimful.records import record
from brimful.weather import DailyWeather

SEED = 0


@record
class TodayDesk:
    """What today is worked out from: the plan worked out, its weeks, its dates, the weather so far, what was told."""

    plan: Plan
    design: Design
    settled: Settled
    laid: LaidOut
    zones: tuple[ZoneWeeks, ...]
    assumptions: tuple[Assumption, ...]
    planted: date
    last: date
    tasks: SeasonTasks | None
    recent: DailyWeather | None
    told: tuple[Told, ...]


@record
class Stand:
    """Every container that gets water, in order, with what it holds."""

    telling: tuple[Telling, ...]
    ground: Ground
    row_of: tuple[str, ...]
    zone_of: tuple[str, ...]
    store: Store
    site: Site


@record
class Course:
    """How the season went: its weather, the table's minutes (days, containers), the days as told, the readings."""

    sky: Sky
    table: FloatArray
    days: Days
    readings: tuple[Reading, ...]


def today_of(desk: TodayDesk, on: date) -> TodayWorked:
    """One day of a plan's season; before planting and after the season only what is due."""
    day, count = season_day(desk.planted, on, desk.last), (desk.last - desk.planted).days + 1
    state = "before" if day < 0 else "over" if day >= count else "growing"
    told = tuple(sorted((one for one in desk.told if one.at.date() <= on), key=lambda one: one.at))
    due, coming = due_of(desk.tasks, told, on)
    base = TodayWorked(
        desk.plan.title, desk.plan.units, on, day, count, state, 0.0, 0.0, _weather_words(desk, on), (), due, coming,
        (), "", (), len(told), desk.assumptions, (),
    )  # fmt: skip
    zones = [zone for zone in desk.zones if zone.weeks]
    return _growing(desk, base, told, [zone.zone for zone in zones]) if state == "growing" and zones else base


def _growing(desk: TodayDesk, base: TodayWorked, told: Sequence[Told], zones: Sequence[str]) -> TodayWorked:
    stand = stand_of(desk, zones)
    morning = morning_of(desk, stand, told, base.season_day)
    day_of = days_told(desk.planted, told)
    unread = {
        c: base.season_day - day
        for one, day in day_of.items()
        if one.value is not None and len(stand.ground.at(one.place)) == 1
        for c in stand.ground.at(one.place)
    }
    believed = believed_of(morning.belief, stand.ground, row_of=stand.row_of, zone_of=stand.zone_of, unread=unread)
    seasons = [zone for zone in desk.zones if zone.zone in zones]
    return replace(
        base,
        et0_mm=float(morning.sky.et0_mm[base.season_day]),
        rain_mm=float(morning.sky.rain_mm[base.season_day]),
        zones=at_their_hours(
            [zone_today(morning, zone) for zone in seasons],
            desk.design.zones,
            desk.plan.timer,
            desk.settled.timer.step_minutes,
        ),
        look=look_of(morning.belief, stand.ground, told),
        feel_next=feel_next(believed),
        believed=believed,
    )


def stand_of(desk: TodayDesk, zones: Sequence[str]) -> Stand:
    """The containers of the zones that run."""
    rows = {row.name: (row, spec) for row, spec in zip(desk.design.rows, desk.settled.rows, strict=True)}
    telling = tuple(
        one for zone in desk.design.zones if zone.name in zones for one in every_one_of(zone, rows, desk.laid.inputs)
    )
    row_of = tuple(one.row.name for one in telling)
    zone_of = tuple(one.row.zone for one in telling)
    names = tuple(one.water.container for one in telling)
    ground = Ground(names, {**_groups(row_of), **_groups([zone_words(zone) for zone in zone_of])})
    store = store_of(list(telling))
    return Stand(telling, ground, row_of, zone_of, store, _site(telling, store, row_of, zone_of))


def _groups(labels: Sequence[str]) -> Mapping[str, tuple[int, ...]]:
    return {name: tuple(i for i, one in enumerate(labels) if one == name) for name in dict.fromkeys(labels)}


def _site(telling: Sequence[Telling], store: Store, row_of: Sequence[str], zone_of: Sequence[str]) -> Site:
    weight = np.array([one.row.weight_drained_kg for one in telling])
    return Site(
        store.capacity_l,
        store.stress_l,
        np.array([one.water.flow_l_h for one in telling]),
        np.unique(row_of, return_inverse=True)[1],
        np.unique(zone_of, return_inverse=True)[1],
        weight - store.capacity_l,
        store.dry_l,
        store.dry_capture,
    )


def morning_of(desk: TodayDesk, stand: Stand, told: Sequence[Told], today: int) -> Morning:
    """The season followed up to a morning: what each container is believed to hold, and the days to come."""
    count = today + AHEAD_DAYS + 1
    course = course_of(desk, stand, told, run_until=today, count=count)
    mean = sky_of(desk.laid.inputs.years, None, desk.planted, count, coastal=False)
    usual = days_for(desk, stand, mean, course.table, np.zeros_like(course.table))
    belief = believed_on(today, stand.site, course.days, course.readings, seed=SEED)
    # what the table counts on is what the same guesses come to where nobody has told anything
    usual_held_l = held_untold_l(today, stand.site, usual, seed=SEED)
    return Morning(
        today=today,
        belief=belief,
        site=stand.site,
        days=course.days,
        sky=course.sky,
        usual=usual,
        usual_held_l=usual_held_l,
        wanted=desk.laid.inputs.wanted,
        names=stand.ground.names,
        zone_of=stand.zone_of,
    )


def course_of(desk: TodayDesk, stand: Stand, told: Sequence[Told], *, run_until: int, count: int) -> Course:
    """So many days of the season as they went by what was told; the table's runs only before the day `run_until`."""
    inputs, day_of = desk.laid.inputs, days_told(desk.planted, told)
    sky = gauged(sky_of(inputs.years, desk.recent, desk.planted, count, coastal=desk.plan.site.coastal), told, day_of)
    table = minutes_run(desk.zones, stand.zone_of, inputs.wanted, run_until, count)
    minutes, poured = with_told(table, told, stand.ground, day_of)
    readings = (*readings_of(told, stand.ground, day_of), *metered(told, stand.ground, day_of))
    return Course(sky, table, days_for(desk, stand, sky, minutes, poured), readings)


def days_for(desk: TodayDesk, stand: Stand, sky: Sky, minutes: FloatArray, poured_l: FloatArray) -> Days:
    """What the days bring to the containers of a plan."""
    inputs = desk.laid.inputs
    return days_of(stand.telling, inputs.years, inputs.hours, sky, minutes, poured_l)


def _weather_words(desk: TodayDesk, on: date) -> str:
    if desk.recent is None:
        return "mean of the years; name this season's own under [site] as recent_weather"
    last = desk.recent.dates[-1].astype("datetime64[D]").astype(object)
    first = desk.recent.dates[0].astype("datetime64[D]").astype(object)
    if last < on:
        return f"{desk.recent.source} up to {last}, the mean of the years since"
    ahead = (min(last, on + timedelta(days=AHEAD_DAYS)) - on).days
    return f"{desk.recent.source} from {first}, with {ahead} days to come"
