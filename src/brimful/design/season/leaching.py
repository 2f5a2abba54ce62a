"""Weeks made so much longer that a wanted share of the season's water drains and carries salts out."""

from dataclasses import replace

from brimful.domains.watering.schedule import Outcome, follow_settings
from brimful.domains.watering.search import WeekPlan, drained_share
from brimful.domains.watering.season import FloatArray, Season, Store
from brimful.domains.watering.settings import Setting, Wanted

LEAST, MOST, HALVINGS = 0.75, 2.0, 6
CLOSE = 1.06
"""Plants use what they use, so the factor lies near (1 − drained) / (1 − wanted); this much beyond is enough."""


def leached(
    plans: list[WeekPlan], store: Store, season: Season, *, flow_l_h: FloatArray, wanted: Wanted, share: float
) -> list[WeekPlan]:
    """The plan with its weeks raised to one factor times their even course, the least that lets a share drain.

    Formula: minutes = max(planned, f × even course), even course = (week before + 2 × week + week after) / 4; so weeks
    that lie below their neighbours are raised first, and the timer is changed by less from week to week.
    Args: plans: the season's weeks; flow_l_h: by container [L/h]; share: of the season's water [0 to 1)
    Returns: the weeks anew; unchanged where so much drains already
    Valid: factor up to 2; no longer than the permitted time; longer runs never raise stress nor drain less
    Source: leaching fraction = drained / applied (UF/IFAS ENH1268, read); the even course is common practice, no source
    """
    even = _even_course([plan.setting.minutes_per_day for plan in plans])
    known: dict[tuple[Setting, ...], Outcome] = {}

    def outcome(factor: float) -> Outcome:
        settings = tuple(_raised(plan.setting, factor * day, wanted) for plan, day in zip(plans, even, strict=True))
        if settings not in known:  # whole minutes: factors near one another come to the same
            known[settings] = follow_settings(store, season, flow_l_h, settings=settings, wanted=wanted)
        return known[settings]

    found = outcome(0.0)
    if found.drained_share >= share or not any(even):
        return plans
    low, high = LEAST, min(MOST, CLOSE * (1.0 - found.drained_share) / (1.0 - share))
    found = outcome(high)
    if found.drained_share < share:
        high, found = MOST, outcome(MOST)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        tried = outcome(middle)
        low, high, found = (low, middle, tried) if tried.drained_share >= share else (middle, high, found)
    return [_replaced(plan, found, week, store) for week, plan in enumerate(plans)]


def _even_course(minutes: list[int]) -> list[float]:
    """Each week's minutes a day evened with its neighbours'; a week without water stays without, and lends none."""
    padded = [0, *minutes, 0]
    return [
        (2 * here + (before or here) + (after or here)) / 4.0 if here else 0.0
        for before, here, after in zip(padded, minutes, padded[2:], strict=False)
    ]


def _raised(setting: Setting, minutes_per_day: float, wanted: Wanted) -> Setting:
    """At least so many minutes a day, to the nearest step, within the permitted time."""
    step = wanted.timer.minute_step
    longest = wanted.timer.most_minutes(setting.starts)
    nearest = int(minutes_per_day / setting.starts / step + 0.5) * step
    return Setting(setting.starts, max(setting.minutes, min(nearest, longest)))


def _replaced(plan: WeekPlan, outcome: Outcome, week: int, store: Store) -> WeekPlan:
    """The week under its new setting; where its wish was not met, the risk stands as it was, filled by hand before."""
    stress = min(float(outcome.stress_chance[week]), plan.stress_chance)
    return replace(
        plan,
        setting=outcome.settings[week],
        stress_chance=stress,
        drained_share=drained_share(outcome.balance, week, stands_for=store.stands_for),
        applied_l=outcome.balance.applied_l[week].mean(axis=0),
    )
