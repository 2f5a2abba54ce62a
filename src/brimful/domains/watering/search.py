"""The search of one week's setting: longer runs never raise stress, so halving finds the least."""

import math
from dataclasses import field, replace

import numpy as np

from brimful.domains.watering.run_time import Limit
from brimful.domains.watering.season import Balance, FloatArray, Season, Store
from brimful.domains.watering.settings import Setting, Wanted, pulses_of_week
from brimful.domains.watering.store import run_store
from brimful.records import record

_SLACK_L = 1e-9
_WORTH_L = 0.01
"""Where the wish cannot be met, longer runs for less than this are not worth the water."""
_MANY_STARTS = 24


@record
class WeekPlan:
    """A week's setting and what it does."""

    setting: Setting
    stress_chance: float
    """Share of weather-years in which some container falls below its refill level."""
    drained_share: float
    """Share of the water applied that drains or runs past, mean of the years."""
    applied_l: FloatArray
    """Litres to each container in the week, (containers,)."""
    limit: Limit
    """What settled the split; where the wish cannot be met, the limit that would have to give way."""
    lacking_minutes: int
    """Minutes a day beyond the permitted time that the wish would take; 0 unless the permitted time binds."""
    lacking_l: float
    """How far the driest container lies below its refill level in the wanted share of years; 0 if the wish is met."""

    @property
    def met(self) -> bool:
        """Whether the wanted reliability is reached."""
        return self.lacking_l == 0.0


def drained_share(
    balance: Balance, period: int | slice = slice(None), *, stands_for: FloatArray | None = None
) -> float:
    """Share of the water applied that did not stay, rain's own part counted out.

    Formula: max(Σ drained + shed − rain, 0) / Σ applied, over periods, years and containers, each container counted as
    often as it stands for others.
    """
    weight = 1.0 if stands_for is None else stands_for
    applied = (balance.applied_l[period] * weight).sum()
    gone = ((balance.drained_l[period] + balance.shed_l[period] - balance.rain_l[period]) * weight).sum()
    return float(min(max(gone, 0.0) / applied, 1.0)) if applied > 0.0 else 0.0


def wasted_share(balance: Balance, period: int) -> float:
    """Share that drains even from the container that drains least: what no other container of the zone has need of."""
    applied = balance.applied_l[period].sum(axis=0)
    gone = (balance.drained_l[period] + balance.shed_l[period] - balance.rain_l[period]).sum(axis=0)
    return float(np.clip(gone / np.maximum(applied, 1e-300), 0.0, 1.0).min()) if applied.any() else 0.0


