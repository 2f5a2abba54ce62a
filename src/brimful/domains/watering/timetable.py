"""The whole site's timetable: every zone's starts in their hours, never more zones at once than the supply can feed."""

import math
from collections.abc import Sequence

from brimful.domains.watering.guards import require_positive
from brimful.records import record

_TOLERANCE = 1e-9
_PATIENCE_S = 5.0  # after that the arrangement counts as not found


@record
class ZoneRun:
    """What one zone wants of a day."""

    zone: str
    flow_l_h: float
    minutes: int
    """Of one start."""
    starts: int
    rest_minutes: int = 0
    """Least time between the end of one start and the next, so that the mix can take the water in."""


@record
class Slot:
    """One start in the timetable; minutes count from midnight."""

    zone: str
    begin_minute: int
    end_minute: int


@record
class Timetable:
    """The day's starts in order of time, and what found no room."""

    slots: tuple[Slot, ...]
    unplaced: tuple[ZoneRun, ...]
    """Zones whose starts do not all fit; none of their starts is set."""
    lacking_minutes: int
    """Running time of the zones left out: what the permitted hours would have to grow by at most."""


def site_timetable(
    runs: Sequence[ZoneRun], supply_l_h: float, *, windows_minutes: Sequence[tuple[int, int]], step_minutes: int = 1
) -> Timetable:
    """When each zone starts, so that the zones running together never ask for more than the supply gives.

    Formula: zones in a few plain orders, each start at the first minute that fits; if all leave a zone out, a
    whole-number program looks for any arrangement at all.

    Args:
        runs: what each zone wants
        supply_l_h: flow the supply can give at the wanted pressure [L/h]
        windows_minutes: permitted times of the day, (begin, end) [min after midnight]
        step_minutes: whole steps in which starts may be set [min]
    Returns: Timetable
    Valid: windows inside one day, in order, apart from each other
    Source: arithmetic; scipy.optimize.milp

    >>> day = site_timetable([ZoneRun("A", 60, 30, 1), ZoneRun("B", 80, 20, 1)], 100, windows_minutes=[(240, 300)])
    >>> [(slot.zone, slot.begin_minute, slot.end_minute) for slot in day.slots]
    [('B', 240, 260), ('A', 260, 290)]
    """
    _check(runs, supply_l_h, windows_minutes, step_minutes)
    wanted = [run for run in runs if run.minutes > 0]
    tried = [_greedy(order, supply_l_h, windows_minutes, step_minutes) for order in _orders(wanted)]
    slots, left = min(tried, key=lambda result: sum(run.minutes * run.starts for run in result[1]))
    if left and _could_fit(wanted, supply_l_h, windows_minutes):
        arranged = _by_program(wanted, supply_l_h, windows_minutes, step_minutes)
        slots, left = (arranged, []) if arranged is not None else (slots, left)
    in_time = tuple(sorted(slots, key=lambda slot: (slot.begin_minute, slot.zone)))
    return Timetable(in_time, tuple(left), sum(run.minutes * run.starts for run in left))


def _check(runs: Sequence[ZoneRun], supply_l_h: float, windows: Sequence[tuple[int, int]], step_minutes: int) -> None:
    """Refuse what cannot be arranged in principle."""
    require_positive(supply_l_h=supply_l_h, step_minutes=step_minutes)
    edges = [minute for window in windows for minute in window]
    if not windows or edges != sorted(set(edges)) or edges[0] < 0 or edges[-1] > 1440:
        raise ValueError(f"windows_minutes is {list(windows)}: expected rising (begin, end) pairs from 0 to 1440")
    for run in runs:
        if not (math.isfinite(run.flow_l_h) and run.flow_l_h > 0.0 and run.minutes >= 0 and run.starts >= 1):
            raise ValueError(f"{run} cannot run: expected a flow above 0, minutes of 0 or more and at least one start")


def _orders(runs: Sequence[ZoneRun]) -> list[list[ZoneRun]]:
    """Orders worth trying: thirstiest, longest, and most starts first."""
    return [
        sorted(runs, key=lambda run: (-run.flow_l_h, run.zone)),
        sorted(runs, key=lambda run: (-run.minutes, run.zone)),
        sorted(runs, key=lambda run: (-run.starts * (run.minutes + run.rest_minutes), run.zone)),
    ]


def _could_fit(runs: Sequence[ZoneRun], supply_l_h: float, windows: Sequence[tuple[int, int]]) -> bool:
    """Whether supply and time would do if starts could be cut at will; zones over half the supply run alone."""
    time = sum(end - begin for begin, end in windows)
    water = sum(run.flow_l_h * run.minutes * run.starts for run in runs)
    alone = sum(run.minutes * run.starts for run in runs if run.flow_l_h > supply_l_h / 2.0 + _TOLERANCE)
    each = all(run.flow_l_h <= supply_l_h + _TOLERANCE for run in runs)
    return each and water <= supply_l_h * time + _TOLERANCE and alone <= time


