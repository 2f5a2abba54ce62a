"""Water held by mixes of known retention curves, in containers of several depths and shapes.

Closed form for n = 2 and for a cone: calculated (hypergeometric function and quadrature agree). Peat: natural Sphagnum,
θs .9281, α .3486 per cm, n 1.4006 (secondary source, read). Sand: class mean of Schaap & Leij, quoted by Hammel
2001 (read). Working mixes: assumed curves, every cell calculated. Method: Milks, Fonteno
& Larson 1989 (abstract read).
"""

import math

import pytest

from brimful.domains.substrate import Retention, column_mean, container_store, water_classes, water_held_l

HALF = Retention(0.15, 0.85, 10.0, 2.0)
PEAT_PERLITE = Retention(0.19, 0.85, 14.4, 1.74)
BARK_PEAT = Retention(0.15, 0.80, 54.0, 1.44)
COIR_PEAT = Retention(0.20, 0.90, 13.25, 1.87)


@pytest.mark.parametrize(
    ("depth_cm", "share"), [(5, 0.82370), (10, 0.76696), (15, 0.70756), (30, 0.57430), (53.3, 0.46194)]
)
def test_closed_form_at_n_2(depth_cm: float, share: float) -> None:
    """For n = 2 the mean is asinh(αH)/(αH): five depths as calculated."""
    assert column_mean(HALF, depth_cm / 100) == pytest.approx(share, abs=5e-6)
    x = 0.1 * depth_cm
    assert column_mean(HALF, depth_cm / 100) == pytest.approx(0.15 + 0.7 * math.asinh(x) / x, rel=1e-10)


def test_a_cone_at_n_2() -> None:
    """A cone 15 cm deep, radius 8 cm over 6.5 cm, holds a share of .69558 (calculated)."""

    def area(z: float) -> float:
        return math.pi * (0.065 + (0.08 - 0.065) * z / 0.15) ** 2

    volume = 1000 * math.pi * 0.15 * (0.08**2 + 0.08 * 0.065 + 0.065**2) / 3
    assert water_held_l(HALF, area, 0.15) / volume == pytest.approx(0.69558, abs=5e-6)


@pytest.mark.parametrize(
    ("mix", "at", "classes", "depths"),
    [
        (PEAT_PERLITE, (0.6105, 0.3411, 0.2813), (0.2694, 0.0598), (0.8030, 0.7675, 0.6775, 0.5685, 0.4794)),
        (BARK_PEAT, (0.4516, 0.3020, 0.2623), (0.1496, 0.0398), (0.6524, 0.6046, 0.5217, 0.4453, 0.3888)),
        (COIR_PEAT, (0.6415, 0.3333, 0.2736), (0.3082, 0.0597), (0.8560, 0.8181, 0.7161, 0.5900, 0.4888)),
    ],
    ids=["peat-perlite", "bark-peat", "coir-peat"],
)
def test_working_mixes(
    mix: Retention, at: tuple[float, ...], classes: tuple[float, ...], depths: tuple[float, ...]
) -> None:
    """Every cell of the three working mixes: θ at 10, 50, 100 cm, water classes, capacity by depth (calculated)."""
    assert [mix.theta(h) for h in (0.10, 0.50, 1.00)] == pytest.approx(at, abs=1e-4)
    found = water_classes(mix)
    assert (found.easily_available, found.buffering) == pytest.approx(classes, abs=1e-4)
    assert [column_mean(mix, cm / 100) for cm in (5, 7.6, 15.2, 30, 53.3)] == pytest.approx(depths, abs=1e-4)


@pytest.mark.parametrize(
    ("mix", "share", "held_l", "drawn_l"),
    [(PEAT_PERLITE, 0.4655, 77.5, 20.7), (BARK_PEAT, 0.3795, 63.2, 12.9), (COIR_PEAT, 0.4729, 78.7, 23.2)],
    ids=["peat-perlite", "bark-peat", "coir-peat"],
)
def test_the_31_by_25_container(mix: Retention, share: float, held_l: float, drawn_l: float) -> None:
    """166.47 L of mix, 53.34 cm deep, radius 28.575 to 34.373 cm: held, and drawn to 50 cm everywhere (calculated)."""

    def area(z: float) -> float:
        return math.pi * (0.28575 + (0.34373 - 0.28575) * z / 0.5334) ** 2

    store = container_store(mix, area, 0.5334)
    assert store.volume_l == pytest.approx(166.47, abs=0.005)
    assert store.held_share == pytest.approx(share, abs=1e-4)
    assert store.held_l == pytest.approx(held_l, abs=0.05)
    assert store.held_l - mix.theta(0.50) * store.volume_l == pytest.approx(drawn_l, abs=0.05)


@pytest.mark.parametrize(
    ("soil", "at"),
    [
        (Retention(0.0, 0.9281, 34.86, 1.4006), (0.5375, 0.2938, 0.2233)),
        (Retention(0.053, 0.375, 100 * 10**-1.453, 10**0.502), (0.3672, 0.1375, 0.0735)),
    ],
    ids=["peat", "sand"],
)
def test_peat_and_sand(soil: Retention, at: tuple[float, ...]) -> None:
    """θ at 10, 50 and 100 cm from parameters read for natural peat and mineral sand (values calculated)."""
    assert [soil.theta(h) for h in (0.10, 0.50, 1.00)] == pytest.approx(at, abs=5e-5)


def test_a_laboratory_core_misleads() -> None:
    """The figure for a 7.6 cm core overstates the store of a 53 cm container by 65 % (calculated)."""

    def area(z: float) -> float:
        return math.pi * (0.28575 + (0.34373 - 0.28575) * z / 0.5334) ** 2

    deep = container_store(PEAT_PERLITE, area, 0.5334).held_share
    assert column_mean(PEAT_PERLITE, 0.076) / deep == pytest.approx(1.65, abs=0.005)


def test_gravel_costs_water() -> None:
    """8 cm of gravel under 30 cm: water 17.05 → 13.62 cm, mean wetness .5685 → .6190 (calculated)."""
    without, over_gravel = column_mean(PEAT_PERLITE, 0.30), column_mean(PEAT_PERLITE, 0.22)
    assert (without, over_gravel) == pytest.approx((0.5685, 0.6190), abs=5e-5)
    assert (30 * without, 22 * over_gravel) == pytest.approx((17.05, 13.62), abs=0.006)


def test_taller_cores_hold_a_smaller_share() -> None:
    """Bark cores 3.8 → 15.2 cm lose 20 % of capacity (medium, Owen & Altland 2008, abstract read): here 17–23 %."""
    losses = [1 - column_mean(mix, 0.152) / column_mean(mix, 0.038) for mix in (PEAT_PERLITE, BARK_PEAT, COIR_PEAT)]
    assert all(0.165 < loss < 0.235 for loss in losses)
