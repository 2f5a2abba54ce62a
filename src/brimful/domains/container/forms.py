"""The forms a container is made in: each builds the shape of a solid from the sizes one measures with a tape."""

import math
from collections.abc import Sequence
from itertools import pairwise

from brimful.domains.container.shape import Shape, Sides, Slice


def round_taper(top_m: float, bottom_m: float, height_m: float) -> Shape:
    """A round container whose wall runs straight from bottom to rim: the frustum of a cone.

    Formula: V = π h (D² + D d + d²) / 12.
    Args: top_m, bottom_m: diameters D and d [m]; height_m: h [m]
    Returns: the shape
    Valid: all above 0; equal diameters give the cylinder
    Source: solid geometry

    >>> round(round_taper(24 * 0.0254, 18 * 0.0254, 20 * 0.0254).volume_l() / 28.316846592, 4)
    4.0361
    """
    _above_zero(top_m=top_m, bottom_m=bottom_m, height_m=height_m)
    return Shape((_cone(0.0, bottom_m, height_m, top_m),))


def rectangular_taper(
    top_length_m: float, top_width_m: float, *, bottom_length_m: float, bottom_width_m: float, height_m: float
) -> Shape:
    """A container with four corners whose walls run straight, the two tapers free to differ: the prismoid.

    Formula: V = h (2LW + Lw + lW + 2lw) / 6, with L, W at the top and l, w at the bottom.
    Args: sides and height [m]
    Returns: the shape
    Valid: all above 0; equal sides give the square taper h (a² + ab + b²) / 3
    Source: solid geometry
    """
    _above_zero(top_length_m=top_length_m, top_width_m=top_width_m, height_m=height_m)
    _above_zero(bottom_length_m=bottom_length_m, bottom_width_m=bottom_width_m)
    p = (top_length_m - bottom_length_m) / height_m
    q = (top_width_m - bottom_width_m) / height_m
    c1 = p * bottom_width_m + q * bottom_length_m
    layer = Slice(0.0, height_m, bottom_length_m * bottom_width_m, c1, p * q)
    return Shape((layer,), Sides(bottom_length_m, bottom_width_m, top_length_m, top_width_m))


def spherical_bowl(top_m: float, height_m: float, *, foot_m: float = 0.0) -> Shape:
    """A bowl whose wall is part of a sphere; with a flat foot it is the zone of a sphere, without one the cap.

    Formula: V = π h (3a² + 3b² + h²) / 6, with rim radius a and foot radius b.
    Args: top_m: rim diameter [m]; height_m: h [m]; foot_m: diameter of the flat foot [m], 0 for none
    Returns: the shape
    Valid: rim and height above 0, foot at least 0
    Source: solid geometry
    """
    _above_zero(top_m=top_m, height_m=height_m)
    _at_least_zero(foot_m=foot_m)
    a2, b2 = (top_m / 2) ** 2, (foot_m / 2) ** 2
    return Shape((Slice(0.0, height_m, math.pi * b2, math.pi * ((a2 - b2) / height_m + height_m), -math.pi),))


def ellipsoid_bowl(top_m: float, height_m: float, *, foot_m: float = 0.0) -> Shape:
    """A bowl with an upright rim, half of an ellipsoid; with a flat foot its lowest part is cut away.

    Formula: V = π h (2a² + b²) / 3, with rim radius a and foot radius b; without a foot 2/3 π a² h.
    Args: top_m: rim diameter [m]; height_m: h [m]; foot_m: diameter of the flat foot [m], 0 for none
    Returns: the shape
    Valid: rim and height above 0, foot at least 0 and at most the rim
    Source: solid geometry
    """
    _above_zero(top_m=top_m, height_m=height_m)
    _at_least_zero(foot_m=foot_m)
    if foot_m > top_m:
        raise ValueError(f"foot {foot_m} m and rim {top_m} m were given; expected a foot no wider than the rim")
    a2, b2 = (top_m / 2) ** 2, (foot_m / 2) ** 2
    c1 = 2 * math.pi * (a2 - b2) / height_m
    return Shape((Slice(0.0, height_m, math.pi * b2, c1, -c1 / (2 * height_m)),))


def urn(diameters_m: Sequence[tuple[float, float]]) -> Shape:
    """Any round profile, given as diameters at heights with straight wall between them: a stack of frusta.

    Args: diameters_m: pairs (height [m], diameter [m]) from the bottom, which is at 0 m, to the rim
    Returns: the shape
    Valid: two pairs or more, heights rising from 0, diameters above 0
    Source: solid geometry
    """
    heights = [h for h, _ in diameters_m]
    rising = all(low < high for low, high in pairwise(heights))
    if len(heights) < 2 or heights[0] != 0 or not rising or not math.isfinite(heights[-1]):
        raise ValueError(f"heights {heights} m were given; expected two or more, rising from 0 m")
    for _, diameter in diameters_m:
        _above_zero(diameter_m=diameter)
    return Shape(tuple(_cone(low, d, high, top) for (low, d), (high, top) in pairwise(diameters_m)))


def _cone(bottom_m: float, bottom_diameter_m: float, top_m: float, top_diameter_m: float) -> Slice:
    r = bottom_diameter_m / 2
    k = (top_diameter_m / 2 - r) / (top_m - bottom_m)
    return Slice(bottom_m, top_m, math.pi * r * r, 2 * math.pi * r * k, math.pi * k * k)


def _above_zero(**sizes_m: float) -> None:
    for name, size in sizes_m.items():
        if not (size > 0 and math.isfinite(size)):
            raise ValueError(f"{name} is {size}: expected a length above 0 m")


def _at_least_zero(**sizes_m: float) -> None:
    for name, size in sizes_m.items():
        if not (size >= 0 and math.isfinite(size)):
            raise ValueError(f"{name} is {size}: expected a length of 0 m or more")
