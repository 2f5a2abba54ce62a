"""One zone through the season: its weeks, what else the timer could be set to, thirst and survival by month."""

from collections.abc import Iterable

import numpy as np

from brimful.design.model import RowWorked, ZoneWorked
from brimful.design.season.hot_week import hot_week_of
from brimful.design.season.leaching import leached
from brimful.design.season.model import FollowedWorked, WeekWorked, ZoneSeason
from brimful.design.season.telling import FloatArray, Inputs, Telling, season_of, store_of, telling_of
from brimful.design.season.thirst import survival_of, thirst_of
from brimful.design.season.years import words_of
from brimful.design.settle import RowSpec
from brimful.domains.watering.schedule import (
    WEEK_DAYS,
    Outcome,
    fixed_for_worst_week,
    follow_settings,
    left_at_spring,
    plan_season,
)
from brimful.domains.watering.search import WeekPlan
from brimful.domains.watering.season import Season, Store
from brimful.records import record


@record
class ZoneWeeks:
    """A zone's weeks by themselves."""

    zone: str
    weeks: tuple[WeekWorked, ...]


def weeks_of(
    zones: Iterable[ZoneWorked], rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs
) -> tuple[ZoneWeeks, ...]:
    """The weeks of every zone to which water arrives."""
    return tuple(weeks for zone in zones if (weeks := zone_weeks(zone, rows, inputs)) is not None)


@record
class _Planned:
    """What tells how a zone fares, its days in every year, and the settings of its weeks."""

    telling: list[Telling]
    store: Store
    season: Season
    flow_l_h: FloatArray
    plans: list[WeekPlan]


def zone_weeks(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> ZoneWeeks | None:
    """The weeks that zone_season gives and no more, in a part of its time; None where no water arrives."""
    planned = _planned(zone, rows, inputs)
    return None if planned is None else ZoneWeeks(zone.name, _weeks(zone, planned.plans, inputs))


def zone_season(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> ZoneSeason | None:
    """The zone's weeks, ways, thirst and survival; None where no water arrives."""
    found = _planned(zone, rows, inputs)
    if found is None:
        return None
    telling, store, season, flow, plans = found.telling, found.store, found.season, found.flow_l_h, found.plans
    outcomes = _outcomes(plans, store, season, flow, inputs)
    ways = tuple(_followed(words, zone, flow, outcome, inputs) for words, outcome in outcomes.items())
    planned, fixed = ways[0].zone_l, ways[2].zone_l
    return ZoneSeason(
        zone.name,
        _weeks(zone, plans, inputs),
        ways,
        1.0 - planned / fixed if fixed > 0 else 0.0,
        tuple(thirst_of(telling, season, inputs)),
        tuple(survival_of(telling, store, season, inputs)),
        hot_week_of(telling, store, season, outcome=next(iter(outcomes.values())), inputs=inputs),
    )


def _planned(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> _Planned | None:
    telling = telling_of(zone, rows, inputs)
    if not telling or min(one.water.flow_l_h for one in telling) <= 0:
        return None
    store, season = store_of(telling), season_of(telling, inputs.years, inputs.hours)
    flow = np.array([one.water.flow_l_h for one in telling])
    plans = plan_season(store, season, flow, inputs.wanted)
    plans = leached(plans, store, season, flow_l_h=flow, wanted=inputs.wanted, share=inputs.leaching)
    return _Planned(telling, store, season, flow, plans)


def _weeks(zone: ZoneWorked, plans: list[WeekPlan], inputs: Inputs) -> tuple[WeekWorked, ...]:
    return tuple(_week(zone, i, plan, inputs) for i, plan in enumerate(plans))


def _week(zone: ZoneWorked, index: int, plan: WeekPlan, inputs: Inputs) -> WeekWorked:
    first = index * WEEK_DAYS
    days = min(WEEK_DAYS, inputs.years.day_of_year.size - first)
    watered = sum((inputs.wanted.first_weekday + first + day) % 7 in inputs.wanted.weekdays for day in range(days))
    hours = plan.setting.minutes_per_day / 60.0 * watered
    flows = [container.flow_l_h for container in zone.containers]
    return WeekWorked(
        index + 1,
        words_of(int(inputs.years.day_of_year[first])),
        float(inputs.years.et0_mm[first : first + days].mean()),
        plan.setting.starts if plan.setting.minutes else 0,
        plan.setting.minutes,
        zone.flow_l_h * hours,
        min(flows) * hours,
        max(flows) * hours,
        plan.stress_chance,
        plan.drained_share,
        plan.limit.value,
        plan.met,
        plan.lacking_l,
    )


def _outcomes(
    plans: list[WeekPlan], store: Store, season: Season, flow: FloatArray, inputs: Inputs
) -> dict[str, Outcome]:
    """Adjusted by the week, left as after planting, and one setting for the worst week: each way by its name."""
    ways = {
        "set anew each week": [plan.setting for plan in plans],
        "set once in spring and left": left_at_spring(plans, _first_weeks(plans)),
        "one setting for the worst week": fixed_for_worst_week(plans),
    }
    return {
        words: follow_settings(store, season, flow, settings=settings, wanted=inputs.wanted)
        for words, settings in ways.items()
    }


def _first_weeks(plans: list[WeekPlan]) -> int:
    """Weeks up to the second that needs water at all: what a timer set once in spring was set by."""
    wet = [i for i, plan in enumerate(plans) if plan.setting.minutes]
    return (wet[0] if wet else 0) + 2


def _followed(words: str, zone: ZoneWorked, flow: FloatArray, outcome: Outcome, inputs: Inputs) -> FollowedWorked:
    litres = outcome.applied_l * zone.flow_l_h / float(flow.sum())
    cost = None if inputs.money_per_l is None else litres * inputs.money_per_l
    worst = float(outcome.stress_chance.max())
    return FollowedWorked(words, litres, worst, outcome.drained_share, outcome.used_share, cost)
