"""From a day's demand to minutes and starts on the timer."""

import math
from enum import StrEnum

from brimful.domains.watering.guards import require_non_negative, require_positive
from brimful.records import record

_ROUNDING_SLACK = 1e-9


class UniformityRule(StrEnum):
    """How unevenness of the drip lengthens the run: which container the run time is made for."""

    LOW_QUARTER = "low quarter"
    INDUSTRY = "industry"
    LOW_HALF = "low half"


class Limit(StrEnum):
    """What settled the split into starts, or stood in its way."""

    DEMAND = "demand"
    ROOM = "room in the mix"
    TIMER_STEP = "minute step of the timer"
    STARTS = "starts per day"
    TIME = "permitted time"
    LONGEST = "longest start of the timer"
    HOURS = "permitted hours"
    DAYS = "permitted days"
    DRAINED = "most that may drain"
    SEVERAL = "several limits together"


@record
class TimerLimits:
    """What the timer and the place allow for one zone in a day."""

    minute_step: int = 1
    max_starts: int = 4
    permitted_minutes: float = 1440.0
    longest_minutes: float = 1440.0
    """That one start may run."""

    def __post_init__(self) -> None:
        """Refuse a timer that cannot run."""
        times = 0.0 < self.permitted_minutes <= 1440.0 and 0.0 < self.longest_minutes <= 1440.0
        if self.minute_step < 1 or self.max_starts < 1 or not times:
            raise ValueError(
                f"timer limits are step {self.minute_step} min, {self.max_starts} starts, {self.permitted_minutes} "
                f"permitted min, {self.longest_minutes} min a start: expected a step and starts of 1 or more, and "
                "above 0 up to 1440 minutes"
            )

    def most_minutes(self, starts: int) -> int:
        """What each of so many starts may run at most, in whole steps: its share of the permitted time, nor longer
        than one start may be.

        >>> TimerLimits(minute_step=5, permitted_minutes=300.0, longest_minutes=120.0).most_minutes(2)
        120
        """
        each = min(self.permitted_minutes / starts, self.longest_minutes)
        return math.floor(each / self.minute_step + _ROUNDING_SLACK) * self.minute_step


@record
class RunTime:
    """A day's setting for one container's flow, and what bound it."""

    minutes_per_start: int
    starts_per_day: int
    pulse_l: float
    """Water one start brings [L]."""
    applied_l_day: float
    limit: Limit
    overfill_l: float
    """How much one pulse exceeds the room it has [L]; that much drains at every start."""
    short_l_day: float
    """How much of the wanted water does not fit into the permitted time [L/day]."""

    @property
    def minutes_per_day(self) -> int:
        """Minutes the zone runs in a day."""
        return self.minutes_per_start * self.starts_per_day


def distribution_share(low_quarter_uniformity: float, rule: UniformityRule = UniformityRule.LOW_QUARTER) -> float:
    """Share of the mean flow that the run time counts on; one over it is the run-time multiplier.

    Formula: low quarter DU; industry 0.4 + 0.6 DU; low half 0.386 + 0.614 DU. Containers drain separately, so no
    soil evens out the difference: the low quarter is the default (common practice, no source).

    Args:
        low_quarter_uniformity: DU, mean of the driest quarter over the mean of all [1]
        rule: which container the run is made for
    Returns: [1]
    Valid: 0 < DU ≤ 1
    Source: 1/DU and 1/(0.4 + 0.6 DU), Irrigation Association (memory); low half (trade forum, read; link memory).

    >>> round(1 / distribution_share(0.8), 4), round(1 / distribution_share(0.8, UniformityRule.INDUSTRY), 4)
    (1.25, 1.1364)
    """
    if not 0.0 < low_quarter_uniformity <= 1.0:
        raise ValueError(f"low_quarter_uniformity is {low_quarter_uniformity}: expected above 0, at most 1")
    base = {UniformityRule.LOW_QUARTER: 0.0, UniformityRule.INDUSTRY: 0.4, UniformityRule.LOW_HALF: 0.386}[rule]
    return base + (1.0 - base) * low_quarter_uniformity


def gross_l_day(demand_l_day: float, leaching_fraction: float, distribution: float) -> float:
    """Water to send to a container in a day so that the dry end of the line still gets its demand [L].

    Formula: demand / (1 − LF) / distribution.

    Args:
        demand_l_day: demand of the container [L/day]
        leaching_fraction: LF, share that shall drain and carry salts out [1]
        distribution: see distribution_share [1]
    Returns: [L/day]
    Valid: 0 ≤ LF < 1, 0 < distribution ≤ 1
    Source: leaching fraction, UF/IFAS ENH1268 (read: keep low, below about 0.15).

    >>> round(gross_l_day(4.0, 0.15, 1.0), 2)
    4.71
    """
    require_non_negative(demand_l_day=demand_l_day)
    if not (0.0 <= leaching_fraction < 1.0 and 0.0 < distribution <= 1.0):
        raise ValueError(
            f"leaching_fraction is {leaching_fraction}, distribution {distribution}: "
            "expected 0 ≤ leaching_fraction < 1 and 0 < distribution ≤ 1"
        )
    return demand_l_day / (1.0 - leaching_fraction) / distribution


