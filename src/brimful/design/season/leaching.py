"""Weeks made so much longer that a wanted share of the season's water drains and carries salts out."""

import math
from dataclasses import replace

from brimful.domains.watering.schedule import Outcome, follow_settings
from brimful.domains.watering.search import WeekPlan, drained_share
from brimful.domains.watering.season import FloatArray, Season, Store
from brimful.domains.watering.settings import Setting, Wanted

MOST, HALVINGS = 2.0, 6
CLOSE = 1.06
"""Plants use what they use, so the factor lies near (1 − drained) / (1 − wanted); this much beyond is enough."""


def leached(
    plans: list[WeekPlan], store: Store, season: Season, *, flow_l_h: FloatArray, wanted: Wanted, share: float
) -> list[WeekPlan]:
    """The plan with every week's minutes raised by one factor, the least that lets a share of the water drain.

    Formula: minutes × f, rounded to the timer's step; f by halving, since longer runs never drain less.
    Args: plans: the season's weeks; flow_l_h: by container [L/h]; share: of the season's water [0 to 1)
    Returns: the weeks anew; unchanged where so much drains already
    Valid: factor up to 2; no longer than the permitted time
    Source: leaching fraction = drained / applied (UF/IFAS ENH1268, read)
    """

    def outcome(factor: float) -> Outcome:
        settings = [_longer(plan.setting, factor, wanted) for plan in plans]
        return follow_settings(store, season, flow_l_h, settings=settings, wanted=wanted)

    low, found = 1.0, outcome(1.0)
    if found.drained_share >= share or not any(plan.setting.minutes for plan in plans):
        return plans
    high = min(MOST, CLOSE * (1.0 - found.drained_share) / (1.0 - share))
    found = outcome(high)
    if found.drained_share < share:
        high, found = MOST, outcome(MOST)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        tried = outcome(middle)
        low, high, found = (low, middle, tried) if tried.drained_share >= share else (middle, high, found)
    return [_replaced(plan, found, week) for week, plan in enumerate(plans)]


def _longer(setting: Setting, factor: float, wanted: Wanted) -> Setting:
    step = wanted.timer.minute_step
    longest = int(wanted.timer.permitted_minutes / setting.starts / step) * step
    return Setting(setting.starts, min(math.floor(setting.minutes * factor / step + 0.5) * step, longest))


def _replaced(plan: WeekPlan, outcome: Outcome, week: int) -> WeekPlan:
    """The week under its new setting; where its wish was not met, the risk stands as it was, filled by hand before."""
    stress = min(float(outcome.stress_chance[week]), plan.stress_chance)
    return replace(
        plan,
        setting=outcome.settings[week],
        stress_chance=stress,
        drained_share=drained_share(outcome.balance, week),
        applied_l=outcome.balance.applied_l[week].mean(axis=0),
    )
