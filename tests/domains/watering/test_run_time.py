"""Minutes and starts on the timer."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.watering.run_time import (
    Limit,
    TimerLimits,
    UniformityRule,
    distribution_share,
    gross_l_day,
    minutes_per_day,
    pulse_room_l,
    split_into_starts,
)

minutes = st.floats(0.0, 600.0)
flow = st.floats(0.5, 60.0)
room = st.floats(0.05, 40.0)
timer = st.builds(TimerLimits, st.integers(1, 10), st.integers(1, 12), st.floats(30.0, 1440.0))


@given(minutes=minutes, flow_l_h=flow, room_l=room, limits=timer)
def test_a_setting_is_one_the_timer_can_take(
    minutes: float, flow_l_h: float, room_l: float, limits: TimerLimits
) -> None:
    """Whole steps, allowed starts, inside the permitted time."""
    day = split_into_starts(minutes, flow_l_h, room_l=room_l, limits=limits)
    assert day.minutes_per_start % limits.minute_step == 0
    assert 1 <= day.starts_per_day <= limits.max_starts
    assert day.minutes_per_day <= limits.permitted_minutes * (1 + 1e-6)


@given(minutes=minutes, flow_l_h=flow, room_l=room, limits=timer)
def test_whatever_does_not_fit_is_said(minutes: float, flow_l_h: float, room_l: float, limits: TimerLimits) -> None:
    """Wanted water is either applied or reported short; a pulse above the room names a limit."""
    day = split_into_starts(minutes, flow_l_h, room_l=room_l, limits=limits)
    wanted_l = minutes * flow_l_h / 60.0
    assert day.applied_l_day + day.short_l_day >= wanted_l * (1 - 1e-6) - 1e-6
    assert day.short_l_day <= 1e-6 * (1 + wanted_l) or day.limit is Limit.TIME
    if day.overfill_l > 1e-6 * (1 + day.pulse_l):
        assert day.limit in {Limit.TIME, Limit.STARTS, Limit.TIMER_STEP}


@given(minutes=minutes, flow_l_h=flow, room_l=room)
def test_no_fewer_starts_would_fit(minutes: float, flow_l_h: float, room_l: float) -> None:
    """The split is the fewest starts whose pulse the mix can hold."""
    limits = TimerLimits(max_starts=24)
    day = split_into_starts(minutes, flow_l_h, room_l=room_l, limits=limits)
    if day.starts_per_day > 1:
        fewer = math.ceil(minutes / (day.starts_per_day - 1) - 1e-9)
        assert fewer * flow_l_h / 60.0 > room_l * (1 - 1e-9)


def test_the_binding_limit_is_named() -> None:
    """One case of each: demand, room, step, starts, time."""
    one = TimerLimits()
    assert split_into_starts(30, 4.0, room_l=3.0).limit is Limit.DEMAND
    assert split_into_starts(100, 4.0, room_l=2.5).limit is Limit.ROOM
    assert split_into_starts(5, 60.0, room_l=0.5, limits=TimerLimits(max_starts=9)).limit is Limit.TIMER_STEP
    assert split_into_starts(300, 4.0, room_l=2.5, limits=one).limit is Limit.STARTS
    short = split_into_starts(100, 6.0, room_l=20.0, limits=TimerLimits(permitted_minutes=60.0))
    assert short.limit is Limit.TIME
    assert short.short_l_day == pytest.approx(4.0)
    at_a_stretch = split_into_starts(100, 6.0, room_l=20.0, limits=TimerLimits(max_starts=2, longest_minutes=30.0))
    assert (at_a_stretch.starts_per_day, at_a_stretch.minutes_per_start, at_a_stretch.limit) == (2, 30, Limit.LONGEST)
    assert at_a_stretch.short_l_day == pytest.approx(4.0)


@given(minutes=minutes, flow_l_h=flow, longest=st.floats(1, 240), step=st.integers(1, 15))
def test_no_start_runs_longer_than_the_timer_can(minutes: float, flow_l_h: float, longest: float, step: int) -> None:
    """A start keeps within the longest run of the timer, in whole steps; all of them within the permitted time."""
    limits = TimerLimits(step, 6, 300.0, longest)
    day = split_into_starts(minutes, flow_l_h, room_l=1000.0, limits=limits)
    assert day.minutes_per_start <= longest
    assert day.minutes_per_start % step == 0
    assert day.minutes_per_day <= 300.0


def test_no_demand_means_no_minutes() -> None:
    """A container that needs nothing gets nothing."""
    day = split_into_starts(0.0, 4.0, room_l=1.0)
    assert (day.minutes_per_day, day.applied_l_day) == (0, 0.0)


@pytest.mark.parametrize(("leaching", "litres"), [(0.10, 4.44), (0.15, 4.71), (0.20, 5.00)])
def test_leaching_lengthens_the_run(leaching: float, litres: float) -> None:
    """4.0 L of demand at a leaching fraction of 0.10, 0.15, 0.20 (calculated by hand)."""
    assert gross_l_day(4.0, leaching, 1.0) == pytest.approx(litres, abs=0.005)


@pytest.mark.parametrize(
    ("rule", "factors"),
    [
        (UniformityRule.LOW_QUARTER, (1.6667, 1.4286, 1.2500, 1.1111)),
        (UniformityRule.INDUSTRY, (1.3158, 1.2195, 1.1364, 1.0638)),
        (UniformityRule.LOW_HALF, (1.3256, 1.2258, 1.1400, 1.0654)),
    ],
)
def test_run_time_multipliers(rule: UniformityRule, factors: tuple[float, ...]) -> None:
    """Multiplier at DU 0.6–0.9: rules of the Irrigation Association (memory), values calculated."""
    for uniformity, factor in zip((0.6, 0.7, 0.8, 0.9), factors, strict=True):
        assert 1.0 / distribution_share(uniformity, rule) == pytest.approx(factor, abs=1e-4)


def test_sixteen_emitters_for_a_quarter_of_an_hour() -> None:
    """Common practice, no source: 16 emitters of 0.65 gph run 15 minutes give 2.6 gal."""
    gallon_l = 3.785411784
    assert minutes_per_day(2.6 * gallon_l, 16 * 0.65 * gallon_l) == pytest.approx(15.0)


def test_a_sixty_litre_container_needs_three_waterings() -> None:
    """FAO-56 eq. 82–83 in litres (read): 60 L × 0.20 × p 0.30 = 3.6 L of room; 8 L a day is 3 starts."""
    room_l = pulse_room_l(60.0 * 0.20 * 0.30)
    assert split_into_starts(minutes_per_day(8.0, 12.0), 12.0, room_l=room_l).starts_per_day == 3


@pytest.mark.parametrize(("leaching", "distribution"), [(1.0, 0.9), (-0.1, 0.9), (0.1, 0.0), (0.1, 1.1)])
def test_impossible_shares_are_refused(leaching: float, distribution: float) -> None:
    """All water drained, or none delivered, has no run time."""
    with pytest.raises(ValueError, match="expected"):
        gross_l_day(1.0, leaching, distribution)


def test_an_impossible_timer_is_refused() -> None:
    """No step, no starts, more than a day."""
    for limits in ((0, 1, 60.0), (1, 0, 60.0), (1, 1, 0.0), (1, 1, 2000.0), (1, 1, 60.0, 0.0)):
        with pytest.raises(ValueError, match="expected a step"):
            TimerLimits(*limits)
    with pytest.raises(ValueError, match="container_flow_l_h"):
        minutes_per_day(1.0, 0.0)
