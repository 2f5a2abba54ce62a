"""Network and schedule: laws, small cases by trying everything, and the size of a large run."""

from collections.abc import Callable
from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.work.network import (
    Step,
    heads_and_tails,
    in_order,
    longest_chain,
    network_faults,
    still_to_do,
)
from brimful.domains.work.schedule import (
    CHAIN,
    PEOPLE,
    Crew,
    Schedule,
    crew_faults,
    saved_by_one_more,
    schedule,
    time_bounds,
    working_time,
)


@st.composite
def networks(draw: st.DrawFn, most: int = 12) -> list[Step]:
    """Steps of up to two people that wait only for earlier ones, some with the one barrow."""
    count = draw(st.integers(1, most))
    return [
        Step(
            key=f"s{i}",
            name="",
            minutes=draw(st.integers(0, 20)),
            people=draw(st.integers(0, 2)),
            equipment=("barrow",) if draw(st.booleans()) else (),
            after=tuple(f"s{j}" for j in draw(st.sets(st.integers(0, i - 1), max_size=3))) if i else (),
        )
        for i in range(count)
    ]


def check(plan: Schedule, steps: list[Step], crew: Crew) -> None:
    """Every step once, after what it waits for, nobody and no tool in two places, finish between bound and sum."""
    slots = {slot.step.key: slot for slot in plan.slots}
    assert set(slots) == {step.key for step in steps}
    for step in steps:
        slot = slots[step.key]
        assert slot.end_min - slot.start_min == pytest.approx(step.minutes)
        assert len(set(slot.people)) == step.people
        assert all(slots[key].end_min <= slot.start_min + 1e-9 for key in step.after)
    busy = sorted((slot.start_min, slot.end_min, person) for slot in plan.slots for person in slot.people)
    for person in range(1, crew.people + 1):
        own = [(start, end) for start, end, who in busy if who == person and end > start]
        assert all(first[1] <= second[0] + 1e-9 for first, second in pairwise(own))
    for slot in plan.slots:
        for name, number in crew.equipment.items():
            together = [
                other
                for other in plan.slots
                if name in other.step.equipment and other.start_min <= slot.start_min < other.end_min
            ]
            assert len(together) <= number
    assert plan.bound_min - 1e-9 <= plan.finish_min <= sum(step.minutes for step in steps) + 1e-9


@given(networks(), st.integers(2, 4))
def test_every_schedule_can_be_worked(steps: list[Step], people: int) -> None:
    """Schedules of random networks keep order, hands and tools, and never beat their bound."""
    crew = Crew(people, {"barrow": 1})
    check(schedule(steps, crew), steps, crew)


@settings(max_examples=30, deadline=None)
@given(networks(most=5))
def test_small_bounds_are_never_above_the_best_of_all_orders(steps: list[Step]) -> None:
    """The stated bound is no more, and the schedule no less, than the best found by trying every order of starts."""
    crew = Crew(2, {"barrow": 1})
    plan = schedule(steps, crew)
    best = min(serial_finish(order, crew) for order in permutations(steps) if feasible(order))
    assert plan.bound_min - 1e-9 <= best <= plan.finish_min + 1e-9


def feasible(order: tuple[Step, ...]) -> bool:
    """Whether each step in an order comes after what it waits for."""
    seen: set[str] = set()
    for step in order:
        if not set(step.after) <= seen:
            return False
        seen.add(step.key)
    return True


def serial_finish(order: tuple[Step, ...], crew: Crew) -> float:
    """Finish when each step in turn starts as early as whole minutes of hands and barrow allow."""
    ends: dict[str, float] = {}
    used: dict[int, tuple[int, int]] = {}
    for step in order:
        start = int(max((ends[key] for key in step.after), default=0))
        barrow = len(step.equipment)
        while any(
            used.get(t, (0, 0))[0] + step.people > crew.people or used.get(t, (0, 0))[1] + barrow > 1
            for t in range(start, start + int(step.minutes))
        ):
            start += 1
        for t in range(start, start + int(step.minutes)):
            people, barrows = used.get(t, (0, 0))
            used[t] = (people + step.people, barrows + barrow)
        ends[step.key] = start + step.minutes
    return max(ends.values())


@given(networks())
def test_unlimited_hands_take_the_longest_chain(steps: list[Step]) -> None:
    """With a person and a barrow for every step the finish is the longest chain, which is proven best."""
    many = 2 * len(steps)
    plan = schedule(steps, Crew(many, {"barrow": len(steps)}))
    chain = longest_chain(steps)
    assert plan.finish_min == pytest.approx(chain.minutes)
    by_key = {step.key: step for step in steps}
    assert sum(by_key[key].minutes for key in chain.keys) == pytest.approx(chain.minutes)
    assert all(before in by_key[after].after for before, after in pairwise(chain.keys))


