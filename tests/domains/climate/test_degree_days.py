"""Degree days: printed examples and laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from brimful.domains.climate.degree_days import degree_days, degree_days_between, degree_days_by_sine

TEMPERATURE = st.floats(-20.0, 100.0)
SWING = st.floats(0.0, 40.0)


@pytest.mark.parametrize(("tmax", "tmin", "printed"), [(65.0, 40.0, 2.5), (60.0, 35.0, 0.0)])
def test_simple_examples(tmax: float, tmin: float, printed: float) -> None:
    """65/40 °F give 2.5 and 60/35 give 0 above 50 °F (Nugent, Michigan State University Extension, read)."""
    assert degree_days(tmax, tmin, base=50.0) == printed


def test_86_50_example() -> None:
    """70/50 °F give 10 (Iowa State University, Agronomy 541, read)."""
    assert degree_days_between(70.0, 50.0) == 10.0


@pytest.mark.parametrize(("tmax", "tmin", "hand"), [(100.0, 90.0, 36.0), (95.0, 60.0, 23.0), (70.0, 40.0, 10.0)])
def test_86_50_by_hand(tmax: float, tmin: float, hand: float) -> None:
    """The hottest day counts 36; (86 + 60)/2 − 50 = 23; (70 + 50)/2 − 50 = 10 (calculated)."""
    assert degree_days_between(tmax, tmin) == hand


@given(TEMPERATURE, SWING, TEMPERATURE)
def test_sine_is_the_area_above_the_base(tmin: float, swing: float, base: float) -> None:
    """The closed form is the integral of the sine above the base."""
    middle, half = tmin + swing / 2, swing / 2
    edge = np.arcsin(np.clip((base - middle) / half, -1, 1)) / (2 * np.pi) if half > 0 else 0.0
    area = quad(
        lambda t: max(middle + half * np.sin(2 * np.pi * t) - base, 0.0), -0.25, 0.75, points=[edge, 0.5 - edge]
    )[0]
    assert degree_days_by_sine(tmin + swing, tmin, base=base) == pytest.approx(area, abs=1e-6)


@given(TEMPERATURE, SWING, TEMPERATURE)
def test_sine_is_never_below_the_simple_sum(tmin: float, swing: float, base: float) -> None:
    """A sine sees the warm afternoon that the mean hides, and agrees where the base is not crossed."""
    simple = float(degree_days(tmin + swing, tmin, base=base))
    by_sine = float(degree_days_by_sine(tmin + swing, tmin, base=base))
    assert by_sine >= simple - 1e-9
    if base <= tmin or base >= tmin + swing:
        assert by_sine == pytest.approx(simple, abs=1e-9)


def test_arrays_and_numbers_agree() -> None:
    """A year at once gives what its days give."""
    tmax, tmin = np.array([65.0, 60.0, 40.0]), np.array([40.0, 35.0, 30.0])
    for method in (degree_days, degree_days_between, degree_days_by_sine):
        assert list(method(tmax, tmin, base=50.0)) == [
            float(method(a, b, base=50.0)) for a, b in zip(tmax, tmin, strict=True)
        ]


def test_ceiling_below_base() -> None:
    """A ceiling below the base is refused."""
    with pytest.raises(ValueError, match=r"ceiling 40.0° and base 50.0°"):
        degree_days_between(60.0, 50.0, base=50.0, ceiling=40.0)
