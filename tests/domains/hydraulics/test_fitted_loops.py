"""Loops of one piece of dripline: lengths and places."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.layout import fitted_loops, spots_along


@given(st.integers(1, 60), st.floats(0.1, 0.5), st.floats(0.12, 0.8))
def test_fitted_loops_hold_just_the_emitters_and_stay_inside(emitters: int, spacing: float, radius: float) -> None:
    """Loops are as long as the piece of dripline, and the outer one stays within the container."""
    if emitters * spacing > 40 * radius:
        return
    radii = fitted_loops(emitters, spacing, inside_radius_m=radius)
    assert 2 * math.pi * math.fsum(radii) == pytest.approx(emitters * spacing)
    assert radii[-1] <= max(radius - 0.03, radius / 2) + 1e-12


@given(st.integers(1, 40), st.floats(0.1, 0.4))
def test_every_emitter_lies_on_a_loop(emitters: int, spacing: float) -> None:
    """Each emitter's distance from the middle is the radius of one of the loops."""
    radii = fitted_loops(emitters, spacing, inside_radius_m=0.5)
    spots = spots_along(radii, emitters, spacing)
    assert len(spots) == emitters
    assert all(min(abs(math.hypot(*spot) - r) for r in radii) < 1e-9 for spot in spots)
