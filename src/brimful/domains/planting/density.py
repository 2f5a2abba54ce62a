"""How many plants a mouth takes: by area, by lattice, grow-in or instant, and how high they may stand."""

import math

from brimful.records import record

GROW_IN_M2_PER_PLANT = 36.0 * 0.0254**2
"""One 4 in plant to 36 in²: fits counts of garden columns for 12 to 20 in (read); extrapolated beyond."""
INSTANT_FACTOR = 1.75
"""Plants for a full look at once over grow-in plants, 1.5 to 2 (common practice, no source)."""
LEAST_HEIGHT_RATIO, AIMED_HEIGHT_RATIO, MOST_HEIGHT_RATIO = 1.0, 1.5, 2.0
"""Plants above the rim over container height: middle of six garden sources from 1 to 2 (read)."""


@record
class Proportion:
    """Height of the plants over that of the container, the range [m] it should lie in, and whether it does."""

    ratio: float
    least_m: float
    aimed_m: float
    most_m: float
    fits: bool


def plants_by_area(mouth_area_m2: float, area_per_plant_m2: float = GROW_IN_M2_PER_PLANT) -> float:
    """How many 4-inch plants a mouth takes, before rounding to whole ones (area rule).

    Formula: N = A / 36 in².

    Args:
        mouth_area_m2: [m²]; area_per_plant_m2: ground for one plant [m²]
    Returns: plants [1]
    Valid: read for 10 to 20 in across; larger is extrapolated, and big displays often take fewer, larger plants
    Source: plants per pot of garden columns (read), area a plant calculated from them

    >>> round(plants_by_area(math.pi * 0.3048**2), 1)
    12.6
    """
    if not (mouth_area_m2 > 0.0 and area_per_plant_m2 > 0.0):
        raise ValueError(f"{mouth_area_m2} m² at {area_per_plant_m2} m² a plant were given: expected both above 0")
    return mouth_area_m2 / area_per_plant_m2


def plants_on_lattice(diameter_m: float, spacing_m: float, *, inset_m: float = 0.0, staggered: bool = False) -> float:
    """How many plants of one spacing fill a round mouth, before rounding (lattice rule).

    Formula: N = π (D/2 − e)² / s², times 2/√3 where rows are staggered.

    Args:
        diameter_m: of the mouth [m]; spacing_m: plant to plant [m]; inset_m: rim to the outer plants [m];
        staggered: rows set in the gaps of their neighbours
    Returns: plants [1]
    Valid: spacing well below the diameter
    Source: geometry

    >>> round(plants_on_lattice(0.60, 0.20), 2), round(plants_on_lattice(0.60, 0.20, staggered=True), 2)
    (7.07, 8.16)
    """
    if not (spacing_m > 0.0 and diameter_m > 2.0 * inset_m >= 0.0):
        given = f"diameter {diameter_m}, spacing {spacing_m}, inset {inset_m} m were given"
        raise ValueError(f"{given}: expected diameter > 2·inset ≥ 0, spacing > 0")
    return math.pi * (diameter_m / 2.0 - inset_m) ** 2 / spacing_m**2 * (2.0 / math.sqrt(3.0) if staggered else 1.0)


def four_inch_worth(ball_volume_l: float) -> float:
    """How many 4-inch plants one plant of this trade size stands for.

    Formula: pack plants ½, 4-inch 1, 6-inch 2, trade gallon 3.

    Args:
        ball_volume_l: volume of its pot [L]
    Returns: worth [1]
    Valid: plugs to trade gallons
    Source: common practice, no source

    >>> [four_inch_worth(v) for v in (0.147, 0.473, 1.35, 2.84)]
    [0.5, 1.0, 2.0, 3.0]
    """
    if not ball_volume_l > 0.0:
        raise ValueError(f"ball_volume_l is {ball_volume_l}: expected above 0")
    return next((worth for most_l, worth in ((0.25, 0.5), (0.8, 1.0), (2.2, 2.0)) if ball_volume_l < most_l), 3.0)


def proportion(planting_height_m: float, container_height_m: float, mouth_width_m: float) -> Proportion:
    """Whether plants stand in proportion to their container, by its height, or by its width where that is a low bowl.

    Formula: H / h within 1 to 2, aim 1.5; h the width of the mouth where it is more than twice the height.

    Args:
        planting_height_m: tallest plant above the rim [m]; container_height_m: no pedestal [m]; mouth_width_m: [m]
    Returns: a Proportion
    Valid: all above 0. In the open wind keep to 1.5 (common practice, no source)
    Source: six garden sources from 1 to 2 (read); bowl limit common practice, no source

    >>> proportion(0.9, 0.6, 0.6).ratio, proportion(0.9, 0.6, 0.6).fits
    (1.5, True)
    """
    if not (planting_height_m > 0.0 and container_height_m > 0.0 and mouth_width_m > 0.0):
        given = f"{planting_height_m}, {container_height_m}, {mouth_width_m} m were given"
        raise ValueError(f"{given}: expected all above 0")
    base = mouth_width_m if mouth_width_m > 2.0 * container_height_m else container_height_m
    ratio = planting_height_m / base
    return Proportion(
        ratio,
        LEAST_HEIGHT_RATIO * base,
        AIMED_HEIGHT_RATIO * base,
        MOST_HEIGHT_RATIO * base,
        LEAST_HEIGHT_RATIO <= ratio <= MOST_HEIGHT_RATIO,
    )
