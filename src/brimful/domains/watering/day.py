"""How long to run today: the printed table's minutes, corrected by what the mixes are believed to hold."""

import math

import numpy as np

from brimful.domains.watering.run_time import TimerLimits
from brimful.domains.watering.season import FloatArray
from brimful.records import record

_SLACK = 1e-9


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
    """The minutes that bring every sound container what it wants, in as many starts as are usual or more.

    Formula: minutes = max over sound containers of wanted over the flow that arrives, rounded to the timer's step;
    starts so many that none brings more than the room left, nor runs longer than one start may.

    Args:
        need: of one zone's containers
        timer: its step, most starts, permitted minutes, longest start
        usual_starts: of the printed table
    Returns: DayRun; no start where less than half a step is wanted
    Valid: at least one container; where none is sound all of them rule
    Source: own
    """
    wanted = litres_wanted(need)
    sound = need.rules > 0.0 if bool((need.rules > 0.0).any()) else np.ones(wanted.size, dtype=bool)
    minutes = np.where(sound, 60.0 * wanted / np.maximum(need.arrives_l_h, _SLACK), -1.0)
    ruling, step = int(np.argmax(minutes)), timer.minute_step
    whole = float(minutes[ruling])
    room = max(float(need.capacity_l[ruling] - need.held_l[ruling] + need.usual_l[ruling]), _SLACK)
    fitting = max(math.ceil(float(wanted[ruling]) / room - _SLACK), math.ceil(whole / timer.longest_minutes - _SLACK))
    starts = min(max(usual_starts, fitting, 1), timer.max_starts)
    starts = max(min(starts, math.floor(whole / step + 0.5)), 1)
    each = math.floor(whole / starts / step + 0.5) * step
    given = min(each, timer.most_minutes(starts))
    if given <= 0:
        return DayRun(0, 0, ruling, wanted, 0.0)
    short = float(wanted[ruling]) - starts * given / 60.0 * float(need.arrives_l_h[ruling])
    return DayRun(starts, given, ruling, wanted, max(short, 0.0) if given < each else 0.0)
