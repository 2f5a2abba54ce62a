"""The site's timetable: nothing overlaps beyond the supply, and nothing is dropped that could be placed."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.watering.timetable import Timetable, ZoneRun, site_timetable

WINDOWS = [(240, 420), (1080, 1260)]


def flow_at(day: Timetable, runs: list[ZoneRun], minute: int) -> float:
    """Flow of all zones running at a minute."""
    flows = {run.zone: run.flow_l_h for run in runs}
    return sum(flows[slot.zone] for slot in day.slots if slot.begin_minute <= minute < slot.end_minute)


def named(parts: list[tuple[float, int, int, int]]) -> list[ZoneRun]:
    """Zones with names of their own."""
    return [ZoneRun(f"zone {number}", *part) for number, part in enumerate(parts)]


wants = st.lists(
    st.tuples(st.floats(20, 400), st.integers(0, 60), st.integers(1, 3), st.integers(0, 40)), max_size=5
).map(named)


@settings(max_examples=40, deadline=None)
@given(runs=wants, supply=st.floats(50, 700))
def test_a_timetable_can_be_run(runs: list[ZoneRun], supply: float) -> None:
    """Every zone is placed whole or named as left out; supply, windows, step and rests are kept."""
    day = site_timetable(runs, supply, windows_minutes=WINDOWS, step_minutes=10)
    for minute in range(1440):
        assert flow_at(day, runs, minute) <= supply + 1e-6
    left = {run.zone for run in day.unplaced}
    for run in runs:
        mine = [slot for slot in day.slots if slot.zone == run.zone]
        assert len(mine) == (0 if run.zone in left or run.minutes == 0 else run.starts)
        assert all(slot.end_minute - slot.begin_minute == run.minutes for slot in mine)
        assert all(slot.begin_minute % 10 == 0 for slot in mine)
        assert all(any(b <= slot.begin_minute and slot.end_minute <= e for b, e in WINDOWS) for slot in mine)
        assert all(two.begin_minute - one.end_minute >= run.rest_minutes for one, two in pairwise(mine))
    assert day.lacking_minutes == sum(run.minutes * run.starts for run in day.unplaced)


def test_one_after_the_other_loses_no_minute() -> None:
    """Zones that each take the whole supply fill the window to its last minute."""
    runs = [ZoneRun(name, 300.0, 45, 1) for name in "ABCD"]
    day = site_timetable(runs, 400.0, windows_minutes=[(240, 420)])
    assert not day.unplaced
    assert max(slot.end_minute for slot in day.slots) == 420


def test_small_zones_share_the_supply() -> None:
    """Two that fit together run together."""
    day = site_timetable([ZoneRun("A", 200, 60, 1), ZoneRun("B", 200, 60, 1)], 400, windows_minutes=[(240, 300)])
    assert [slot.begin_minute for slot in day.slots] == [240, 240]


def test_the_program_finds_what_first_fit_misses() -> None:
    """One long and five shorter starts just fill two windows; taken thirstiest first they would not fit."""
    runs = [ZoneRun("A", 104, 40, 1), ZoneRun("B", 103, 30, 1), ZoneRun("C", 102, 30, 1)]
    day = site_timetable(runs, 150.0, windows_minutes=[(240, 300), (360, 400)], step_minutes=10)
    assert not day.unplaced
    assert {slot.zone for slot in day.slots if slot.begin_minute < 300} == {"B", "C"}


def test_what_cannot_exist_says_by_how_much() -> None:
    """Too little time, and a zone that asks for more than there is."""
    runs = [ZoneRun("A", 300, 45, 2), ZoneRun("B", 300, 45, 3)]
    day = site_timetable(runs, 400.0, windows_minutes=[(240, 420)], step_minutes=15)
    assert day.unplaced
    assert day.lacking_minutes >= 90
    too_big = site_timetable([ZoneRun("A", 500, 10, 1)], 400.0, windows_minutes=[(240, 420)])
    assert [run.zone for run in too_big.unplaced] == ["A"]


def test_windows_and_runs_that_mean_nothing_are_refused() -> None:
    """No window, one that ends before it begins, no flow, no supply."""
    run = ZoneRun("A", 100.0, 10, 1)
    for windows in ([], [(300, 200)], [(0, 1500)], [(0, 100), (50, 200)]):
        with pytest.raises(ValueError, match="windows_minutes"):
            site_timetable([run], 400.0, windows_minutes=windows)
    with pytest.raises(ValueError, match="cannot run"):
        site_timetable([ZoneRun("A", 0.0, 10, 1)], 400.0, windows_minutes=WINDOWS)
    with pytest.raises(ValueError, match="supply_l_h"):
        site_timetable([run], 0.0, windows_minutes=WINDOWS)
