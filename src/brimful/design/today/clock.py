"""At which hours today's runs begin: each zone's spread over the day, unless the supply cannot feed all at once."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from brimful.design.model import ZoneWorked
from brimful.design.season.permitted import REST_MINUTES, clock_words, shared_timetable, supply_of, windows_of
from brimful.design.today.model import ZoneToday
from brimful.domains.watering.timetable import Slot, ZoneRun, peak_l_h
from brimful.plan.schema import Timer

MINUTES_A_DAY = 24 * 60
Begins = Mapping[str, Sequence[int]]
NO_ROOM = "Its runs find no room in the permitted times beside those of the other zones: run it by itself."


def at_their_hours(
    zones: Sequence[ZoneToday], worked: Sequence[ZoneWorked], timer: Timer, step_minutes: int
) -> tuple[ZoneToday, ...]:
    """The zones with their starts by the clock, never more of them together than the supply feeds where that can be."""
    flows = {zone.name: zone.flow_l_h for zone in worked}
    runs = [
        ZoneRun(one.zone, flows[one.zone], one.minutes_per_start, len(one.starts), REST_MINUTES)
        for one in zones
        if one.starts
    ]
    begins: dict[str, Sequence[int]] = {run.zone: list(_spread(timer, run.starts, run.minutes)) for run in runs}
    crowded: set[str] = set()
    if _most_l_h(runs, begins) > supply_of(worked, runs) * (1.0 + 1e-9):
        table = shared_timetable(timer, worked, runs, step_minutes)
        crowded = {run.zone for run in table.unplaced}
        for run in runs:
            if run.zone not in crowded:
                begins[run.zone] = [slot.begin_minute for slot in table.slots if slot.zone == run.zone]
    return tuple(
        replace(
            one,
            starts=tuple(map(clock_words, begins.get(one.zone, ()))),
            why=(*one.why, *((NO_ROOM,) if one.zone in crowded else ())),
        )
        for one in zones
    )


def _spread(timer: Timer, starts: int, minutes: int) -> Iterator[int]:
    """Starts spread evenly over the permitted times, the first at the first of them [min after midnight]; none ends
    after them that could end before, and none begins before the last has ended."""
    windows = [(round(60 * begin), round(60 * end)) for begin, end in windows_of(timer)]
    open_minutes, free = sum(end - begin for begin, end in windows), 0
    for turn in range(starts):
        passed = turn * open_minutes // starts
        for begin, end in windows:
            if passed < end - begin or (begin, end) == windows[-1]:
                at = max(begin, min(begin + passed, end - minutes), free)
                free = at + minutes
                yield at
                break
            passed -= end - begin


def _most_l_h(runs: Sequence[ZoneRun], begins: Begins) -> float:
    """The most that runs at once [L/h]."""
    placed = [(Slot(run.zone, at, at + run.minutes), run.flow_l_h) for run in runs for at in begins[run.zone]]
    return peak_l_h(0, MINUTES_A_DAY, placed)