def _greedy(
    order: Sequence[ZoneRun], supply_l_h: float, windows: Sequence[tuple[int, int]], step_minutes: int
) -> tuple[list[Slot], list[ZoneRun]]:
    """Each start at the first time that fits; a zone that cannot be placed whole is left out."""
    placed: list[tuple[Slot, float]] = []
    left = []
    for run in order:
        mine: list[tuple[Slot, float]] = []
        free_from = 0
        for _ in range(run.starts):
            begin = _first_fit(run, free_from, placed, supply_l_h, windows, step_minutes)
            if begin is None:
                break
            mine.append((Slot(run.zone, begin, begin + run.minutes), run.flow_l_h))
            free_from = begin + run.minutes + run.rest_minutes
        if len(mine) == run.starts:
            placed += mine
        else:
            left.append(run)
    return [slot for slot, _ in placed], left


def _first_fit(
    run: ZoneRun,
    free_from: int,
    placed: Sequence[tuple[Slot, float]],
    supply_l_h: float,
    windows: Sequence[tuple[int, int]],
    step_minutes: int,
) -> int | None:
    """The first minute at which a start fits: a window's begin, the end of a start, or the end of the rest."""
    times = {free_from, *(begin for begin, _ in windows), *(slot.end_minute for slot, _ in placed)}
    for time in sorted(-(-time // step_minutes) * step_minutes for time in times):
        inside = any(begin <= time and time + run.minutes <= end for begin, end in windows)
        if (
            time >= free_from
            and inside
            and peak_l_h(time, time + run.minutes, placed) + run.flow_l_h <= supply_l_h + _TOLERANCE
        ):
            return time
    return None


def peak_l_h(begin: int, end: int, placed: Sequence[tuple[Slot, float]]) -> float:
    """Largest flow promised between two moments [min after midnight], of starts and their flows [L/h]."""
    here = [(slot, flow) for slot, flow in placed if slot.begin_minute < end and slot.end_minute > begin]
    moments = [begin, *(slot.begin_minute for slot, _ in here if slot.begin_minute > begin)]
    flows = [sum(flow for slot, flow in here if slot.begin_minute <= moment < slot.end_minute) for moment in moments]
    return max(flows)


def _by_program(
    order: Sequence[ZoneRun], supply_l_h: float, windows: Sequence[tuple[int, int]], step_minutes: int
) -> list[Slot] | None:
    """Any arrangement at all: one yes-or-no for each zone, start and step; earliest first."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    choices = _possible_starts(order, windows, step_minutes)
    if not choices:
        return None
    job, begin = np.array(choices).T
    flow = np.array([run.flow_l_h for run in order])[job]
    runs_for = np.array([run.minutes for run in order])[job]
    busy_for = runs_for + np.array([run.rest_minutes for run in order])[job]
    tick = np.arange(windows[0][0], windows[-1][1], _common_step(order, step_minutes))[:, None]
    running, busy = (((begin <= tick) & (tick < begin + length)) * 1.0 for length in (runs_for, busy_for))
    own = (job == np.arange(len(order))[:, None]) * 1.0
    starts = np.array([run.starts for run in order])
    constraints = [LinearConstraint(csr_array(running * flow), -np.inf, supply_l_h + _TOLERANCE)]
    constraints += [LinearConstraint(csr_array(busy * mine), -np.inf, 1.0) for mine in own]
    constraints.append(LinearConstraint(csr_array(own), starts, starts))
    whole = np.ones(begin.size, dtype=np.int64)
    solved = milp(
        begin.astype(np.float64),
        integrality=whole,
        bounds=Bounds(0, 1),
        constraints=constraints,
        options={"time_limit": _PATIENCE_S, "mip_rel_gap": 1.0},
    )
    if solved.x is None:
        return None
    chosen = [choice for choice, taken in zip(choices, solved.x, strict=True) if taken > 0.5]
    return [Slot(order[number].zone, time, time + order[number].minutes) for number, time in chosen]


def _possible_starts(
    order: Sequence[ZoneRun], windows: Sequence[tuple[int, int]], step_minutes: int
) -> list[tuple[int, int]]:
    """Every zone with every minute at which one of its starts fits a window."""
    return [
        (job, begin)
        for job, run in enumerate(order)
        for opens, closes in windows
        for begin in range(-(-opens // step_minutes) * step_minutes, closes - run.minutes + 1, step_minutes)
    ]


def _common_step(order: Sequence[ZoneRun], step_minutes: int) -> int:
    """The coarsest step at whose multiples everything begins and ends."""
    return math.gcd(step_minutes, *(run.minutes for run in order), *(run.rest_minutes for run in order))
