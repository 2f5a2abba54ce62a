"""Allen, Pereira, Raes & Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, chapters 9 and 10;
Allen & Pereira 2009, Irrigation Science 28:17–34."""

import pytest

from brimful.domains.watering.coefficients import (
    density_coefficient,
    full_cover_kcb,
    kcb_from_cover,
    narrow_strip_kc,
    thin_stand_reduction,
)


def test_example_40_thin_tomatoes() -> None:
    """Example 40 (read): half cover against 0.85 dense takes 0.23 off; 0.94 remains of 1.17 (1.17 worked back)."""
    reduction = thin_stand_reduction(0.50, 0.85)
    assert reduction == pytest.approx(0.23, abs=0.005)
    assert 1.17 - reduction == pytest.approx(0.94, abs=0.005)


def test_example_41_cover_of_three_tenths() -> None:
    """Example 41 (read): f_c 0.3, h 2 m, f_c,eff 0.41, Kcb,full 1.15 give Kcb 0.75."""
    assert kcb_from_cover(0.3, 0.41, 2.0, full_kcb=1.15) == pytest.approx(0.75, abs=0.005)


def test_example_42_within_a_hundredth() -> None:
    """Example 42 (read): f_c,eff 0.66 and Kcb,full 1.17 give 0.95; the height, 0.8 m, is worked back."""
    assert kcb_from_cover(0.6, 0.66, 0.8, full_kcb=1.17) == pytest.approx(0.95, abs=0.01)


def test_narrow_strips() -> None:
    """Ch. 10, p.203 (formula read, values calculated): 0.6 m tall, 0.6 and 1.2 m wide; ceiling 2.5."""
    assert narrow_strip_kc(0.6, 0.6) == pytest.approx(2.2)
    assert narrow_strip_kc(0.6, 1.2) == pytest.approx(1.7)
    assert narrow_strip_kc(5.0, 0.6) == 2.5


@pytest.mark.parametrize(("height_m", "wind", "humidity", "kcb"), [(0.5, 3.0, 20.0, 1.13), (0.8, 3.0, 20.0, 1.17)])
def test_full_cover_in_dry_wind(height_m: float, wind: float, humidity: float, kcb: float) -> None:
    """Eq. 100 (read; values calculated) for bedding plants in a dry breeze."""
    assert full_cover_kcb(height_m, wind, humidity) == pytest.approx(kcb, abs=0.005)


@pytest.mark.parametrize(
    ("height_m", "row"),
    [
        (0.3, (0.170, 0.290, 0.396, 0.494, 0.587, 0.675, 0.760, 0.842, 0.922)),
        (0.5, (0.200, 0.342, 0.448, 0.543, 0.630, 0.711, 0.788, 0.862, 0.932)),
        (0.8, (0.200, 0.400, 0.512, 0.601, 0.680, 0.753, 0.820, 0.883, 0.943)),
    ],
)
def test_density_coefficient_row(height_m: float, row: tuple[float, ...]) -> None:
    """Allen & Pereira 2009 K_d at M_L 2 (form from memory and two open code bases; values calculated)."""
    ours = [density_coefficient(tenths / 10.0, height_m) for tenths in range(1, 10)]
    assert ours == pytest.approx(row, abs=5e-4)
    thin = [density_coefficient(cover, 0.8, 1.5) for cover in (0.1, 0.2, 0.3)]
    assert thin == pytest.approx((0.150, 0.300, 0.450))
