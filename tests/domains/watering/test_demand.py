"""Daily demand and rain: laws first, then printed and practice values."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.watering.demand import (
    canopy_coefficient,
    canopy_demand_l_day,
    demand_l_day,
    rain_to_mix_l,
    wetted_surface_l_day,
)

amount = st.floats(0.0, 20.0)
share = st.floats(0.0, 1.0)


@given(plant=amount, microclimate=amount)
def test_the_coefficient_never_passes_the_stomatal_ceiling(plant: float, microclimate: float) -> None:
    """FAO-56 p.203 (read): no canopy sustains more than 2.5 times ET0."""
    assert 0.0 <= canopy_coefficient(plant, microclimate) <= 2.5


@given(et0=amount, more=amount, area=amount, plant=share)
def test_more_evaporating_power_never_lowers_the_demand(et0: float, more: float, area: float, plant: float) -> None:
    """A dearer day costs at least as much water."""
    calm = canopy_demand_l_day(et0, plant, microclimate_factor=1.2, canopy_area_m2=area)
    dear = canopy_demand_l_day(et0 + more, plant, microclimate_factor=1.2, canopy_area_m2=area)
    assert dear >= calm
    assert wetted_surface_l_day(et0 + more, area) >= wetted_surface_l_day(et0, area)


@given(canopy=amount, wetted=amount)
def test_demand_is_one_of_the_two_terms_and_not_their_sum(canopy: float, wetted: float) -> None:
    """Leaves that shade the mix take the place of its evaporation."""
    assert demand_l_day(canopy, wetted) == demand_l_day(wetted, canopy) == max(canopy, wetted)


@pytest.mark.parametrize(
    ("diameter_m", "factor", "litres"),
    [
        (0.9, 0.8, (2.0, 3.1, 4.1)),
        (1.1, 1.0, (3.8, 5.7, 7.6)),
        (1.1, 1.4, (5.3, 8.0, 10.6)),
        (1.2, 2.0, (9.0, 13.6, 18.1)),
    ],
)
def test_litres_a_day_of_round_canopies(diameter_m: float, factor: float, litres: tuple[float, ...]) -> None:
    """Canopy 0.9–1.2 m at ET0 4, 6 and 8 mm (hand arithmetic, calculated)."""
    area = math.pi * diameter_m**2 / 4.0
    for et0, expected in zip((4.0, 6.0, 8.0), litres, strict=True):
        ours = canopy_demand_l_day(et0, factor, microclimate_factor=1.0, canopy_area_m2=area)
        assert ours == pytest.approx(expected, abs=0.05)


def test_bare_mix_of_a_nursery_container() -> None:
    """Beeson 2010 (read): about 160 mL a day from 0.0508 m² of bare mix; ET0 4–5 mm from memory."""
    low, high = wetted_surface_l_day(4.0, 0.0508, 0.6), wetted_surface_l_day(5.0, 0.0508, 0.8)
    assert low < 0.160 < high


@given(rain=amount, et0=amount, cover=share, more=share)
def test_leaves_never_let_more_rain_through(rain: float, et0: float, cover: float, more: float) -> None:
    """A canopy that closes keeps rain out; none is made."""
    open_l = rain_to_mix_l(rain, et0, mouth_area_m2=0.5, canopy_cover=cover * more)
    closed_l = rain_to_mix_l(rain, et0, mouth_area_m2=0.5, canopy_cover=cover)
    assert 0.0 <= closed_l <= open_l <= rain * 0.5


def test_a_small_rain_counts_as_nothing() -> None:
    """FAO-56 p.170 (read): rain below a fifth of ET0 is ignored."""
    assert rain_to_mix_l(0.99, 5.0, mouth_area_m2=1.0, canopy_cover=0.0) == 0.0
    assert rain_to_mix_l(1.0, 5.0, mouth_area_m2=1.0, canopy_cover=0.0) == 1.0


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_impossible_amounts_are_refused_by_name(bad: float) -> None:
    """The message says which value was wrong."""
    with pytest.raises(ValueError, match="et0_mm"):
        canopy_demand_l_day(bad, 0.8, microclimate_factor=1.0, canopy_area_m2=1.0)
    with pytest.raises(ValueError, match="canopy_cover"):
        rain_to_mix_l(1.0, 1.0, mouth_area_m2=1.0, canopy_cover=2.0)
