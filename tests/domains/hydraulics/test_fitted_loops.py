"""Loops of one piece of dripline: lengths."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.layout import fitted_loops


@given(st.integers(1, 60), st.floats(0.1, 0.5), st.floats(0.12, 0.8))
def test_fitted_loops_hold_just_the_emitters_and_stay_inside(emitters: int, spacing: float, radius: float) -> None:
    """Loops are as long as the piece of dripline, and the outer one stays within the container."""
    if emitters * spacing > 40 * radius:
        return
    radii = fitted_loops(emitters, spacing, inside_radius_m=radius)
    assert 2 * math.pi * math.fsum(radii) == pytest.approx(emitters * spacing)
    assert radii[-1] <= max(radius - 0.03, radius / 2) + 1e-12
