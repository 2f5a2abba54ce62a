"""Lifting and moving: laws."""

from collections.abc import Callable
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.handling.lift_factors import METRIC, US, Grip, LiftConstants
from brimful.domains.handling.lifting import Hands, Lift, lift_limit
from brimful.domains.handling.moving import (
    AIDS,
    WEAKEST_REMEDY,
    index_words,
    moving_advice,
    team_limit_kg,
    ways_to_move,
)

HANDS = st.builds(Hands, st.floats(0, 0.8), st.floats(0, 1.9), st.floats(0, 150))
LIFT = st.builds(
    Lift, st.floats(0, 60), HANDS, HANDS, st.floats(0, 16), st.floats(0.1, 8), st.sampled_from(Grip), st.booleans()
)
CONSTANTS = st.sampled_from([METRIC, US])


@given(LIFT, CONSTANTS)
def test_no_lift_allows_more_than_the_constant(lift: Lift, constants: LiftConstants) -> None:
    """Every factor lies in 0 to 1 and no limit passes the load constant; the index is load over limit."""
    limit = lift_limit(lift, constants=constants)
    assert all(0 <= factor <= 1 + 1e-12 for factor in limit.factors.values())
    assert 0 <= limit.limit_kg <= limit.start_kg <= constants.load_kg * (1 + 1e-12)
    assert limit.index == (lift.load_kg / limit.limit_kg if limit.limit_kg else inf)
    assert limit.factors[limit.weakest] == min(limit.factors.values())


@given(LIFT)
def test_both_sets_of_constants_agree_within_a_few_percent(lift: Lift) -> None:
    """METRIC and US are two roundings of one equation: where both allow a lift they differ by less than 4 %."""
    metric, us = (lift_limit(lift, constants=constants).start_kg for constants in (METRIC, US))
    if min(metric, us) > 0.5:
        assert metric == pytest.approx(us, rel=0.04)


@given(LIFT, st.floats(0, 0.3), st.floats(0, 60))
def test_further_out_or_turned_is_never_easier(lift: Lift, out: float, turn: float) -> None:
    """More reach or more twist at the start never raises the start's limit."""
    start = Hands(lift.start.reach_m + out, lift.start.height_m, lift.start.twist_deg + turn)
    worse = Lift(lift.load_kg, start, lift.end, lift.lifts_per_min, lift.hours, lift.grip)
    assert lift_limit(worse).start_kg <= lift_limit(lift).start_kg + 1e-12


@given(LIFT)
def test_a_load_set_down_with_care_is_limited_by_both_ends(lift: Lift) -> None:
    """The lower end rules where the load is placed with care; the start alone where it may be dropped."""
    limit = lift_limit(lift)
    wanted = min(limit.start_kg, limit.end_kg) if lift.placed_with_care else limit.start_kg
    assert limit.limit_kg == wanted


@given(st.floats(0, 3000), st.floats(1, 25))
def test_every_way_named_can_carry_the_load(load: float, limit: float) -> None:
    """Each way offered carries the load, and a heavier load never has more ways."""
    ways = ways_to_move(load, limit)
    capacity = {aid.name: aid.capacity_kg for aid in AIDS} | {"one person": limit}
    assert all(load <= capacity.get(way, team_limit_kg(limit, 3)) for way in ways)
    assert len(ways_to_move(load * 2 + 1, limit)) <= len(ways)


def test_a_load_past_every_aid_has_no_way() -> None:
    """Ten tonnes has no way at all, which is data and not a crash."""
    assert ways_to_move(10_000, 20) == ()


def test_concrete_is_set_empty_and_filled_in_place() -> None:
    """A 180 kg shell goes by hand truck; planted at 356 kg it would need a machine."""
    advice = moving_advice(180, 356, 20)
    assert advice.empty[0] == "hand truck"
    assert "hand truck" not in advice.planted
    assert advice.fill_in_place
    assert advice.times_heavier == pytest.approx(356 / 180)
    assert not moving_advice(5, 6, 20).fill_in_place


def test_words_grow_graver_with_the_index() -> None:
    """An index to 1 is fine, to 3 asks for a remedy, above 3 forbids; every factor has a remedy."""
    fine, more, far = (index_words(index, "reach") for index in (0.9, 2.0, 3.5))
    assert "Within" in fine
    assert WEAKEST_REMEDY["reach"] in more
    assert "do not lift" in far
    factors = lift_limit(Lift(10, Hands(0.3, 0.5), Hands(0.3, 0.7))).factors
    assert set(WEAKEST_REMEDY) == set(factors)


@pytest.mark.parametrize(
    "call",
    [
        lambda: Hands(-0.1, 0.5),
        lambda: Lift(-1, Hands(0.3, 0.5), Hands(0.3, 0.5)),
        lambda: Lift(10, Hands(0.3, 0.5), Hands(0.3, 0.5), hours=9),
        lambda: team_limit_kg(20, 0),
        lambda: ways_to_move(-1, 20),
        lambda: moving_advice(20, 10, 20),
    ],
)
def test_lifts_that_cannot_be_are_refused(call: Callable[[], object]) -> None:
    """A lift that cannot be is refused with a ValueError."""
    with pytest.raises(ValueError, match="expected"):
        call()
