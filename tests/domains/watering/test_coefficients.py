"""Laws of the plant coefficients from cover and height."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.watering.coefficients import (
    density_coefficient,
    effective_cover,
    full_cover_kcb,
    kcb_from_cover,
    kcb_from_leaf_area,
    mixed_stand_kc,
    narrow_strip_kc,
    stomatal_factor,
    thin_stand_reduction,
)

share = st.floats(0.0, 1.0)
height = st.floats(0.05, 4.0)


@given(cover=share, less=share, height_m=height)
def test_more_cover_never_lowers_the_coefficient(cover: float, less: float, height_m: float) -> None:
    """A plant that closes its canopy needs at least as much."""
    thin = kcb_from_cover(cover * less, cover * less, height_m, full_kcb=1.15)
    dense = kcb_from_cover(cover, cover, height_m, full_kcb=1.15)
    assert 0.15 <= thin <= dense <= 1.15 + 1e-12
    assert density_coefficient(cover * less, height_m) <= density_coefficient(cover, height_m) <= 1.0


@given(height_m=height)
def test_bare_and_closed_are_the_two_ends(height_m: float) -> None:
    """No cover gives the dry surface, full cover the closed stand."""
    assert kcb_from_cover(0.0, 0.0, height_m, full_kcb=1.1) == pytest.approx(0.15)
    assert kcb_from_cover(1.0, 1.0, height_m, full_kcb=1.1) == pytest.approx(1.1)
    assert kcb_from_leaf_area(0.0, full_kcb=1.1) == pytest.approx(0.15)
    assert kcb_from_leaf_area(40.0, full_kcb=1.1) == pytest.approx(1.1)
    assert thin_stand_reduction(0.8, 0.8) == 0.0


@given(cover=share, elevation=st.floats(1.0, 90.0), ratio=st.floats(0.0, 3.0))
def test_a_lower_sun_sees_no_less_cover(cover: float, elevation: float, ratio: float) -> None:
    """Effective cover lies between the cover from above and one."""
    for seen in (effective_cover(cover, elevation), effective_cover(cover, elevation, ratio)):
        assert cover - 1e-12 <= seen <= 1.0


@given(share_a=st.floats(0.1, 1.0), height_a=height, height_b=height)
def test_a_mixture_lies_between_its_parts(share_a: float, height_a: float, height_b: float) -> None:
    """FAO-56 eq. 104 (read) is a weighted mean; alike parts give themselves."""
    mixed = mixed_stand_kc([(share_a, height_a, 0.8), (1.0, height_b, 1.2)])
    assert 0.8 - 1e-12 <= mixed <= 1.2 + 1e-12
    assert mixed_stand_kc([(share_a, height_a, 1.1), (0.3, height_b, 1.1)]) == pytest.approx(1.1)


def test_stomata_like_grass_change_nothing() -> None:
    """FAO-56 (read): a leaf resistance of 100 s/m is the reference; more resistance lowers."""
    grass = stomatal_factor(0.145, 0.066, wind_2m_m_s=2.0, leaf_s_m=100.0)
    woody = stomatal_factor(0.145, 0.066, wind_2m_m_s=2.0, leaf_s_m=250.0)
    assert grass == pytest.approx(1.0)
    assert woody < grass


def test_bad_stands_are_refused() -> None:
    """Thinner than dense, sun above the horizon, some weight in a mixture."""
    with pytest.raises(ValueError, match="dense"):
        thin_stand_reduction(0.9, 0.8)
    with pytest.raises(ValueError, match="sun_elevation_deg"):
        effective_cover(0.5, 0.0)
    with pytest.raises(ValueError, match="total_share_times_height"):
        mixed_stand_kc([])
    with pytest.raises(ValueError, match="width_m"):
        narrow_strip_kc(1.0, 0.0)
    assert full_cover_kcb(0.3, 0.1, 90.0) == full_cover_kcb(0.3, 1.0, 80.0)