@record
class Week:
    """One week of one zone, with the water the week before left; judged with the morning after."""

    store: Store
    flow_l_h: FloatArray
    wanted: Wanted
    first_day: int
    water_l: FloatArray
    days: int
    judged: Season
    """The week's days and the next."""
    known: dict[Setting, tuple[float, float]] = field(default_factory=dict)
    last: dict[Setting, Balance] = field(default_factory=dict)
    """The setting walked last and its balance, which is asked for twice."""

    def balance_of(self, setting: Setting) -> Balance:
        """The week, and the day after it as a period of its own, under a setting."""
        if setting not in self.last:
            self.last.clear()
            self.last[setting] = self._walk(setting)
        return self.last[setting]

    def _walk(self, setting: Setting) -> Balance:
        span = self.judged.rain_mm.shape[0]
        pulses = pulses_of_week(setting, self.flow_l_h, first_day=self.first_day, days=span, wanted=self.wanted)
        return run_store(self.store, self.judged, pulses, start_l=self.water_l, period_days=self.days)

    def _judge(self, setting: Setting) -> tuple[float, float]:
        """Margin and wasted share of a setting, worked out once."""
        if setting not in self.known:
            balance = self.balance_of(setting)
            by_year = np.sort((balance.lowest_l.min(axis=0) - self.store.refill_l).min(axis=1))
            margin = float(by_year[_may_fail(self.wanted.reliability, by_year.size)]) + _SLACK_L
            self.known[setting] = margin, wasted_share(balance, 0)
        return self.known[setting]

    def margin(self, setting: Setting) -> float:
        """How far above its refill level the driest container stays in the wanted share of years [L]."""
        return self._judge(setting)[0]

    def wastes(self, setting: Setting) -> float:
        """Share of the week's water that drains to nobody's good."""
        return self._judge(setting)[1]

    def solve(self, guess: Setting) -> WeekPlan:
        """The fewest starts that meet the wish, and for them the fewest minutes."""
        for starts in range(1, self.wanted.timer.max_starts + 1):
            setting = self._least(self._longest(starts), guess)
            if setting is not None and self.wastes(setting) <= self.wanted.drained_cap:
                return self._report(setting, Limit.DEMAND if starts == 1 else Limit.ROOM)
        return self._impossible(guess)

    def _longest(self, starts: int) -> Setting:
        """The longest run that the permitted time and the timer leave."""
        return Setting(starts, self.wanted.timer.most_minutes(starts))

    def _least(self, longest: Setting, guess: Setting, target_l: float = 0.0) -> Setting | None:
        """Least minutes whose margin reaches the target: step away from the guess, then halve; none if all fail."""
        step, starts, top = (
            self.wanted.timer.minute_step,
            longest.starts,
            longest.minutes // self.wanted.timer.minute_step,
        )

        def enough(steps: int) -> bool:
            return self.margin(Setting(starts, steps * step)) >= target_l

        if not enough(top):
            return None
        low, high, width = -1, min(math.ceil(guess.minutes_per_day / starts / step), top), 1
        while not enough(high):
            low, high, width = high, min(high + width, top), 2 * width
        while low < 0 < high and enough(max(high - width, 0)):
            high, width = max(high - width, 0), 2 * width
        low = max(low, high - width, -1)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if enough(middle) else (middle, high)
        return Setting(starts, high * step)

    def _impossible(self, guess: Setting) -> WeekPlan:
        """The setting that comes nearest without waste, the limit that binds, and by how much."""
        longest = self._longest(self.wanted.timer.max_starts)
        nearest = self._least(longest, guess, min(self.margin(longest), 0.0) - _WORTH_L) or longest
        nearest = self._most_within_cap(nearest)
        limit, freed = self._binding(guess)
        lacking = (
            max(math.ceil(freed.minutes_per_day - self.wanted.timer.permitted_minutes), 1) if limit is Limit.TIME else 0
        )
        plan = self._report(nearest, limit)
        return replace(plan, lacking_minutes=lacking, lacking_l=max(-self.margin(nearest), _SLACK_L))

    def _most_within_cap(self, setting: Setting) -> Setting:
        """This run, or the longest shorter one that does not drain too much."""
        step = self.wanted.timer.minute_step
        low, high = 0, setting.minutes // step + 1
        if self.wastes(setting) <= self.wanted.drained_cap:
            return setting
        while high - low > 1:
            middle = (low + high) // 2
            fits = self.wastes(Setting(setting.starts, middle * step)) <= self.wanted.drained_cap
            low, high = (middle, high) if fits else (low, middle)
        return Setting(setting.starts, low * step)

    def _binding(self, guess: Setting) -> tuple[Limit, Setting]:
        """The first single limit whose removal would do, with what then would; else all together; else the room."""
        for limit, wish in _without_one(self.wanted).items():
            week = replace(self, wanted=wish, known={}, last={})
            setting = week._least(week._longest(wish.timer.max_starts), guess)
            if setting is not None and week.wastes(setting) <= wish.drained_cap:
                return limit, setting
        return Limit.ROOM, guess

    def _report(self, setting: Setting, limit: Limit) -> WeekPlan:
        """A week's figures."""
        balance = self.balance_of(setting)
        below = (balance.lowest_l[0] < self.store.refill_l - _SLACK_L).any(axis=1).mean()
        applied = balance.applied_l[0].mean(axis=0)
        drains = drained_share(balance, 0, stands_for=self.store.stands_for)
        return WeekPlan(setting, float(below), drains, applied, limit, 0, 0.0)


def _may_fail(reliability: float, years: int) -> int:
    """How many of so many years may fail, that in years to come no more than one less the reliability are expected to.

    Where k of n years failed, k + 1 of n + 1 are to be expected (Weibull 1939, memory).
    """
    return max(math.floor((1.0 - reliability) * (years + 1) + _SLACK_L) - 1, 0)


def _without_one(wanted: Wanted) -> dict[Limit, Wanted]:
    """The same wish with one limit out of the way at a time, at last with all of them."""
    timer, hours, days = wanted.timer, tuple(range(24)), tuple(range(7))
    most = max(timer.max_starts, _MANY_STARTS)
    free = replace(timer, permitted_minutes=1440.0, longest_minutes=1440.0, max_starts=most)
    return {
        Limit.TIME: replace(wanted, timer=replace(timer, permitted_minutes=1440.0)),
        Limit.DAYS: replace(wanted, weekdays=days),
        Limit.HOURS: replace(wanted, start_hours=hours),
        Limit.STARTS: replace(wanted, timer=replace(timer, max_starts=most)),
        Limit.LONGEST: replace(wanted, timer=replace(timer, longest_minutes=1440.0)),
        Limit.DRAINED: replace(wanted, drained_cap=1.0),
        Limit.SEVERAL: replace(wanted, weekdays=days, start_hours=hours, timer=free, drained_cap=1.0),
    }
