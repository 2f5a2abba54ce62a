"""One zone through the season: its weeks, what else the timer could be set to, thirst and survival by month."""

import numpy as np

from brimful.design.model import RowWorked, ZoneWorked
from brimful.design.season.leaching import leached
from brimful.design.season.model import FollowedWorked, SurvivalWorked, ThirstWorked, WeekWorked, ZoneSeason
from brimful.design.season.telling import FloatArray, Inputs, Telling, canopy_of, season_of, store_of, telling_of
from brimful.design.season.years import month_of, words_of
from brimful.design.settle import RowSpec
from brimful.domains.watering.demand import BARE_MIX_FACTOR
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
from brimful.domains.watering.survival import days_without_water


def zone_season(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> ZoneSeason | None:
    """The zone's weeks, ways, thirst and survival; None where no water arrives."""
    telling = telling_of(zone, rows, inputs)
    if not telling or min(one.water.flow_l_h for one in telling) <= 0:
        return None
    store, season = store_of(telling), season_of(telling, inputs.years, inputs.hours)
    flow = np.array([one.water.flow_l_h for one in telling])
    plans = plan_season(store, season, flow, inputs.wanted)
    plans = leached(plans, store, season, flow_l_h=flow, wanted=inputs.wanted, share=inputs.leaching)
    ways = _ways(zone, plans, store, season, flow, inputs)
    planned, fixed = ways[0].zone_l, ways[2].zone_l
    return ZoneSeason(
        zone.name,
        tuple(_week(zone, i, plan, inputs) for i, plan in enumerate(plans)),
        ways,
        1.0 - planned / fixed if fixed > 0 else 0.0,
        tuple(_thirst(telling, season, inputs)),
        tuple(_survival(telling, store, season, inputs)),
    )


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


def _thirst(telling: list[Telling], season: Season, inputs: Inputs) -> list[ThirstWorked]:
    """By row and month, what the sunniest of its telling containers wants and what rain brings, on a mean day."""
    years, months = inputs.years, month_of(inputs.years.day_of_year)
    et0, rain = years.et0_mm.mean(axis=1), season.rain_mm.mean(axis=1)
    found = []
    for at in _sunniest(telling):
        one, canopy = telling[at], canopy_of(telling[at], years)
        wants = season.et0_mm[:, :, at].mean(axis=1) * season.litres_per_mm[:, at]
        rains = rain * season.rain_litres_per_mm[:, at]
        columns = (et0, one.light, canopy, wants, rains)
        for month in dict.fromkeys(months.tolist()):
            days = months == month
            open_mm, light, leaves, litres, rained = (float(column[days].mean()) for column in columns)
            factors = (one.factor, BARE_MIX_FACTOR)
            found.append(ThirstWorked(one.row.name, month, open_mm, light, leaves, *factors, litres, rained))
    return found


def _sunniest(telling: list[Telling]) -> list[int]:
    """Of each row the telling container with the most light."""
    best: dict[str, int] = {}
    for at, one in enumerate(telling):
        known = best.setdefault(one.row.name, at)
        if one.light.mean() > telling[known].light.mean():
            best[one.row.name] = at
    return list(best.values())


def _survival(telling: list[Telling], store: Store, season: Season, inputs: Inputs) -> list[SurvivalWorked]:
    """Days without water by month, of the sunniest telling container of each row."""
    months = month_of(inputs.years.day_of_year)
    wanted = season.et0_mm * season.litres_per_mm[:, None, :]
    lasts = days_without_water(store, wanted, months.astype(np.float64))
    return [
        SurvivalWorked(telling[at].row.name, month, int(lasts[month - 1, at]))
        for at in _sunniest(telling)
        for month in dict.fromkeys(months.tolist())
    ]