def minutes_per_day(gross_l_day: float, container_flow_l_h: float) -> float:
    """Minutes the zone must run in a day for one container [min].

    Formula: 60 × gross / flow.

    Args:
        gross_l_day: water to send [L/day]
        container_flow_l_h: all emitters of the container together [L/h]
    Returns: [min/day]
    Valid: flow > 0
    Source: arithmetic. Trade check (common practice, no source): 16 emitters of 0.65 gph, 15 minutes, 2.6 gal.

    >>> minutes_per_day(2.6, 16 * 0.65)
    15.0
    """
    require_non_negative(gross_l_day=gross_l_day)
    require_positive(container_flow_l_h=container_flow_l_h)
    return 60.0 * gross_l_day / container_flow_l_h


def pulse_room_l(refill_to_capacity_l: float, leaching_fraction: float = 0.0) -> float:
    """Largest single pulse that drains no more than the wanted leaching share [L].

    Formula: room between refill level and container capacity / (1 − LF).

    Args:
        refill_to_capacity_l: room between refill level and container capacity [L]
        leaching_fraction: LF, share of a pulse that may drain [1]
    Returns: [L]
    Valid: 0 ≤ LF < 1
    Source: water balance.

    >>> pulse_room_l(9.0, 0.1)
    10.0
    """
    return gross_l_day(refill_to_capacity_l, leaching_fraction, 1.0)


_PLAIN_TIMER = TimerLimits()


def split_into_starts(
    minutes: float, container_flow_l_h: float, *, room_l: float, limits: TimerLimits = _PLAIN_TIMER
) -> RunTime:
    """The fewest starts a day that each fit into the room of the mix, in whole steps of the timer.

    Formula: starts n from 1 up; minutes per start = minutes / n rounded up to the step; the first n whose pulse is
    within room_l and the longest start is taken, else the largest n allowed. No more than the permitted time and the
    longest start is ever set.

    Args:
        minutes: running time wanted [min/day]
        container_flow_l_h: flow to the container [L/h]
        room_l: largest pulse, see pulse_room_l [L]
        limits: of the timer
    Returns: RunTime with the limit that binds and by how much
    Valid: minutes ≥ 0, flow > 0, room > 0
    Source: water balance.

    >>> day = split_into_starts(100.0, 4.0, room_l=2.5)
    >>> day.starts_per_day, day.minutes_per_start, day.limit.value
    (3, 34, 'room in the mix')
    """
    require_non_negative(minutes=minutes)
    require_positive(container_flow_l_h=container_flow_l_h, room_l=room_l)
    fitting_minutes = min(60.0 * room_l / container_flow_l_h, limits.longest_minutes)
    starts, each = _fewest_starts(minutes, fitting_minutes, limits)
    cut = min(each, limits.most_minutes(starts))
    pulse_l = cut * container_flow_l_h / 60.0
    wanted_l, applied_l = minutes * container_flow_l_h / 60.0, pulse_l * starts
    return RunTime(
        minutes_per_start=cut,
        starts_per_day=starts,
        pulse_l=pulse_l,
        applied_l_day=applied_l,
        limit=_binding(starts, each, cut, fitting_minutes, limits),
        overfill_l=max(0.0, pulse_l - room_l),
        short_l_day=max(0.0, wanted_l - applied_l),
    )


def _fewest_starts(minutes: float, fitting_minutes: float, limits: TimerLimits) -> tuple[int, int]:
    """Starts and whole minutes each: the first count whose rounded pulse fits, else the largest count of use."""
    steps = math.ceil(minutes / limits.minute_step - _ROUNDING_SLACK)
    slots = math.floor(limits.permitted_minutes / limits.minute_step + _ROUNDING_SLACK)
    most = max(1, min(limits.max_starts, steps, slots))
    for starts in range(1, most + 1):
        each = math.ceil(minutes / starts / limits.minute_step - _ROUNDING_SLACK) * limits.minute_step
        if each <= fitting_minutes * (1.0 + _ROUNDING_SLACK):
            break
    return starts, each


def _binding(starts: int, each: int, cut: int, fitting_minutes: float, limits: TimerLimits) -> Limit:
    """Which limit settled the split."""
    if cut < each:
        return Limit.TIME if limits.permitted_minutes / starts < limits.longest_minutes else Limit.LONGEST
    if each > fitting_minutes * (1.0 + _ROUNDING_SLACK):
        return Limit.TIMER_STEP if each <= limits.minute_step else Limit.STARTS
    return Limit.ROOM if starts > 1 else Limit.DEMAND
