"""Brick patio and pad quantities: a brick industry guide as told in a trade article [read].

Other rows are calculated from definitions, with trade practice for the share of waste, swell and compaction.
"""

import pytest

from brimful.domains.takeoff.pads import (
    BEDDING_M,
    Brick,
    Pad,
    brick_count,
    joint_sand_m3,
    layer_m3,
    pad_takeoff,
    sleeve_bore_m,
    trench_m3,
)

INCH, FOOT = 0.0254, 0.3048
FT2, FT3, YD3 = FOOT**2, FOOT**3, (3 * FOOT) ** 3
PAVER = Brick(8 * INCH, 4 * INCH, 2.375 * INCH)


@pytest.mark.parametrize(
    ("length_in", "width_in", "per_ft2"),
    [(8, 4, 4.5), (7.625, 3.625, 5.2), (7.5, 3.75, 5.1)],  # printed to one place; 5.21 and 5.12 exact
)
def test_bricks_on_a_square_foot(length_in: float, width_in: float, per_ft2: float) -> None:
    """Bricks on a square foot of three sizes (trade article after a brick industry guide)."""
    assert Brick(length_in * INCH, width_in * INCH, 0.06).per_m2 * FT2 == pytest.approx(per_ft2, abs=0.05)


def test_worked_patio() -> None:
    """A 10 × 20 ft patio with 60 ft of cut edge: 900 + 45 + 90 = 1035 pavers (trade article, worked example)."""
    assert brick_count(200 * FT2, PAVER, breakage=0) == 900
    assert brick_count(200 * FT2, PAVER) == 945
    assert brick_count(200 * FT2, PAVER, cut_edge_m=60 * FOOT) == 1035


def test_layers_of_the_worked_patio() -> None:
    """200 ft² takes 0.62 yd³ of bedding at 1 in and 2.47 yd³ of base at 4 in (trade article, .00309 and .01235)."""
    takeoff = pad_takeoff(Pad(20 * FOOT, 10 * FOOT, margin_m=0), PAVER)
    assert takeoff.bedding_m3 / YD3 == pytest.approx(0.62, abs=0.005)
    assert takeoff.base_compacted_m3 / YD3 == pytest.approx(2.47, abs=0.005)
    assert pytest.approx(0.00309, abs=0.000005) == FT2 * BEDDING_M / YD3


@pytest.mark.parametrize(
    ("base_in", "paver_in", "dug_in"),
    [(6, 2.375, 9.375), (4, 2.25, 7.3), (4, 2.375, 7.4)],  # first printed in a paver guide, the others calculated
)
def test_depth_to_dig(base_in: float, paver_in: float, dug_in: float) -> None:
    """Base, 1 in of bedding and the paver add up to the depth dug (online paver guide)."""
    brick = Brick(8 * INCH, 4 * INCH, paver_in * INCH)
    assert pad_takeoff(Pad(1, 1, base_m=base_in * INCH), brick).dug_depth_m / INCH == pytest.approx(dug_in, abs=0.051)


def test_pad_of_one_large_container() -> None:
    """A 4 × 4 ft pad with 6 in all round is 25 ft²: .309 yd³ compacted, .370 loose (calculated, practice 1.2)."""
    pad = Pad(4 * FOOT, 4 * FOOT)
    takeoff = pad_takeoff(pad, PAVER)
    assert pad.dug_area_m2 / FT2 == pytest.approx(25)
    assert takeoff.base_compacted_m3 / YD3 == pytest.approx(0.309, abs=0.0005)
    assert takeoff.base_loose_m3 / YD3 == pytest.approx(0.370, abs=0.0005)
    assert takeoff.edging_m / FOOT == pytest.approx(16)


def test_trench() -> None:
    """A trench of 100 ft × 4 × 10 in is 1.029 yd³ in the bank and 1.29 in the heap (calculated, practice 1.25)."""
    bank, loose = (volume / YD3 for volume in trench_m3(100 * FOOT, 4 * INCH, 10 * INCH))
    assert bank == pytest.approx(1.029, abs=0.0005)
    assert loose == pytest.approx(1.29, abs=0.005)


def test_joint_sand() -> None:
    """Joints of 1/16 in, 2 3/8 in deep, take about .47 ft³ on 100 ft² (calculated)."""
    brick = Brick(8 * INCH, 4 * INCH, 2.375 * INCH, joint_m=INCH / 16)
    assert joint_sand_m3(100 * FT2, brick) / FT3 == pytest.approx(0.47, abs=0.02)


def test_gravel() -> None:
    """100 ft² of gravel at 2 in is .617 yd³, and half a cubic foot covers 3 ft² (calculated)."""
    assert layer_m3(100 * FT2, 2 * INCH) / YD3 == pytest.approx(0.617, abs=0.0005)
    assert layer_m3(3 * FT2, 2 * INCH) / FT3 == pytest.approx(0.5)


def test_sleeve() -> None:
    """A sleeve is twice the pipe it takes (common practice, no source)."""
    assert sleeve_bore_m(0.02) == 0.04
