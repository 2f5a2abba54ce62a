"""Spread of flows by chance, and the tube in the container."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.layout import (
    SLACK,
    Bowl,
    RootBall,
    Spot,
    lay_loops,
    loop_radii,
    loops_for,
    wetted_radius,
)
from brimful.domains.hydraulics.spread import HYDRAULICS, MAKING, PLUGGING, flow_spread


def test_chance_equals_the_normal_law() -> None:
    """Without plugging the chance that one of N containers falls short is that of the normal law, within sampling
    error."""
    found = flow_spread([8.0] * 10, [4] * 10, cv=0.2, seed=7, trials=40_000)
    one = 0.5 * math.erfc(0.2 / (0.2 / math.sqrt(4)) / math.sqrt(2))
    assert found.chance_any == pytest.approx(1 - (1 - one) ** 10, abs=4 * math.sqrt(0.25 / 40_000))


def test_spread_names_its_driver() -> None:
    """Uneven pressure, poor making and plugging are each named where they drive the spread; a seed repeats itself."""
    even, n = [8.0] * 12, [4] * 12
    assert flow_spread([8.0, 4.0] * 6, n, cv=0.02, seed=1).driver == HYDRAULICS
    assert flow_spread(even, n, cv=0.1, plugged=0.001, seed=1).driver == MAKING
    assert flow_spread(even, n, cv=0.02, plugged=0.1, seed=1).driver == PLUGGING
    assert flow_spread(even, n, cv=0.0, seed=1).driver == ""
    assert flow_spread(even, n, cv=0.1, plugged=0.05, seed=3) == flow_spread(even, n, cv=0.1, plugged=0.05, seed=3)


def test_more_emitters_are_safer() -> None:
    """With more emitters a container the chance of a starved one falls."""
    few, many = (flow_spread([8.0] * 20, [n] * 20, cv=0.07, plugged=0.02, seed=5).chance_any for n in (2, 16))
    assert many < few


@given(loops=st.integers(1, 5), radius=st.floats(0.1, 1.0))
def test_loops_stay_inside_and_share_the_area(loops: int, radius: float) -> None:
    """Loops lie inside the container, and the area of each one's ring is in proportion to its length."""
    radii = loop_radii(loops, radius)
    assert all(0 < r < radius for r in radii)
    width = radius / loops
    for i, r in enumerate(radii):
        ring = math.pi * ((i + 1) ** 2 - i**2) * width**2
        assert ring / (2 * math.pi * r) == pytest.approx(width)


@pytest.mark.parametrize("closed", [True, False])
def test_layout_of_one_loop(closed: bool) -> None:
    """One loop: as many emitters as steps fit, all on the loop; length, plugs and staples follow."""
    made = lay_loops(1, 0.1524, bowl=Bowl(0.39, 0.6), closed=closed)
    around = 2 * math.pi * 0.195
    assert len(made.emitters) == math.floor(around / 0.1524 + (0.5 if closed else 0))
    assert all(math.hypot(*spot) == pytest.approx(0.195) for spot in made.emitters)
    assert made.dripline_m == pytest.approx((1 + SLACK) * around)
    assert made.end_plugs == (0 if closed else 1)
    assert loops_for(16, 0.1524, inside_radius_m=0.39) == 2


def test_dry_root_balls_are_named() -> None:
    """A root ball that no emitter reaches is named with what it misses; one within reach is not."""
    balls = (RootBall("thriller", Spot(0.0, 0.0), 0.06), RootBall("spiller", Spot(0.19, 0.0), 0.05))
    made = lay_loops(1, 0.1524, bowl=Bowl(0.39, 0.6), balls=balls, reach_m=0.1)
    assert [name for name, _ in made.dry] == ["thriller"]
    assert made.dry[0][1] == pytest.approx(0.195 - 0.06 - 0.1, abs=1e-9)


def test_more_water_wets_wider() -> None:
    """More water wets wider, and a more open mix less wide."""
    assert wetted_radius(2.0, 2.0, conductivity_m_s=1e-5) > wetted_radius(1.0, 2.0, conductivity_m_s=1e-5)
    assert wetted_radius(1.0, 2.0, conductivity_m_s=1e-4) < wetted_radius(1.0, 2.0, conductivity_m_s=1e-5)
