"""Today's run: the printed table corrected by what is believed; laws that hold whatever the belief."""

from dataclasses import fields, replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.watering.day import MOST_BY_HAND, DayNeed, left_to_the_can, litres_wanted, run_of_day
from brimful.domains.watering.run_time import TimerLimits

TIMER = TimerLimits(1, 4, 240.0)


def need(held: float = 10.0, **changes: float) -> DayNeed:
    """Two equal containers of 20 L with a flow of 12 L/h whose table brings 2 L for a demand of 2 L."""
    figures = {
        "usual_l": 2.0, "usual_held_l": 10.0, "usual_demand_l": 2.0, "held_l": held, "demand_l": 2.0, "rain_l": 0.0,
        "capacity_l": 20.0, "arrives_l_h": 12.0, "rules": 1.0,
    }  # fmt: skip
    return DayNeed(**{name: np.full(2, value) for name, value in (figures | changes).items()})


def test_all_as_designed_gives_the_table() -> None:
    """Where nothing deviates, today's minutes are those of the printed table: 2 L at 12 L/h are 10 minutes."""
    run = run_of_day(need(), TIMER)
    assert (run.starts, run.minutes, run.short_l) == (1, 10, 0.0)


def test_each_litre_off_the_path_is_a_litre_more_or_less() -> None:
    """A drier mix, a thirstier day, or rain each change the run by their own litres: 1 L at 12 L/h is 5 minutes."""
    assert run_of_day(need(9.0), TIMER).minutes == 15
    assert run_of_day(need(demand_l=3.0), TIMER).minutes == 15
    assert run_of_day(need(rain_l=1.0), TIMER).minutes == 5
    assert run_of_day(need(rain_l=2.0), TIMER).starts == 0


@given(st.floats(0, 20), st.floats(0, 10), st.floats(0, 30), st.floats(0, 10))
def test_wanted_keeps_to_its_bounds(held: float, demand: float, rain: float, usual: float) -> None:
    """Never less than nothing, and never more than it can hold, unless the table itself gives more."""
    wanted = litres_wanted(need(held, demand_l=demand, rain_l=rain, usual_l=usual))
    assert (wanted >= 0.0).all()
    assert (wanted <= max(20.0 + demand - rain - held, usual) + 1e-9).all()


@given(st.floats(0, 20), st.floats(0, 20))
def test_a_drier_container_never_gets_less(one: float, other: float) -> None:
    """Monotone in what is held."""
    drier, wetter = sorted((one, other))
    assert (litres_wanted(need(drier)) >= litres_wanted(need(wetter)) - 1e-9).all()


def test_one_that_is_out_of_order_does_not_rule() -> None:
    """A container whose water does not arrive is left to the can; the sound one sets the run."""
    sick = replace(need(), held_l=np.array([0.0, 10.0]), rules=np.array([0.0, 1.0]))
    run = run_of_day(sick, TIMER)
    assert (run.ruling, run.minutes) == (1, 10)
    assert run_of_day(replace(sick, rules=np.zeros(2)), TIMER).ruling == 0


def test_the_permitted_time_is_kept_and_what_lacks_is_said() -> None:
    """A run that does not fit is cut, and the litres that lack are what was wanted less what is given."""
    run = run_of_day(need(0.0), TimerLimits(1, 1, 30.0))
    assert (run.starts, run.minutes) == (1, 30)
    assert np.isclose(run.short_l, 12.0 - 6.0)


def test_a_start_is_no_longer_than_the_timer_can_run() -> None:
    """What one start may not bring comes in several; where there are not enough of them, what lacks is said."""
    whole = run_of_day(need(0.0), TIMER)
    assert (whole.starts, whole.minutes) == (1, 60)
    run = run_of_day(need(0.0), replace(TIMER, longest_minutes=25.0))
    assert (run.starts, run.minutes, run.short_l) == (3, 20, 0.0)
    few = run_of_day(need(0.0), replace(TIMER, longest_minutes=25.0, max_starts=2))
    assert (few.starts, few.minutes) == (2, 25)
    assert np.isclose(few.short_l, 12.0 - 10.0)


def test_starts_are_split_where_one_would_overflow() -> None:
    """A demand that one filling cannot hold is brought in several starts, each no more than the room and the usual."""
    full = need(19.0, usual_held_l=19.0, usual_l=6.0, usual_demand_l=6.0, demand_l=12.0)
    run = run_of_day(full, TIMER)
    assert run.starts >= 2
    assert run.starts * run.minutes / 60.0 * 12.0 >= 12.0 - 0.5


def run_of(held: list[float]) -> tuple[int, list[float]]:
    """Minutes of the run and litres by hand where containers of the usual kind hold so much."""
    usual = need()
    parts = {field.name: np.full(len(held), getattr(usual, field.name)[0]) for field in fields(DayNeed)}
    run = run_of_day(DayNeed(**parts | {"held_l": np.array(held)}), TIMER)
    return run.starts * run.minutes, run.by_hand_l.tolist()


def test_one_far_drier_than_the_rest_is_watered_by_hand() -> None:
    """Nine on the path want 10 minutes; the tenth wants 12 L, of which the run brings 2: ten litres by can. One that
    lacks half a litre more than the others is worth two minutes and a half of the zone, not a walk."""
    assert run_of([10.0] * 9 + [0.0]) == (10, [0.0] * 9 + [10.0])
    assert run_of([10.0] * 9 + [9.5]) == (13, [0.0] * 10)


def test_a_zone_that_is_dry_is_run() -> None:
    """Where all are dry, or more than a crew would carry to, the run is lengthened."""
    assert run_of([0.0] * 10) == (60, [0.0] * 10)
    assert run_of([10.0] * 5 + [0.0] * 5) == (60, [0.0] * 10)


def test_where_the_others_want_nothing_nothing_is_run_for_one() -> None:
    """The only dry one gets all it wants by hand."""
    assert run_of([20.0] * 9 + [0.0]) == (0, [0.0] * 9 + [12.0])


@given(st.lists(st.floats(0, 20), min_size=1, max_size=30))
def test_nobody_is_forgotten(held: list[float]) -> None:
    """What the run brings and what comes by hand is what each wants, to the timer's half minute; few are left out."""
    usual = need()
    parts = {field.name: np.full(len(held), getattr(usual, field.name)[0]) for field in fields(DayNeed)}
    wanting = DayNeed(**parts | {"held_l": np.array(held)})
    run = run_of_day(wanting, TIMER)
    brought = run.starts * run.minutes / 60.0 * wanting.arrives_l_h
    slack = 0.5 * max(run.starts, 1) / 60.0 * 12.0 + 1e-9
    assert (brought + run.by_hand_l >= litres_wanted(wanting) - slack).all()
    assert (run.by_hand_l > 0.0).sum() <= max(1, MOST_BY_HAND * len(held))


@given(st.lists(st.floats(-1, 200), min_size=1, max_size=30))
def test_who_is_left_to_the_can_is_drier_than_all_who_are_not(minutes: list[float]) -> None:
    """And somebody always rules, where anybody may."""
    wanted = np.array(minutes)
    left = left_to_the_can(wanted)
    rest = wanted[~left]
    assert not left.any() or wanted[left].min() >= rest.max()
    assert not (wanted >= 0.0).any() or (rest >= 0.0).any()
