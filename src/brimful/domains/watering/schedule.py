"""The timer's setting for each zone and week: the shortest run that keeps every container alive with a stated risk."""

from collections.abc import Sequence

import numpy as np

from brimful.domains.watering.search import Week, WeekPlan, drained_share
from brimful.domains.watering.season import Balance, FloatArray, Season, Store
from brimful.domains.watering.settings import Setting, Wanted, pulses_of_week
from brimful.domains.watering.store import Pulse, run_store
from brimful.records import record

WEEK_DAYS = 7
_PLAIN_WISH = Wanted()


@record
class Outcome:
    """A season under given settings."""

    settings: tuple[Setting, ...]
    stress_chance: FloatArray
    """(weeks,): share of years in which some container falls below its refill level."""
    applied_l: float
    """Water of all containers over the season, mean of the years."""
    drained_share: float
    used_share: float
    """What the plants got of what they wanted."""
    balance: Balance


def plan_season(store: Store, season: Season, flow_l_h: FloatArray, wanted: Wanted = _PLAIN_WISH) -> list[WeekPlan]:
    """The smallest setting of each week that meets the wanted reliability, worked forward from full containers.

    Formula: for each count of starts the least whole minutes by bisection (longer runs never raise stress); each week
    is judged with the next morning, and hands its water on to the next. Where a week's wish cannot be met, what
    ends it below the refill level is taken to be filled by hand, so that its trouble is not blamed on the next.

    Args:
        store: what the mixes hold
        season: weather-years and plants
        flow_l_h: flow to each container [L/h], (containers,)
        wanted: reliability, permitted times, timer
    Returns: a WeekPlan a week; the last may be shorter
    Valid: flow > 0
    Source: search over run_store
    """
    if flow_l_h.shape != store.capacity_l.shape or not bool((flow_l_h > 0.0).all()):
        raise ValueError(f"flow_l_h has shape {flow_l_h.shape}: expected a flow above 0 for each container of the zone")
    years = season.rain_mm.shape[1]
    water, last = np.array(np.broadcast_to(store.capacity_l, (years, store.capacity_l.size))), Setting(1, 0)
    plans = []
    for first_day in range(0, season.rain_mm.shape[0], WEEK_DAYS):
        days = min(WEEK_DAYS, season.rain_mm.shape[0] - first_day)
        week = Week(store, flow_l_h, wanted, first_day, water, days, _cut(season, first_day, days + 1))
        plan = week.solve(last)
        plans.append(plan)
        end, last = week.balance_of(plan.setting).end_l[0], plan.setting
        water = end if plan.met else np.where(end < store.refill_l, store.capacity_l, end)
    return plans


def follow_settings(
    store: Store, season: Season, flow_l_h: FloatArray, *, settings: Sequence[Setting], wanted: Wanted = _PLAIN_WISH
) -> Outcome:
    """What a season is like under given settings, one a week.

    Args:
        store: what the mixes hold
        season: weather-years and plants
        flow_l_h: flow to each container [L/h], (containers,)
        settings: one for each week
        wanted: permitted times
    Returns: Outcome
    Valid: as run_store
    Source: run_store
    """
    days = season.rain_mm.shape[0]
    if len(settings) != -(-days // WEEK_DAYS):
        raise ValueError(
            f"{len(settings)} settings for {days} days: expected one for each of {-(-days // WEEK_DAYS)} weeks"
        )
    pulses: list[list[Pulse]] = []
    for number, setting in enumerate(settings):
        first = number * WEEK_DAYS
        pulses += pulses_of_week(setting, flow_l_h, first_day=first, days=min(WEEK_DAYS, days - first), wanted=wanted)
    balance = run_store(store, season, pulses, period_days=WEEK_DAYS)
    below = (balance.lowest_l < store.refill_l - 1e-9).any(axis=2).mean(axis=1)
    applied, weight = balance.applied_l.sum(), 1.0 if store.stands_for is None else store.stands_for
    return Outcome(
        settings=tuple(settings),
        stress_chance=below,
        applied_l=float(applied / balance.applied_l.shape[1]),
        drained_share=drained_share(balance, stands_for=store.stands_for),
        used_share=float((balance.used_l * weight).sum() / max((balance.wanted_l * weight).sum(), 1e-300)),
        balance=balance,
    )


def fixed_for_worst_week(plans: Sequence[WeekPlan]) -> list[Setting]:
    """One setting for the whole season, sized for the thirstiest week: what a timer never touched again needs.

    Args:
        plans: the season's plan
    Returns: that setting, once for each week
    Valid: at least one week
    Source: largest minutes a day of the plan
    """
    worst = max((plan.setting for plan in plans), key=lambda setting: setting.minutes_per_day)
    return [worst] * len(plans)


def left_at_spring(plans: Sequence[WeekPlan], weeks: int = 2) -> list[Setting]:
    """The setting of the first weeks kept for the whole season: a timer forgotten after planting.

    Args:
        plans: the season's plan
        weeks: how many first weeks the setting was made for; the longest of them counts
    Returns: that setting, once for each week
    Valid: at least one week
    Source: arithmetic
    """
    return [fixed_for_worst_week(plans[:weeks])[0]] * len(plans)


def _cut(season: Season, first_day: int, days: int) -> Season:
    """Some days of a season; past its end the last day is repeated."""
    index = np.minimum(np.arange(first_day, first_day + days), season.rain_mm.shape[0] - 1)
    hours = season.hour_shares
    return Season(
        season.et0_mm[index],
        season.litres_per_mm[index],
        season.rain_mm[index],
        season.rain_litres_per_mm[index],
        hours if hours.ndim == 1 else hours[index],
        season.rain_hour,
    )
