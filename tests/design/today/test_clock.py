"""Today's hours: spread over the permitted times, and never more zones at once than the supply feeds."""

import itertools
from types import SimpleNamespace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from brimful.design.today.clock import NO_ROOM, at_their_hours
from brimful.design.today.model import ZoneToday
from brimful.plan.schema import Timer


def zone(name: str, starts: int, minutes: int) -> ZoneToday:
    """A zone that is to run so often and so long."""
    return ZoneToday(name, ("",) * starts, minutes, starts * minutes, 1, minutes, f"{name} 1", 0.0, (), ())


def clock(zones: list[ZoneToday], flow: float, supply: float, *hours: str) -> tuple[ZoneToday, ...]:
    """The same with their hours; every zone draws the same flow."""
    worked: Any = [SimpleNamespace(name=one.zone, flow_l_h=flow, supply_l_h=supply) for one in zones]
    return at_their_hours(zones, worked, Timer.model_validate({"hours": list(hours)}), 1)


def spans(zones: tuple[ZoneToday, ...]) -> list[tuple[int, int]]:
    """Begin and end of every start, minutes after midnight."""
    begins = [
        (int(at.split(":")[0]) * 60 + int(at.split(":")[1]), one.minutes_per_start)
        for one in zones
        for at in one.starts
    ]
    return sorted((begin, begin + minutes) for begin, minutes in begins)


def test_one_zone_begins_at_the_first_hour_and_spreads() -> None:
    """Of 4:00 to 9:00 and 18:00 to 21:00 half lies before 8:00; a zone that does not run has no hour."""
    assert clock([zone("a", 1, 20)], 500.0, 900.0)[0].starts == ("4:00",)
    assert clock([zone("a", 2, 20)], 500.0, 900.0)[0].starts == ("4:00", "8:00")
    assert clock([zone("a", 0, 0)], 500.0, 900.0)[0].starts == ()


def test_zones_that_the_supply_feeds_together_run_together() -> None:
    """Two zones of 400 L/h on 900."""
    assert [one.starts for one in clock([zone("a", 1, 20), zone("b", 1, 30)], 400.0, 900.0)] == [("4:00",), ("4:00",)]


def test_a_run_ends_within_the_hours_where_it_can() -> None:
    """Three of 40 minutes fill two hours; one longer than the hours begins with them."""
    assert clock([zone("a", 3, 40)], 500.0, 900.0, "5:00-7:00")[0].starts == ("5:00", "5:40", "6:20")
    assert clock([zone("a", 1, 87)], 500.0, 900.0, "6:30-7:00")[0].starts == ("6:30",)


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(1, 45)), min_size=1, max_size=4))
def test_the_supply_is_never_asked_for_more(wishes: list[tuple[int, int]]) -> None:
    """Zones of 600 L/h on a supply of 1,000: one at a time, within the permitted hours, all that they wish."""
    zones = [zone(f"zone {i}", starts, minutes if starts else 0) for i, (starts, minutes) in enumerate(wishes)]
    placed = clock(zones, 600.0, 1000.0)
    assert [len(one.starts) for one in placed] == [len(one.starts) for one in zones]
    told = spans(placed)
    if len([one for one in placed if one.starts]) > 1:
        assert all(end <= begin for (_, end), (begin, _) in itertools.pairwise(told))
    assert all(begin >= 240 and (end <= 540 or (begin >= 1080 and end <= 1260)) for begin, end in told)


def test_what_finds_no_room_is_said() -> None:
    """Two runs of 40 minutes, one at a time, in an hour: one keeps its hour and is told to be run by itself."""
    placed = clock([zone("a", 1, 40), zone("b", 1, 40)], 600.0, 1000.0, "5:00-6:00")
    assert sorted(NO_ROOM in one.why for one in placed) == [False, True]
    assert all(one.starts == ("5:00",) for one in placed)
