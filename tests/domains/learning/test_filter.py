"""Laws of the filter, and a Kalman filter beside it where everything is a bell."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.domains.learning.made import made_days, made_site

from brimful.domains.learning import (
    DRY,
    KINDS,
    MOIST,
    NOTHING,
    WET,
    Belief,
    Estimate,
    Reading,
    ReadingErrors,
    Settings,
    believed_on,
    follow,
    held_untold_l,
)
from brimful.domains.learning import filter as filter_module
from brimful.domains.learning.faults import CAUSE_KEYS

SURE = Settings(row_demand=0.0, own_demand=0.0, row_supply=0.0, own_supply=0.0, row_doubt=0.0, recovery_day=0.0)


def last(readings: list[Reading], containers: int = 1, days: int = 20, **other: object) -> Belief:
    """Belief on the last day of the usual site."""
    site = made_site(containers, rows=int(other.pop("rows", 1)))  # type: ignore[call-overload]
    return follow(site, made_days(containers, days), readings, seed=3, **other).beliefs[-1]  # type: ignore[arg-type]


def width(estimate: Estimate) -> np.ndarray:
    """Ends of the interval apart."""
    return estimate.high - estimate.low


def test_without_readings_belief_widens_to_the_prior() -> None:
    """Days without readings widen what catch tests had narrowed, up to the spread believed before any reading."""
    told = [Reading(day, 0, "catch", 1.3, minutes=10.0) for day in range(10)]
    track = follow(made_site(1), made_days(1, 500), told, seed=3, report_days=(0, 9, 40, 499))
    first, read, later, end = (float(width(one.supply_factor)[0]) for one in track.beliefs)
    assert read < 0.6 * first
    assert read < later < end
    nothing = float(width(last([], days=500).supply_factor)[0])
    assert end == pytest.approx(nothing, rel=0.15)


def test_many_exact_readings_lead_to_the_truth() -> None:
    """Daily weights and catch tests of a container that wants more and gets less end at its true factors."""
    demand, supply, days = 1.25, 0.9, 60
    water, told = 8.5, []
    for day in range(days):
        water = min(water + supply * 8.0 * 32 / 60, 10.0) - 0.3 * demand * 3.0
        told += [Reading(day, 0, "weight", 15.0 + water), Reading(day, 0, "catch", supply * 8.0 / 6, minutes=10.0)]
        water -= 0.7 * demand * 3.0
    errors = ReadingErrors(weight_kg=0.1, catch=0.02)
    belief = follow(
        made_site(1), made_days(1, days, demand_l=3.0, minutes=32.0), told, seed=1, settings=Settings(errors=errors)
    ).beliefs[-1]
    assert belief.store_share.mean[0] == pytest.approx((water + 0.7 * demand * 3.0) / 10.0, abs=0.02)
    assert belief.demand_factor.mean[0] == pytest.approx(demand, rel=0.06)
    assert belief.supply_factor.mean[0] == pytest.approx(supply, rel=0.04)


@settings(max_examples=8, deadline=None)
@given(day=st.integers(3, 9), container=st.integers(0, 2))
def test_a_drier_finger_lowers_the_store(day: int, container: int) -> None:
    """Wet, moist, dry: the store falls in this order on the day of the test, whichever day and container."""
    days = made_days(3, 10, minutes=25.0)
    many = Settings(particles=500)
    stores = [
        follow(made_site(3), days, [Reading(day, container, "finger", told)], seed=5, report_days=(day,), settings=many)
        .beliefs[0]
        .store_share.mean[container]
        for told in (WET, MOIST, DRY)
    ]
    assert stores[0] > stores[1] > stores[2]


def test_siblings_lean_on_each_other() -> None:
    """What nine of a row are seen to get moves the tenth, which nobody read, and no container of the other row."""
    told = [Reading(day, c, "catch", 1.15, minutes=10.0) for day in range(15) for c in range(9)]
    mean = last(told, containers=20, rows=2).supply_factor.mean
    assert mean[:9].max() < mean[9] < mean[10:].min()
    assert mean[10:] == pytest.approx(np.full(10, 1.0), abs=0.02)


def test_the_same_seed_gives_the_same_answer() -> None:
    """Twice the same is the same to the last bit; another seed is near."""
    told = [Reading(day, day % 4, "finger", MOIST) for day in range(20)]
    runs = [follow(made_site(4), made_days(4, 20), told, seed=seed) for seed in (7, 7, 8)]
    assert np.array_equal(runs[0].causes, runs[1].causes)
    assert np.array_equal(runs[0].beliefs[-1].store_share.mean, runs[1].beliefs[-1].store_share.mean)
    assert runs[2].beliefs[-1].store_share.mean == pytest.approx(runs[0].beliefs[-1].store_share.mean, abs=0.05)


@settings(max_examples=5, deadline=None)
@given(day=st.integers(0, 19))
def test_one_day_alone_is_that_day_of_the_season(day: int) -> None:
    """What is believed on a day asked for alone is what the whole season reports of it, to the last bit."""
    told = [Reading(d, d % 4, "finger", float(d % 3)) for d in range(20)]
    alone = believed_on(day, made_site(4), made_days(4, 20), told, seed=7)
    whole = follow(made_site(4), made_days(4, 20), told, seed=7, report_days=(day,))
    assert np.array_equal(alone.causes, whole.causes[day])
    for part in ("store_share", "demand_factor", "supply_factor"):
        assert np.array_equal(getattr(alone, part).low, getattr(whole.beliefs[0], part).low)


@settings(max_examples=5, deadline=None)
@given(day=st.integers(0, 19), told=st.sampled_from([(), (Reading(3, 1, "rain", 4.0), Reading(5, 2, "ran", 9.0))]))
def test_where_nobody_reads_one_cloud_stands_for_all(day: int, told: tuple[Reading, ...]) -> None:
    """Containers of other sizes and flows are believed of as where each is followed in a cloud of its own."""
    sizes = np.array([4.0, 10.0, 11.0, 30.0])
    site = made_site(4, rows=2, capacity_l=sizes, stress_l=0.4 * sizes, flow_l_h=np.array([2.0, 8.0, 9.0, 12.0]))
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(filter_module, "_Untold", filter_module._Run)
        each = believed_on(day, site, made_days(4, 20), told, seed=7)
    one = believed_on(day, site, made_days(4, 20), told, seed=7)
    for part in ("store_share", "demand_factor", "supply_factor"):
        assert getattr(one, part).low == pytest.approx(getattr(each, part).low, rel=1e-9)
        assert getattr(one, part).mean == pytest.approx(getattr(each, part).mean, rel=1e-9)
    assert one.causes == pytest.approx(each.causes, rel=1e-9)
    if not told:
        held = held_untold_l(day, site, made_days(4, 20), seed=7)
        assert held == pytest.approx(each.store_share.middle * sizes, rel=1e-9)


@settings(max_examples=6, deadline=None)
@given(order=st.permutations(range(6)))
def test_the_order_of_containers_does_not_matter(order: list[int]) -> None:
    """Containers in another order give the same beliefs in that order."""
    site, days = made_site(6, rows=2), made_days(6, 15, minutes=25.0)
    told = [Reading(day, c, "finger", float((c + day) % 3)) for day in range(15) for c in range(6)]
    told += [Reading(7, 2, "meter", 19.0)]
    moved = replace(site, row=site.row[order])
    new = [replace(one, container=order.index(one.container)) for one in told]
    one, two = (follow(s, days, r, seed=2).beliefs[-1] for s, r in ((site, told), (moved, new)))
    assert two.store_share.mean == pytest.approx(one.store_share.mean[order], abs=1e-6)
    assert two.causes == pytest.approx(one.causes[order], abs=1e-6)


def kalman(readings: list[tuple[int, float]], days: int, spread: float, settings: Settings) -> tuple[float, float]:
    """Mean and deviation of the store [share] by an exact filter: capacity 1000 L, never full, never short."""
    mean, variance = 1000 * settings.start_share, (1000 * settings.start_spread) ** 2
    for day in range(days):
        # One day's noise acts before and after the reading alike, so the unread part of it is carried as a state.
        state, cov = np.array([mean, 0.0]), np.diag([variance, (settings.day_noise * 40.0) ** 2])
        move = np.array([[1.0, -0.3], [0.0, 1.0]])
        state, cov = move @ state + [4.0 - 12.0, 0.0], move @ cov @ move.T
        for at, value in readings:
            if at == day:
                gain = cov[:, 0] / (cov[0, 0] + (1000 * spread) ** 2)
                state, cov = state + gain * (value * 10 - state[0]), cov - np.outer(gain, cov[0])
        mean, variance = float(state[0]), float(cov[0, 0])
        if day < days - 1:
            rest = np.array([1.0, -0.7])
            mean, variance = float(rest @ state - 28.0), float(rest @ cov @ rest)
    return mean / 1000, np.sqrt(variance) / 1000


def test_where_all_is_a_bell_it_is_the_kalman_filter() -> None:
    """Known factors, no bounds, bell-shaped probes: mean and spread are those of an exact filter."""
    spread, days = 0.05, 12
    told = [(2, 70.0), (5, 66.0), (6, 55.0), (11, 45.0)]
    free = replace(
        SURE,
        start_share=0.8,
        start_spread=0.04,
        day_noise=0.3,
        particles=6000,
        errors=ReadingErrors(probe=spread, wrong=0),
    )
    site = made_site(1, capacity=1000.0, stress_l=np.array([1e-6]), flow_l_h=np.array([6.0]))
    belief = follow(
        site, made_days(1, days, demand_l=40.0), [Reading(d, 0, "probe", v) for d, v in told], seed=1, settings=free
    ).beliefs[-1]
    mean, deviation = kalman(told, days, spread, free)
    assert belief.store_share.mean[0] == pytest.approx(mean, abs=0.05 * deviation)
    assert width(belief.store_share)[0] == pytest.approx(2 * 1.645 * deviation, rel=0.05)


def test_what_was_run_and_rained_replaces_what_was_expected() -> None:
    """A zone that stood still dries out, a gauge full of rain fills it again."""
    still = [Reading(day, 0, "ran", 0.0) for day in range(5, 10)]
    usual, dry, rained = (
        last(told, containers=2, days=10).store_share.mean
        for told in ([], still, [*still, Reading(8, 1, "rain", 100.0)])
    )
    assert (dry < 0.6 * usual).all()
    assert (rained > dry + 0.2).all()


def test_a_mend_makes_a_container_sound_and_leaves_its_water() -> None:
    """After a mend nothing is held against a container, and it is still as dry as it was."""
    told = [Reading(day, 0, "catch", 0.0, minutes=10.0) for day in range(10, 16)]
    told += [Reading(day, 0, "finger", DRY) for day in range(10, 16)]
    before, after = (last(r, containers=3, days=16) for r in (told, [*told, Reading(15, 0, "mended", 1.0)]))
    assert before.causes[0, 0] < 0.01
    assert after.causes[0, 0] > 0.99
    assert after.store_share.mean[0] < 0.5
    assert CAUSE_KEYS[0] == NOTHING


def test_the_meter_tells_a_leak_from_plugged_emitters() -> None:
    """The same dry container: water that the meter counts and the mix does not get is a leak; less water is not."""
    dry = [Reading(day, 0, "catch", 0.4, minutes=10.0) for day in range(10, 15)]
    usual, leak, plugged = CAUSE_KEYS.index, CAUSE_KEYS.index("leak or burst"), CAUSE_KEYS.index("plugged emitters")
    assert usual(NOTHING) == 0
    more, less = (
        last([*dry, *(Reading(day, 1, "meter", litres) for day in range(10, 20))], containers=4).causes[0]
        for litres in (4 * 5.33 + 9.0, 3 * 5.33 + 1.6)
    )
    assert more[leak] > 0.9
    assert more[plugged] < 0.1
    assert less[plugged] > less[leak]


@pytest.mark.parametrize(
    "wrong",
    [
        Reading(0, 0, "nose", 1.0),
        Reading(20, 0, "finger", DRY),
        Reading(0, 5, "finger", DRY),
        Reading(0, 0, "finger", 3.0),
        Reading(0, 0, "probe", float("nan")),
        Reading(0, 0, "catch", 1.0),
    ],
)
def test_readings_that_cannot_be_are_refused(wrong: Reading) -> None:
    """Unknown kinds, days, containers and values, and a catch test without minutes, say what was expected."""
    with pytest.raises(ValueError, match="expected"):
        last([wrong])


def test_every_kind_of_reading_can_be_told() -> None:
    """Each row of the table of kinds takes a reading in its range and leaves sound numbers."""
    for key, kind in KINDS.items():
        belief = last([Reading(3, 0, key, min(kind.most, 2.0), minutes=5.0)], containers=2, days=5)
        assert np.isfinite(belief.store_share.mean).all()
        assert belief.causes.sum(axis=1) == pytest.approx(np.ones(2))
