"""Spread of flows by chance, and the tube in the container."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.layout import (
    RootBall,
    Spot,
    dry_balls,
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


def test_loops_for_a_piece() -> None:
    """Sixteen emitters 6 in apart, 2.44 m, are nearest to two loops in a mouth of 0.39 m radius (π·R·n = 2.45 m)."""
    assert loops_for(16, 0.1524, inside_radius_m=0.39) == 2


def test_dry_root_balls_are_named() -> None:
    """A root ball that no emitter reaches is named with what it misses; one within reach is not."""
    balls = (RootBall("thriller", Spot(0.0, 0.0), 0.06), RootBall("spiller", Spot(0.19, 0.0), 0.05))
    ((name, missing),) = dry_balls(balls, (Spot(0.195, 0.0), Spot(-0.195, 0.0)), 0.1)
    assert name == "thriller"
    assert missing == pytest.approx(0.195 - 0.06 - 0.1, abs=1e-9)


def test_more_water_wets_wider() -> None:
    """More water wets wider, and a more open mix less wide."""
    assert wetted_radius(2.0, 2.0, conductivity_m_s=1e-5) > wetted_radius(1.0, 2.0, conductivity_m_s=1e-5)
    assert wetted_radius(1.0, 2.0, conductivity_m_s=1e-4) < wetted_radius(1.0, 2.0, conductivity_m_s=1e-5)
