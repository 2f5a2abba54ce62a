"""How long to run today: the printed table's minutes, corrected by what the mixes are believed to hold."""

import math

import numpy as np

from brimful.domains.watering.run_time import TimerLimits
from brimful.domains.watering.season import BoolArray, FloatArray
from brimful.records import record

_SLACK = 1e-9
MOST_BY_HAND = 0.15
"""Share of a zone's containers that may be left to the can in place of a longer run; one at least, never all (common
practice, no source)."""
HAND_MINUTES, HAND_SHARE = 5.0, 0.10
"""One container by hand is thought to be worth so many minutes of the zone, or such a share of the run where that is
longer (common practice, no source)."""


@record
class DayNeed:
    """What one zone's containers are believed to hold and want today, arrays of shape (containers,), in litres."""

    usual_l: FloatArray
    """What the printed table brings today."""
    usual_held_l: FloatArray
    """What the table counts on: water above wilting on this morning if all had gone as designed."""
    usual_demand_l: FloatArray
    """What the table counts on being drawn before water may run again."""
    held_l: FloatArray
    """Water above wilting that each is believed to hold."""
    demand_l: FloatArray
    """What is expected to be drawn before water may run again."""
    rain_l: FloatArray
    """What rain that may be counted on brings before then, beyond what the table counts on."""
    capacity_l: FloatArray
    """Held when drained."""
    arrives_l_h: FloatArray
    """Flow that reaches the mix while the zone runs, as believed [L/h]."""
    rules: FloatArray
    """1 for a container that may set the run, 0 for one that is out of order and is watered by hand."""


@record
class DayRun:
    """Starts and minutes of today, and what set them."""

    starts: int
    minutes: int
    """Each start."""
    ruling: int
    """Index of the container that sets the run; the neediest where nothing is to be given."""
    wanted_l: FloatArray
    """Water each wants, (containers,)."""
    short_l: float
    """What the ruling container still lacks where the permitted time does not suffice."""
    by_hand_l: FloatArray
    """What those lack that do not rule, out of order or left to the can, (containers,); 0 for all others."""


def litres_wanted(need: DayNeed) -> FloatArray:
    """Water that each container wants today, in L.

    Formula: usual + (usual held − held) + (demand − usual demand) − rain, no less than nothing, and no more than it
    can hold by the time water may run again, unless the table itself brings more.

    Args:
        need: of one zone's containers
    Returns: [L], (containers,)
    Valid: any; all as designed gives the usual
    Source: own; the daily balance of FAO-56 p.170 written as a deviation from the printed table
    """
    wanted = need.usual_l + need.usual_held_l - need.held_l + need.demand_l - need.usual_demand_l - need.rain_l
    most = np.maximum(need.capacity_l + need.demand_l - need.rain_l - need.held_l, need.usual_l)
    result: FloatArray = np.clip(wanted, 0.0, most)
    return result


def run_of_day(need: DayNeed, timer: TimerLimits, usual_starts: int = 1) -> DayRun:
    """The minutes that bring the sound containers what they want, in as many starts as are usual or more.

    Formula: minutes = max over sound containers of wanted over the flow that arrives, but for a few far thirstier than
    the rest (left_to_the_can), rounded to the timer's step; starts so many that none brings more than the room left,
    nor runs longer than one start may. What comes by hand = wanted − what the run brings.

    Args:
        need: of one zone's containers
        timer: its step, most starts, permitted minutes, longest start
        usual_starts: of the printed table
    Returns: DayRun; no start where less than half a step is wanted
    Valid: at least one container; where none is sound all of them rule
    Source: own
    """
    wanted = litres_wanted(need)
    each_wants = 60.0 * wanted / np.maximum(need.arrives_l_h, _SLACK)
    rules = (need.rules > 0.0) & ~left_to_the_can(np.where(need.rules > 0.0, each_wants, -1.0))
    minutes = np.where(rules, each_wants, -1.0) if bool(rules.any()) else each_wants
    ruling, step = int(np.argmax(minutes)), timer.minute_step
    whole = float(minutes[ruling])
    room = max(float(need.capacity_l[ruling] - need.held_l[ruling] + need.usual_l[ruling]), _SLACK)
    fitting = max(math.ceil(float(wanted[ruling]) / room - _SLACK), math.ceil(whole / timer.longest_minutes - _SLACK))
    starts = min(max(usual_starts, fitting, 1), timer.max_starts)
    starts = max(min(starts, math.floor(whole / step + 0.5)), 1)
    each = math.floor(whole / starts / step + 0.5) * step
    given = min(each, timer.most_minutes(starts))
    brought = starts * max(given, 0) / 60.0 * need.arrives_l_h
    by_hand = np.where(minutes < 0.0, np.maximum(wanted - brought, 0.0), 0.0)
    if given <= 0:
        return DayRun(0, 0, ruling, wanted, 0.0, by_hand)
    short = float(wanted[ruling] - brought[ruling])
    return DayRun(starts, given, ruling, wanted, max(short, 0.0) if given < each else 0.0, by_hand)


def left_to_the_can(minutes: FloatArray) -> BoolArray:
    """Which of the thirstiest are better watered by hand than by a run that drenches all the others.

    Formula: leave out the k thirstiest, k at most a share of those that may rule and fewer than all, for which the run
    of the rest and what k by hand are worth come to least.

    Args:
        minutes: that each wants, (containers,); below 0 for one that does not rule
    Returns: (containers,)
    Valid: any
    Source: own; what a container by hand is worth is common practice, no source
    """
    count = int((minutes >= 0.0).sum())
    most = min(max(1, int(MOST_BY_HAND * count)), max(count - 1, 0))
    order = np.argsort(-minutes, kind="stable")
    longest = minutes[order[: most + 1]]
    worth = max(HAND_MINUTES, HAND_SHARE * float(longest[0]))
    left = np.zeros(minutes.size, dtype=bool)
    left[order[: int(np.argmin(longest + worth * np.arange(longest.size)))]] = True
    return left
