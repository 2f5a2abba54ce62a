"""Stage: how long each zone runs on each occasion: the thirstiest container gets its fill and none is flooded."""

from brimful.design.choose.judge import Need
from brimful.design.demand import Demands
from brimful.design.ledger import Ledger
from brimful.design.model import ContainerDemand, Occasion, RowShare, RowWorked, RunTimeWorked, ZoneWorked
from brimful.design.settle import Settled
from brimful.design.settle.settled import TimerSpec
from brimful.domains.watering.run_time import (
    Limit,
    RunTime,
    TimerLimits,
    gross_l_day,
    minutes_per_day,
    pulse_room_l,
    split_into_starts,
)
from brimful.records import record

LEACHING = 0.10
"""Share that drains and carries salts out: keep below about 15 % (UF/IFAS ENH1268, read); 10 to 15 % with constant feed
is common practice, no source."""


@record
class Thirst:
    """One container's wish on one occasion."""

    container: str
    row: RowWorked
    flow_l_h: float
    demand: ContainerDemand
    gross_l: float
    minutes: float


def run_times_of(
    settled: Settled, rows: tuple[RowWorked, ...], demands: Demands, zones: tuple[ZoneWorked, ...], ledger: Ledger
) -> dict[str, tuple[RunTimeWorked, ...]]:
    """The run times of each zone; a container that gets no water is left out, since no run time helps it."""
    by_name = {row.name: row for row in rows}
    wanted = {row.name: demand for row, demand in zip(rows, demands, strict=True)}
    variation = {row.name: (row.delivery.variation, row.delivery.assembly.emitters) for row in settled.rows}
    timer = settled.timer
    times: dict[str, tuple[RunTimeWorked, ...]] = {}
    for zone in zones:
        at = ledger.at("zones", zone.name)
        steps = []
        for i, occasion in enumerate(d.occasion for d in wanted[zone.containers[0].row]):
            thirsts = _thirsts(zone, i, by_name, wanted, variation, at.at(occasion))
            if thirsts:
                steps.append(_run_time(zone, occasion, thirsts, timer, at.at(occasion)))
        times[zone.name] = tuple(steps)
    return times


def needs_of(rows: tuple[RowWorked, ...], demands: Demands) -> dict[str, Need]:
    """What one container of each row must get on the hottest days, and what one start may bring; by row."""
    needs = {}
    for row, demand in zip(rows, demands, strict=True):
        gross = gross_l_day(demand[-1].demand_l_day, LEACHING, 1.0)
        needs[row.name] = Need(gross, pulse_room_l(row.easily_available_l, LEACHING), row.mouth_area_m2)
    return needs


def low_quarter_share(variation: float, emitters: int) -> float:
    """Share of its mean flow that a container can count on, for the spread in making of its emitters.

    Formula: 1 − 1.27·Cv/√n, n emitters in the container.
    Args: variation: Cv of the emitters as made [1]; emitters: in the container
    Returns: [1]
    Valid: Cv 0 to 0.3, at least one emitter
    Source: ASABE EP405, design emission uniformity (Keller and Karmeli; read)

    >>> round(low_quarter_share(0.05, 4), 5)
    0.96825
    """
    if not (0 <= variation <= 0.3 and emitters >= 1):
        raise ValueError(f"Cv {variation} of {emitters} emitters was given; expected 0 to 0.3, at least one")
    share: float = 1 - 1.27 * variation / emitters**0.5
    return share


def _thirsts(
    zone: ZoneWorked,
    occasion: int,
    rows: dict[str, RowWorked],
    demands: dict[str, tuple[ContainerDemand, ...]],
    variation: dict[str, tuple[float, int]],
    at: Ledger,
) -> list[Thirst]:
    found = []
    for name in dict.fromkeys(c.row for c in zone.containers):
        weakest = min((c for c in zone.containers if c.row == name), key=lambda c: c.flow_l_h)
        demand = demands[name][occasion]
        if weakest.flow_l_h <= 0 or demand.demand_l_day <= 0:
            continue
        share = at.work(
            f"low_quarter_share {name}", low_quarter_share, variation=variation[name][0], emitters=variation[name][1]
        )
        gross = at.work(
            f"gross_l_day {name}",
            gross_l_day,
            demand_l_day=demand.demand_l_day,
            leaching_fraction=LEACHING,
            distribution=share,
        )
        minutes = at.work(
            f"minutes_per_day {name}", minutes_per_day, gross_l_day=gross, container_flow_l_h=weakest.flow_l_h
        )
        found.append(Thirst(weakest.container, rows[name], weakest.flow_l_h, demand, gross, minutes))
    return found


def most_in_a_start_l(room_l: float, flow_l_h: float, longest_minutes: float) -> float:
    """What one start may bring one container, in litres: no more than its room, nor than the longest start gives.

    Formula: min(room, flow × longest start).
    Args: room_l: see pulse_room_l [L]; flow_l_h [L/h]; longest_minutes: that the timer can run at a stretch [min]
    Returns: [L]
    Valid: all above 0
    Source: water balance
    """
    if min(room_l, flow_l_h, longest_minutes) <= 0:
        raise ValueError(f"{room_l} L, {flow_l_h} L/h, {longest_minutes} min were given; expected all above 0")
    return min(room_l, flow_l_h * longest_minutes / 60.0)


def _run_time(
    zone: ZoneWorked, occasion: Occasion, thirsts: list[Thirst], timer: TimerSpec, at: Ledger
) -> RunTimeWorked:
    """The longest wish rules the minutes; the smallest room for one pulse rules the starts."""
    longest = max(thirsts, key=lambda t: t.minutes)
    tightest = max(thirsts, key=lambda t: t.flow_l_h / t.row.easily_available_l)
    easy, flow = tightest.row.easily_available_l, tightest.flow_l_h
    room = at.work("pulse_room_l", pulse_room_l, refill_to_capacity_l=easy, leaching_fraction=LEACHING)
    most = at.work(
        "most_in_a_start_l", most_in_a_start_l, room_l=room, flow_l_h=flow, longest_minutes=timer.longest_minutes
    )
    limits = TimerLimits(timer.step_minutes, timer.most_starts)
    split: RunTime = at.work(
        "minutes_per_start",
        split_into_starts,
        minutes=longest.minutes,
        container_flow_l_h=flow,
        room_l=most,
        limits=limits,
    )
    hours = split.minutes_per_day / 60.0
    set_by = "longest start of the timer" if split.limit is Limit.ROOM and most < room else split.limit.value
    return RunTimeWorked(
        occasion=occasion,
        minutes_per_start=split.minutes_per_start,
        starts_per_day_count=split.starts_per_day,
        minutes_per_day=split.minutes_per_day,
        container=longest.container,
        set_by=set_by,
        overfill_l=max(0.0, split.pulse_l - room),
        short_l_day=split.short_l_day,
        zone_l_day=zone.flow_l_h * hours,
        rows=tuple(_share(t, hours) for t in thirsts),
    )


def _share(thirst: Thirst, hours: float) -> RowShare:
    gets = thirst.flow_l_h * hours
    return RowShare(thirst.row.name, gets, thirst.gross_l, gets / thirst.gross_l)
