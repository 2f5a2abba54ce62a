"""One zone through the season: store, weather and plants of a few telling containers, and the settings they need."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from brimful.catalog import Catalog
from brimful.design.model import ContainerWater, RowWorked, ZoneWorked
from brimful.design.season.growth import canopy_m2
from brimful.design.season.model import FollowedWorked, SurvivalWorked, WeekWorked, ZoneSeason
from brimful.design.season.years import Years, month_of, words_of
from brimful.design.settle import RowSpec
from brimful.domains.substrate import container_store
from brimful.domains.watering.demand import BARE_MIX_FACTOR, FULL_CANOPY_INTERCEPTION, canopy_coefficient
from brimful.domains.watering.schedule import (
    WEEK_DAYS,
    Outcome,
    fixed_for_worst_week,
    follow_settings,
    left_at_spring,
    plan_season,
)
from brimful.domains.watering.search import WeekPlan
from brimful.domains.watering.season import Season, Store, counted_rain_mm, litres_per_mm
from brimful.domains.watering.settings import Wanted
from brimful.domains.watering.survival import days_without_water

FloatArray = NDArray[np.float64]
DRY_CAPTURE = 0.5
"""Share of a pulse that an entirely dry peat mix still catches: 20 to 50 % runs down the gap (common practice, no
source)."""


@dataclass(frozen=True, slots=True)
class Inputs:
    """What every zone of the site is judged by."""

    years: Years
    hours: FloatArray
    wanted: Wanted
    catalog: Catalog
    light: dict[str, FloatArray]  # by row: ET0 there over ET0 in the open, (days,)
    money_per_l: float | None


@dataclass(frozen=True, slots=True)
class Telling:
    """The weakest and the strongest container of a row: the one that thirsts first and the one that drains most."""

    row: RowWorked
    spec: RowSpec
    water: ContainerWater


def zone_season(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> ZoneSeason | None:
    """The zone's weeks, ways and survival; None where no water arrives."""
    telling = [t for name in dict.fromkeys(c.row for c in zone.containers) for t in _telling(zone, name, rows)]
    if not telling or min(t.water.flow_l_h for t in telling) <= 0:
        return None
    store, season = _store(telling), _season(telling, inputs)
    flow = np.array([t.water.flow_l_h for t in telling])
    plans = plan_season(store, season, flow, inputs.wanted)
    ways = _ways(zone, plans, store, season, flow, inputs)
    planned, fixed = ways[0].zone_l, ways[2].zone_l
    return ZoneSeason(
        zone.name,
        tuple(_week(zone, i, plan, inputs) for i, plan in enumerate(plans)),
        ways,
        1.0 - planned / fixed if fixed > 0 else 0.0,
        tuple(_survival(telling, store, season, inputs)),
    )


def _telling(zone: ZoneWorked, name: str, rows: dict[str, tuple[RowWorked, RowSpec]]) -> list[Telling]:
    mine = [c for c in zone.containers if c.row == name]
    row, spec = rows[name]
    ends = [min(mine, key=lambda c: c.flow_l_h), max(mine, key=lambda c: c.flow_l_h)]
    return [Telling(row, spec, c) for c in dict.fromkeys(ends)]


def _store(telling: list[Telling]) -> Store:
    """Levels above wilting: refill where the easy water ends, stress where the reserve ends."""
    levels = []
    for one in telling:
        room = one.spec.vessel.fill(one.spec.headspace_m)
        held = container_store(one.spec.mix.retention, room.area_m2, room.depth_m, breaks_m=room.breaks_m)
        stress = held.beyond_stress_l
        levels.append((stress + held.reserve_l + held.easily_available_l, stress + held.reserve_l, stress))
    capacity, refill, stress_l = (np.array(level) for level in zip(*levels, strict=True))
    return Store(capacity, refill, stress_l, stress_l, np.full(capacity.size, DRY_CAPTURE))


