"""Laws of the water held by a mix, and an independent library."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import hyp2f1

from brimful.domains.container import urn
from brimful.domains.substrate import (
    Retention,
    capture_share,
    column_mean,
    container_store,
    taken_up_l,
    volume_l,
    water_at_suction_l,
    water_held_l,
)


@st.composite
def mixes(draw: st.DrawFn) -> Retention:
    """Any retention curve a mix may have."""
    low = draw(st.floats(0, 0.3))
    return Retention(low, low + draw(st.floats(0.2, 0.65)), draw(st.floats(0.5, 200)), draw(st.floats(1.06, 8)))


depths = st.floats(0.03, 2.0)


def straight(_: float) -> float:
    """A column of 100 cm²."""
    return 0.01


def cone(radius_m: float, slope: float, z: float) -> float:
    """A conical wall."""
    return math.pi * (radius_m + slope * z) ** 2


@given(mixes(), depths)
def test_water_held_is_between_dry_and_saturated(mix: Retention, depth: float) -> None:
    """A container holds at least θr and at most θs of its mix, and has some air or none."""
    share = column_mean(mix, depth)
    assert mix.theta_r < share < mix.theta_s
    assert 0 < container_store(mix, straight, depth).air_share < mix.theta_s


@given(mixes(), depths, st.floats(1.1, 5))
def test_a_deeper_container_holds_less_than_in_proportion(mix: Retention, depth: float, times: float) -> None:
    """k times the depth holds more water, but less than k times as much, as soon as its top drains at all."""
    shallow, deep = (water_held_l(mix, straight, d) for d in (depth, depth * times))
    assert shallow < deep
    if mix.theta(0.0) - mix.theta(depth * times) > 1e-9:
        assert deep < times * shallow


@given(mixes(), depths, st.floats(0.2, 5))
def test_depth_counts_against_the_curve_only(mix: Retention, depth: float, times: float) -> None:
    """A mix that drains at k times the suction behaves in k times the depth as the other does in the depth."""
    tighter = Retention(mix.theta_r, mix.theta_s, mix.alpha_per_m / times, mix.n)
    assert column_mean(tighter, depth * times) == pytest.approx(column_mean(mix, depth), rel=1e-9)


@given(mixes(), depths)
def test_width_below_holds_more(mix: Retention, depth: float) -> None:
    """Of two containers of one volume, the one wide at the bottom holds more, as soon as its top drains at all."""
    wide_low = water_held_l(mix, lambda z: cone(0.3, -0.1 / depth, z), depth)
    wide_high = water_held_l(mix, lambda z: cone(0.2, 0.1 / depth, z), depth)
    if mix.theta(0.0) - mix.theta(depth) > 1e-9:
        assert wide_low > wide_high
    else:
        assert wide_low == pytest.approx(wide_high, rel=1e-9)


@given(mixes(), depths, st.floats(0, 5), st.floats(0, 5))
def test_more_suction_leaves_less(mix: Retention, depth: float, a: float, b: float) -> None:
    """Water falls as suction rises, by either way of drawing, and drawing on top of drained goes further."""
    low, high = sorted((a, b))
    added = [water_held_l(mix, straight, depth, added_m=h) for h in (low, high)]
    evenly = [water_at_suction_l(mix, straight, depth, suction_m=h) for h in (low, high)]
    assert added[0] >= added[1] * (1 - 1e-9)
    assert evenly[0] >= evenly[1] * (1 - 1e-9)
    assert all(more <= less * (1 + 1e-9) for more, less in zip(added, evenly, strict=True))


@given(mixes(), depths)
def test_the_store_adds_up(mix: Retention, depth: float) -> None:
    """Its parts are none below zero, and together what is held down to wilting; air and water fill the pores."""
    store = container_store(mix, straight, depth)
    parts = (store.easily_available_l, store.reserve_l, store.beyond_stress_l)
    wilting = water_held_l(mix, straight, depth, added_m=153.0)
    assert min(parts) >= 0
    assert math.fsum(parts) == pytest.approx(store.held_l - wilting, rel=1e-9)
    assert store.air_share + store.held_share == pytest.approx(mix.theta_s, rel=1e-9)


@given(mixes(), st.floats(1e-4, 20))
def test_the_curve_turns_round(mix: Retention, suction: float) -> None:
    """The suction at the water content of a suction is that suction."""
    theta = mix.theta(suction)
    if mix.theta_r + 1e-6 < theta < mix.theta_s - 1e-6:
        assert mix.suction_m(theta) == pytest.approx(suction, rel=1e-4)


@given(mixes(), depths)
def test_against_the_hypergeometric_function(mix: Retention, depth: float) -> None:
    """The mean of a straight column equals its closed form, θr + (θs − θr)·₂F₁(m, 1/n; 1 + 1/n; −(αH)^n)."""
    m, x = 1 - 1 / mix.n, (mix.alpha_per_m * depth) ** mix.n
    closed = mix.theta_r + (mix.theta_s - mix.theta_r) * hyp2f1(m, 1 / mix.n, 1 + 1 / mix.n, -x)
    assert column_mean(mix, depth) == pytest.approx(float(closed), rel=1e-10)


@given(mixes(), depths, st.floats(0.05, 1), st.floats(-0.5, 1))
def test_a_cone_against_the_hypergeometric_function(mix: Retention, depth: float, radius: float, flare: float) -> None:
    """A conical wall equals the three terms of its closed form."""
    slope = flare * radius / depth
    m, x = 1 - 1 / mix.n, (mix.alpha_per_m * depth) ** mix.n

    def term(j: int) -> float:
        b = (j + 1) / mix.n
        effective = float(hyp2f1(m, b, 1 + b, -x))
        return depth ** (j + 1) / (j + 1) * (mix.theta_r + (mix.theta_s - mix.theta_r) * effective)

    assume(all(math.isfinite(term(j)) for j in range(3)))  # the library has no value where b − m is whole
    closed = 1000 * math.pi * (radius**2 * term(0) + 2 * radius * slope * term(1) + slope**2 * term(2))
    held = water_held_l(mix, lambda z: cone(radius, slope, z), depth)
    assert held == pytest.approx(closed, rel=1e-9)


@settings(max_examples=30)
@given(mixes(), st.floats(0, 2))
def test_an_urn_against_an_independent_quadrature(mix: Retention, added: float) -> None:
    """Kinks of the wall are no harm: a waisted urn equals adaptive quadrature piece by piece."""
    shape = urn([(0, 0.3), (0.1, 0.2), (0.35, 0.55), (0.5, 0.5)])
    edges = (0.0, *shape.breaks_m, shape.depth_m)
    parts = [
        quad(lambda z: shape.area_m2(z) * mix.theta(z + added), low, high, epsabs=1e-13, epsrel=1e-12, limit=200)[0]
        for low, high in pairwise(edges)
    ]
    held = water_held_l(mix, shape.area_m2, shape.depth_m, added_m=added, breaks_m=shape.breaks_m)
    assert held == pytest.approx(1000 * math.fsum(parts), rel=1e-8)
    assert volume_l(shape.area_m2, shape.depth_m, shape.breaks_m) == pytest.approx(shape.volume_l(), rel=1e-12)


@given(st.floats(0, 50), st.floats(0, 50), st.floats(0, 1))
def test_a_pulse_is_conserved(pulse: float, room: float, capture: float) -> None:
    """What is taken up and what drains make the pulse; no more is taken up than there is room for."""
    taken, drained = taken_up_l(pulse, room, capture)
    assert taken + drained == pytest.approx(pulse)
    assert 0 <= taken <= room
    assert drained >= 0


@given(st.floats(0, 1), st.floats(0, 1))
def test_drier_mix_takes_up_less(a: float, b: float) -> None:
    """Capture never falls as water rises; moist mix takes all, the driest the least share."""
    low, high = sorted((a, b))
    shares = [capture_share(theta, driest_share=0.19) for theta in (low, high)]
    assert shares[0] <= shares[1]
    assert capture_share(0.32, driest_share=0.19) == 1.0
    assert capture_share(0.19, driest_share=0.19) == pytest.approx(0.65)


def test_refusals() -> None:
    """Figures that cannot be are refused with what was expected."""
    mix = Retention(0.1, 0.8, 10, 2)
    wrong = [
        lambda: Retention(0.5, 0.4, 10, 2),
        lambda: Retention(0.1, 0.8, 0, 2),
        lambda: Retention(0.1, 0.8, 10, 1),
        lambda: Retention(0.1, math.nan, 10, 2),
        lambda: mix.suction_m(0.05),
        lambda: water_held_l(mix, straight, 0),
        lambda: water_held_l(mix, straight, math.nan),
        lambda: water_held_l(mix, straight, 0.3, added_m=-1),
        lambda: water_at_suction_l(mix, straight, 0.3, suction_m=-1),
        lambda: taken_up_l(-1, 1),
        lambda: capture_share(0.2, driest_share=0.4),
    ]
    for call in wrong:
        with pytest.raises(ValueError, match="expected"):
            call()
