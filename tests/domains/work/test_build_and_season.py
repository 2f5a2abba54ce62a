"""The build of the run, the season's tasks and the calendar: laws and worked norms."""

from collections.abc import Callable
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.work.build import SEQUENCE, Station, container_steps, run_steps, site_steps
from brimful.domains.work.events import day_events
from brimful.domains.work.network import network_faults
from brimful.domains.work.schedule import Crew, schedule
from brimful.domains.work.season import RULES, Anchor, SeasonRule, hours_by_week, round_minutes, season_tasks

PLANTED = st.dates(date(2020, 3, 1), date(2030, 6, 30))
LENGTH = st.integers(30, 240)


def test_one_large_container_takes_its_norm() -> None:
    """Fill 6 ft³, 12 plants, drip and watering in take 42 minutes (calculated from practice norms, 35 to 50)."""
    station = Station("c", 6 * 28.316846592, centre_plants=3, outer_plants=9, emitters=4)
    steps = container_steps(station)
    kinds = {"fill", "centre", "plant", "lay", "emitters", "water"}
    assert sum(step.minutes for step in steps if step.kind in kinds) == pytest.approx(42)


def test_every_step_of_the_sequence_says_why() -> None:
    """Each step has a reason, and none waits for one that is not there."""
    assert all(template.reason for template in SEQUENCE)
    assert all(step.reason for step in run_steps([Station("c", 100, 1, 5, 2)], tube_m=10))


@given(st.integers(0, 12), st.integers(0, 60), st.booleans())
def test_the_run_is_the_same_sequence_times_its_stations(count: int, trench: int, permanent: bool) -> None:
    """The run's network is sound, has every container's own sequence, and ends with the leak test."""
    stations = [Station(f"c{i}", 150, 3, 9, 4) for i in range(count)]
    steps = run_steps(stations, tube_m=60, trench_m=trench, permanent=permanent)
    assert network_faults(steps) == ()
    assert all(sum(step.place == station.place for step in steps) == len(SEQUENCE) for station in stations)
    plan = schedule(steps, Crew(3, {"hand truck": 1}))
    assert plan.slots[-1].step.key == "site:test"
    if count:
        assert [slot.step.kind for slot in plan.at("c0")] == [template.kind for template in SEQUENCE]


def test_a_hundred_containers_and_three_people_come_close_to_the_bound() -> None:
    """A run of 100 with a crew of three ends within 2 % of what no schedule can beat."""
    stations = [Station(f"c{i}", 166.5, 3, 9, 4) for i in range(100)]
    plan = schedule(run_steps(stations, tube_m=200), Crew(3, {"hand truck": 1}))
    assert plan.gap < 0.02


def test_a_container_can_be_built_without_the_site() -> None:
    """Site steps are waited for only where they are there."""
    alone = container_steps(Station("c", 100, 1, 5, 2))
    assert network_faults(alone) == ()
    with_site = container_steps(Station("c", 100, 1, 5, 2), site=["lay"])
    assert any("site:lay" in step.after for step in with_site)


def test_walking_round_twenty_containers() -> None:
    """20 containers, 1200 ft of loop, 3.5 min each: 95.3 minutes (calculated from practice norms)."""
    assert round_minutes(20, 3.5, 1200 * 0.3048) == pytest.approx(95.3, abs=0.05)


@given(PLANTED, LENGTH, st.integers(0, 200))
def test_tasks_keep_their_rule(planted: date, length: int, containers: int) -> None:
    """Every task lies within its rule's days, repeats at its interval, and is numbered from 1."""
    frost = planted + timedelta(days=length)
    tasks = season_tasks(RULES, planted=planted, frost=frost, containers=containers)
    assert [task.day for task in tasks] == sorted(task.day for task in tasks)
    for rule in RULES:
        own = [task for task in tasks if task.key == rule.key]
        assert [task.number for task in own] == list(range(1, len(own) + 1))
        assert all((b.day - a.day).days == rule.every_days for a, b in pairwise(own))
        if rule.end and rule.end[0] is Anchor.FROST:
            assert all(task.day <= frost + timedelta(days=rule.end[1]) for task in own)
    feeds = [task.day for task in tasks if task.key == "feed"]
    assert len(feeds) == max(0, (length - 28) // 7 + 1)


@given(PLANTED, LENGTH)
def test_a_later_frost_never_shortens_the_season(planted: date, length: int) -> None:
    """A week more of season never has fewer tasks, and weekly hours add up to all minutes."""
    shorter, longer = (
        season_tasks(RULES, planted=planted, frost=planted + timedelta(days=days), containers=20)
        for days in (length, length + 7)
    )
    assert len(longer) >= len(shorter)
    weeks = hours_by_week(longer)
    assert sum(weeks.values()) == pytest.approx(sum(task.minutes for task in longer) / 60)
    assert all(monday.weekday() == 0 for monday in weeks)


def test_shut_down_comes_before_the_frost_and_storage_after() -> None:
    """Lines are emptied before the frost date and things stored after it."""
    frost = date(2026, 10, 20)
    days = {task.key: task.day for task in season_tasks(RULES, planted=date(2026, 5, 15), frost=frost, containers=5)}
    assert days["winterise"] < frost < days["strip"] < days["store"]


@pytest.mark.parametrize(
    "call",
    [
        lambda: Station("c", -1, 0, 0, 0),
        lambda: site_steps(tube_m=-1),
        lambda: SeasonRule("x", "x", (Anchor.PLANTED, 0), every_days=7),
        lambda: SeasonRule("x", "x", (Anchor.PLANTED, 0), fixed_min=-1),
        lambda: season_tasks(RULES, planted=date(2026, 10, 1), frost=date(2026, 5, 1), containers=1),
        lambda: season_tasks(RULES, planted=date(2026, 5, 1), frost=date(2026, 10, 1), containers=-1),
        lambda: round_minutes(-1, 1, 1),
        lambda: day_events([], plan_id=""),
        lambda: day_events(
            2 * season_tasks(RULES[:1], planted=date(2026, 5, 1), frost=date(2026, 10, 1), containers=1), plan_id="p"
        ),
    ],
)
def test_seasons_that_cannot_be_are_refused(call: Callable[[], object]) -> None:
    """Dates out of order, amounts below zero and double tasks are refused with a ValueError."""
    with pytest.raises(ValueError, match="expected"):
        call()
