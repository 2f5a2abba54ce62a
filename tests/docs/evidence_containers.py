"""Rows of docs/evidence.md: containers, mixes, canopies."""

import math

from tests.docs.evidence_row import Row

from brimful.domains.container import (
    Sizes,
    bags,
    ellipsoid_bowl,
    mix_to_buy_l,
    rectangular_taper,
    round_taper,
    shell_kg,
    spherical_bowl,
    vessel,
)
from brimful.domains.planting.canopy import union_area_m2
from brimful.domains.planting.growth import new_plant_width_m
from brimful.domains.substrate import Retention, column_mean, container_store, water_held_l

INCH_M, POUND_KG = 0.0254, 0.45359237
CUBIC_INCH_L = INCH_M**3 * 1000
CUBIC_FOOT_L = 1728 * CUBIC_INCH_L
HALF = Retention(0.15, 0.85, 10.0, 2.0)
PEAT_PERLITE = Retention(0.19, 0.85, 14.4, 1.74)
BARK_1987 = Retention(0.20, 0.71, 29.11, 2.210)
CONCRETE = vessel("round", Sizes(25 * INCH_M, 31 * INCH_M, 26 * INCH_M), wall_m=1.75 * INCH_M, base_m=2 * INCH_M)
GEOMETRY, CLOSED = "solid geometry by hand", "closed form asinh(αH)/(αH)"
BARK = "Bilderback & Fonteno 1987, one bark mix (abstract)"


def cubic_inches(*inches: float) -> float:
    """Round taper of these inches."""
    return round_taper(*(size * INCH_M for size in inches)).volume_l() / CUBIC_INCH_L


def square_taper() -> float:
    """24 in square over 18 in square, 20 in tall."""
    a, b, h = (size * INCH_M for size in (24, 18, 20))
    return rectangular_taper(a, a, bottom_length_m=b, bottom_width_m=b, height_m=h).volume_l() / CUBIC_INCH_L


def bowl(form: object) -> float:
    """24 in across, 8 in deep."""
    return form(24 * INCH_M, 8 * INCH_M).volume_l() / CUBIC_INCH_L  # type: ignore[operator,no-any-return]


def cone_share() -> float:
    """A cone 15 cm deep, radius 8 over 6.5 cm."""
    volume = 1000 * math.pi * 0.15 * (0.08**2 + 0.08 * 0.065 + 0.065**2) / 3
    return water_held_l(HALF, lambda z: math.pi * (0.065 + 0.1 * z) ** 2, 0.15) / volume


def bark_share(depth_m: float) -> float:
    """Water of the bark mix at this depth."""
    return container_store(BARK_1987, lambda _: 0.01, depth_m).held_share


def fill_feet() -> float:
    """Mix of the 31 × 25 in concrete container, 2 in of headspace."""
    return CONCRETE.fill(2 * INCH_M).volume_l() / CUBIC_FOOT_L


def concrete_water_l() -> float:
    """Water held in it with peat and perlite."""
    room = CONCRETE.fill(2 * INCH_M)
    return container_store(PEAT_PERLITE, room.area_m2, room.depth_m).held_l


ROWS = (
    Row("cylinder 10 × 10 in, in³", "extension page on container volumes", "read", "785",
        lambda: cubic_inches(10, 10, 10), 0.5),
    Row("frustum 24 over 18 in, 20 in tall, in³", GEOMETRY, "calculated", "6974.34",
        lambda: cubic_inches(24, 18, 20), 5e-3),
    Row("square taper 24 over 18 in, 20 in tall, in³", GEOMETRY, "calculated", "8880.0", square_taper, 0.05),
    Row("part of a sphere, 24 in across, 8 in deep, in³", GEOMETRY, "calculated", "2077.64",
        lambda: bowl(spherical_bowl), 5e-3),
    Row("half ellipsoid, 24 in across, 8 in deep, in³", GEOMETRY, "calculated", "2412.74",
        lambda: bowl(ellipsoid_bowl), 5e-3),
    Row("mix in a concrete container 31 × 25 in, ft³", "common practice, no source", "practice", "6", fill_feet, 1.0),
    Row("the same by hand: walls 1.75 in, base 2 in, 2 in below the rim, ft³", GEOMETRY, "calculated", "5.879",
        fill_feet, 5e-4),
    Row("mix to buy for it, 15 % for settling, ft³", "hand", "calculated", "6.76",
        lambda: mix_to_buy_l([5.879 * CUBIC_FOOT_L]) / CUBIC_FOOT_L, 5e-3),
    Row("bags of 2 ft³ for it", "hand", "calculated", "4", lambda: bags(6.76, 2.0), 0.0),
    Row("its bare weight in concrete of 145 lb/ft³, lb", "hand; density: tables of building materials", "calculated",
        "391", lambda: shell_kg(CONCRETE.shell_volume_l, 145 * 16.018463) / POUND_KG, 0.5),
    Row("12 × 12 in straight pot, dry quarts", "general page, 'almost 20'", "read", "20",
        lambda: cubic_inches(12, 12, 12) * CUBIC_INCH_L / 1.101221, 0.8),
    *(Row(f"water held by depth, n = 2, {cm} cm, share", CLOSED, "calculated", share,
          lambda cm=cm: column_mean(HALF, cm / 100), 5e-6)  # type: ignore[misc]
      for cm, share in ((5, "0.82370"), (15, "0.70756"), (30, "0.57430"), (53.3, "0.46194"))),
    Row("the same in a cone 15 cm deep", "hypergeometric closed form", "calculated", "0.69558", cone_share, 5e-6),
    Row("bark mix in a #1 container, curve fitted to this pair, water, share", BARK, "read", "0.43",
        lambda: bark_share(0.152), 5e-3),
    Row("the same mix in a bedding-plant cell, water, share", BARK, "read", "0.59", lambda: bark_share(0.055), 5e-3),
    Row("water held by peat and perlite in the 31 × 25 in container, L", "quadrature apart", "calculated", "77.5",
        concrete_water_l, 0.05),
    Row("what 8 cm of gravel under 30 cm leaves of 17.05 cm of water, cm", "quadrature apart", "calculated", "13.62",
        lambda: 22 * column_mean(PEAT_PERLITE, 0.22), 6e-3),
    Row("ground under two circles of 1 m radius, 1 m apart, m²", "4π/3 + √3/2", "calculated", "5.0548",
        lambda: union_area_m2([(0.0, 0.0, 1.0), (1.0, 0.0, 1.0)]), 5e-5),
    Row("width of a plant from a 4 in pot when planted, cm", "common practice, no source: 13 to 15", "practice", "14",
        lambda: 100 * new_plant_width_m(0.09), 1.0),
)  # fmt: skip
