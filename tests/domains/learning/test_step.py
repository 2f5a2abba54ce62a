"""A day's step against the hourly store it stands for."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.learning.step import after_draw, after_water
from brimful.domains.watering.season import Season, Store
from brimful.domains.watering.store import run_store

CAPACITY = np.array([10.0, 4.0, 25.0])


def hourly(start: float, demand: float, litres: float, capture: float = 1.0) -> np.ndarray:
    """Water after one day of the hourly store: all water at midnight, demand over the hours of a day."""
    store = Store(CAPACITY, 0.6 * CAPACITY, 0.4 * CAPACITY, 0.3 * CAPACITY, np.full(3, capture))
    flat = np.full((1, 3), demand)
    season = Season(np.ones((1, 1)), flat * CAPACITY, np.zeros((1, 1)), flat, np.full(24, 1 / 24))
    pulses = [[(0, litres * CAPACITY)]]
    return run_store(store, season, pulses, start_l=start * CAPACITY[None], period_days=1).end_l[0, 0]


def daily(start: float, demand: float, litres: float, capture: float = 1.0) -> np.ndarray:
    """The same by the day's step."""
    wet = after_water(start * CAPACITY, litres * CAPACITY, CAPACITY, 0.3 * CAPACITY, np.full(3, capture))
    return after_draw(wet, demand * CAPACITY, 0.4 * CAPACITY)


@settings(max_examples=40)
@given(start=st.floats(0, 1), share=st.floats(0, 1), litres=st.floats(0, 1.5), capture=st.floats(0, 1))
def test_above_stress_the_step_is_the_hourly_store(start: float, share: float, litres: float, capture: float) -> None:
    """Where nothing falls below the stress level the two agree to rounding, a full or dry mix before it included."""
    wet = after_water(start * CAPACITY, litres * CAPACITY, CAPACITY, 0.3 * CAPACITY, np.full(3, capture))
    demand = share * max(float((wet / CAPACITY).min()) - 0.4, 0.0)
    if demand > 0.0:
        assert daily(start, demand, litres, capture) == pytest.approx(hourly(start, demand, litres, capture), rel=1e-9)


@settings(max_examples=40)
@given(start=st.floats(0.05, 1), demand=st.floats(0, 0.8))
def test_below_stress_the_hours_lie_close_to_the_exact_solution(start: float, demand: float) -> None:
    """Below the stress level hours of even demand stay within a fiftieth of what the mix holds."""
    assert np.abs(daily(start, demand, 0.0) - hourly(start, demand, 0.0)).max() < 0.02 * CAPACITY.max()


@given(start=st.floats(0, 1), demand=st.floats(0, 5), part=st.floats(0, 1))
def test_a_day_in_two_parts_is_a_day(start: float, demand: float, part: float) -> None:
    """Drawing a share of the day and then the rest is drawing the day."""
    stress = 0.4 * CAPACITY
    first = after_draw(start * CAPACITY, part * demand * CAPACITY, stress)
    whole = after_draw(start * CAPACITY, demand * CAPACITY, stress)
    assert after_draw(first, (1 - part) * demand * CAPACITY, stress) == pytest.approx(whole, rel=1e-9, abs=1e-12)


@given(start=st.floats(0, 1), demand=st.floats(0, 5), litres=st.floats(0, 5), capture=st.floats(0, 1))
def test_water_stays_between_nothing_and_what_the_mix_holds(
    start: float, demand: float, litres: float, capture: float
) -> None:
    """No step makes water, overfills a mix, or takes what is not there."""
    end = daily(start, demand, litres, capture)
    assert (end >= 0.0).all()
    assert (end <= CAPACITY * min(1.0, start + litres) + 1e-9).all()