def _season(telling: list[Telling], inputs: Inputs) -> Season:
    years = inputs.years
    mean_c = ((years.tmax_c + years.tmin_c) / 2).mean(axis=1)
    demand, caught, et0 = [], [], []
    for one in telling:
        mouth = one.row.mouth_area_m2
        canopy = canopy_m2(one.row, one.spec, mean_c)
        thirst = max((inputs.catalog.plant_factors[s.plant.water_use].factor for s in one.spec.plants), default=0.0)
        factor = canopy_coefficient(thirst, one.spec.microclimate.factor)
        demand.append(
            litres_per_mm(canopy, np.array(factor), wetted_area_m2=np.array(mouth), evaporation_factor=BARE_MIX_FACTOR)
        )
        caught.append(mouth * (1 - FULL_CANOPY_INTERCEPTION * np.minimum(canopy / mouth, 1.0)))
        et0.append(years.et0_mm * inputs.light[one.row.name][:, None])
    return Season(
        np.ascontiguousarray(np.stack(et0, axis=-1)),
        np.ascontiguousarray(np.stack(demand, axis=1)),
        counted_rain_mm(years.rain_mm, years.et0_mm),
        np.ascontiguousarray(np.stack(caught, axis=1)),
        inputs.hours,
    )


def _week(zone: ZoneWorked, index: int, plan: WeekPlan, inputs: Inputs) -> WeekWorked:
    first = index * WEEK_DAYS
    days = min(WEEK_DAYS, inputs.years.day_of_year.size - first)
    watered = sum((inputs.wanted.first_weekday + first + day) % 7 in inputs.wanted.weekdays for day in range(days))
    return WeekWorked(
        index + 1,
        words_of(int(inputs.years.day_of_year[first])),
        float(inputs.years.et0_mm[first : first + days].mean()),
        plan.setting.starts if plan.setting.minutes else 0,
        plan.setting.minutes,
        zone.flow_l_h * plan.setting.minutes_per_day / 60.0 * watered,
        plan.stress_chance,
        plan.drained_share,
        plan.limit.value,
        plan.met,
        plan.lacking_l,
    )


def _ways(
    zone: ZoneWorked, plans: list[WeekPlan], store: Store, season: Season, flow: FloatArray, inputs: Inputs
) -> tuple[FollowedWorked, ...]:
    """Adjusted by the week, left as after planting, and one setting for the worst week."""
    ways = (
        ("set anew each week", [plan.setting for plan in plans]),
        ("left as in the first weeks", left_at_spring(plans, _first_weeks(plans))),
        ("one setting for the worst week", fixed_for_worst_week(plans)),
    )
    found = []
    for words, settings in ways:
        outcome = follow_settings(store, season, flow, settings=settings, wanted=inputs.wanted)
        litres = outcome.applied_l * zone.flow_l_h / float(flow.sum())
        cost = None if inputs.money_per_l is None else litres * inputs.money_per_l
        found.append(_followed(words, litres, outcome, cost))
    return tuple(found)


def _first_weeks(plans: list[WeekPlan]) -> int:
    """Weeks up to the second that needs water at all: what a timer set once in spring was set by."""
    wet = [i for i, plan in enumerate(plans) if plan.setting.minutes]
    return (wet[0] if wet else 0) + 2


def _followed(words: str, litres: float, outcome: Outcome, cost: float | None) -> FollowedWorked:
    worst = float(outcome.stress_chance.max())
    return FollowedWorked(words, litres, worst, outcome.drained_share, outcome.used_share, cost)


def _survival(telling: list[Telling], store: Store, season: Season, inputs: Inputs) -> list[SurvivalWorked]:
    """Days without water by month, of one container of each row."""
    months = month_of(inputs.years.day_of_year)
    wanted = season.et0_mm * season.litres_per_mm[:, None, :]
    lasts = days_without_water(store, wanted, months.astype(np.float64))
    found = []
    for name in dict.fromkeys(t.row.name for t in telling):
        at = next(i for i, t in enumerate(telling) if t.row.name == name)
        for month in dict.fromkeys(months.tolist()):
            found.append(SurvivalWorked(name, month, int(lasts[month - 1, at])))
    return found