@given(networks())
def test_heads_and_tails_frame_every_step(steps: list[Step]) -> None:
    """Head plus tail of a step never passes the longest chain, and meets it somewhere."""
    heads, tails = heads_and_tails(steps)
    through = [heads[step.key] + tails[step.key] for step in steps]
    assert max(through) == pytest.approx(longest_chain(steps).minutes)


@given(networks())
def test_order_keeps_every_step_and_puts_it_after_what_it_waits_for(steps: list[Step]) -> None:
    """Sorting a shuffled network gives the same steps in a workable order."""
    ordered = in_order(steps[::-1])
    assert sorted(step.key for step in ordered) == sorted(step.key for step in steps)
    assert feasible(ordered)


def test_a_second_pair_of_hands_halves_work_that_splits() -> None:
    """Six steps of ten minutes alone take an hour; a second pair of hands saves half, and people were the limit."""
    steps = [Step(f"s{i}", "", 10) for i in range(6)]
    plan = schedule(steps, Crew(1))
    assert (plan.finish_min, plan.gap, plan.bottleneck) == (60, 0, PEOPLE)
    assert saved_by_one_more(steps, Crew(1)) == 30


def test_a_second_pair_of_hands_saves_nothing_on_a_chain() -> None:
    """A chain of steps takes as long with two as with one; the order of the steps is the limit."""
    steps = [Step(f"s{i}", "", 10, after=(f"s{i - 1}",) if i else ()) for i in range(6)]
    assert saved_by_one_more(steps, Crew(2)) == 0
    assert schedule(steps, Crew(2)).bottleneck == CHAIN


def test_one_truck_for_many_is_named_as_the_bottleneck() -> None:
    """When all wait for the one truck, the truck is named and its time is the bound."""
    steps = [Step(f"s{i}", "", 10, equipment=("truck",)) for i in range(4)]
    plan = schedule(steps, Crew(9, {"truck": 1}))
    assert (plan.finish_min, plan.bottleneck) == (40, "truck")
    assert time_bounds(steps, Crew(9, {"truck": 2}))["truck"] == 20


def test_what_is_ticked_off_is_not_scheduled_again() -> None:
    """Ticked steps are gone and nothing waits for them any more."""
    steps = [Step("a", "", 5), Step("b", "", 5, after=("a",)), Step("c", "", 5, after=("b",))]
    rest = still_to_do(steps, {"a", "b", "never"})
    assert [(step.key, step.after) for step in rest] == [("c", ())]


def test_wrong_networks_are_told_in_words() -> None:
    """Double keys, missing steps and circles are named; a sound network has no fault."""
    a, b = Step("a", "", 1, after=("b",)), Step("b", "", 1, after=("a",))
    assert "circle" in network_faults([a, b])[0]
    assert "not there" in network_faults([a])[0]
    assert "2 times" in network_faults([Step("c", "", 1), Step("c", "", 1)])[0]
    assert network_faults([Step("c", "", 1)]) == ()


def test_a_crew_that_lacks_people_or_tools_is_told_so() -> None:
    """A crew of zero, and a missing truck, are faults in words; a step for nobody needs no one."""
    step = Step("a", "", 5, people=2, equipment=("truck",))
    assert len(crew_faults([step], Crew(0))) == 2
    assert crew_faults([step], Crew(2, {"truck": 1})) == ()
    assert schedule([Step("wait", "", 30, people=0)], Crew(0)).finish_min == 30


def test_no_steps_take_no_time() -> None:
    """An empty network is done at once."""
    plan = schedule([], Crew(1))
    assert (plan.slots, plan.finish_min, plan.gap) == ((), 0, 0)
    assert longest_chain([]).minutes == 0


@given(st.floats(0, 10_000), st.floats(60, 600))
def test_working_days_add_up_again(minute: float, day_min: float) -> None:
    """Day and minute of the day give the minute back."""
    day, within = working_time(minute, day_min=day_min)
    assert (day - 1) * day_min + within == pytest.approx(minute, abs=1e-6)
    assert 0 <= within <= day_min


@pytest.mark.parametrize(
    "call",
    [
        lambda: Step("a", "", -1),
        lambda: schedule([Step("a", "", 1)], Crew(0)),
        lambda: in_order([Step("a", "", 1, after=("x",))]),
        lambda: working_time(-1),
    ],
)
def test_work_that_cannot_be_is_refused(call: Callable[[], object]) -> None:
    """Work that cannot be done is refused with a ValueError."""
    with pytest.raises(ValueError, match=r"[Ee]xpected"):
        call()
