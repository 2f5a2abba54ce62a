"""Shape: a stack of slices, each with an area that is a quadratic of the height, so that every volume is exact.

Heights z run up from the lowest point of the shape. A cone, a square taper, a bowl and a piece of an urn all have areas
that are quadratics of z; no other kind is needed, and nothing here is approximated.
"""

import math
from collections.abc import Callable

from brimful.records import record

LITRES_PER_M3 = 1000.0


@record
class Slice:
    """A layer between two heights with area c0 + c1·u + c2·u² [m²], u [m] up from the layer's own bottom."""

    bottom_m: float
    top_m: float
    c0: float
    c1: float
    c2: float

    def area_m2(self, z_m: float) -> float:
        """Area at a height of this layer [m²]; never below zero by rounding."""
        u = z_m - self.bottom_m
        return max(0.0, self.c0 + u * (self.c1 + u * self.c2))

    def volume_m3(self, low_m: float, high_m: float) -> float:
        """Volume of this layer between two heights within it [m³]."""
        u, v = low_m - self.bottom_m, high_m - self.bottom_m
        return self._up_to(v) - self._up_to(u)

    def _up_to(self, u: float) -> float:
        return u * (self.c0 + u * (self.c1 / 2 + u * self.c2 / 3))


@record
class Sides:
    """Length and width [m] at the bottom and at the top of a shape with four corners; both run straight between."""

    bottom_length_m: float
    bottom_width_m: float
    top_length_m: float
    top_width_m: float


@record
class Shape:
    """A solid standing upright: its layers from the bottom up, round in plan unless it has sides."""

    slices: tuple[Slice, ...]
    sides: Sides | None = None

    def __post_init__(self) -> None:
        if not self.slices or any(s.top_m <= s.bottom_m for s in self.slices):
            raise ValueError("a shape without height was given; expected at least one layer, each above 0 m thick")

    @property
    def depth_m(self) -> float:
        """Height of the shape [m]."""
        return self.slices[-1].top_m

    @property
    def mouth_area_m2(self) -> float:
        """Area at the rim [m²]."""
        return self.slices[-1].area_m2(self.depth_m)

    @property
    def base_area_m2(self) -> float:
        """Area at the bottom [m²]."""
        return self.slices[0].area_m2(0.0)

    @property
    def breaks_m(self) -> tuple[float, ...]:
        """The heights [m] where one layer meets the next: an integral over the shape has its kinks there."""
        return tuple(s.bottom_m for s in self.slices[1:])

    def area_m2(self, z_m: float) -> float:
        """Area at a height [m²]."""
        self._within(z_m, z_m)
        layer = next(s for s in self.slices if z_m <= s.top_m)
        return layer.area_m2(z_m)

    def volume_l(self, low_m: float = 0.0, high_m: float | None = None) -> float:
        """Volume between two heights, the whole where none is given [L]."""
        top = self.depth_m if high_m is None else high_m
        self._within(low_m, top)
        parts = (
            s.volume_m3(max(low_m, s.bottom_m), min(top, s.top_m))
            for s in self.slices
            if s.top_m > low_m and s.bottom_m < top
        )
        return LITRES_PER_M3 * math.fsum(parts)

    def width_m(self, z_m: float) -> float:
        """The smaller width at a height [m]: the diameter of a round shape, the shorter side of one with corners."""
        return min(self.spans_m(z_m))

    @property
    def base_width_m(self) -> float:
        """The smaller width at the bottom [m]."""
        return self.width_m(0.0)

    def spans_m(self, z_m: float) -> tuple[float, float]:
        """Length and width at a height [m]; a round shape gives its diameter twice."""
        if self.sides is None:
            diameter = 2.0 * math.sqrt(self.area_m2(z_m) / math.pi)
            return diameter, diameter
        self._within(z_m, z_m)
        share = z_m / self.depth_m
        s = self.sides
        return (
            s.bottom_length_m + share * (s.top_length_m - s.bottom_length_m),
            s.bottom_width_m + share * (s.top_width_m - s.bottom_width_m),
        )

    def height_of_volume_m(self, volume_l: float) -> float:
        """How high a volume [L] fills the shape from the bottom [m]."""
        whole = self.volume_l()
        if not 0.0 <= volume_l <= whole * (1 + 1e-12):
            raise ValueError(f"{volume_l} L was given; expected 0 to the {whole} L that the shape holds")
        return bisect(lambda z: self.volume_l(0.0, z) - volume_l, 0.0, self.depth_m)

    def cut(self, low_m: float, high_m: float) -> "Shape":
        """The part between two heights as a shape of its own, its bottom at 0 m."""
        self._within(low_m, high_m)
        kept = [s for s in self.slices if s.top_m > low_m and s.bottom_m < high_m]
        sides = self.sides and Sides(*self.spans_m(low_m), *self.spans_m(high_m))
        return Shape(tuple(_part(s, max(s.bottom_m, low_m), min(s.top_m, high_m), low_m) for s in kept), sides)

    def _within(self, low_m: float, high_m: float) -> None:
        if not 0.0 <= low_m <= high_m <= self.depth_m:
            raise ValueError(f"heights {low_m} to {high_m} m were given; expected them within 0 to {self.depth_m} m")


def _part(s: Slice, low_m: float, high_m: float, zero_m: float) -> Slice:
    """A layer trimmed to two heights and set down by `zero_m`."""
    u = low_m - s.bottom_m
    return Slice(low_m - zero_m, high_m - zero_m, s.c0 + u * (s.c1 + u * s.c2), s.c1 + 2 * u * s.c2, s.c2)


def bisect(rising: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function passes zero between two bounds, to the last digit that a float holds."""
    while low < (middle := (low + high) / 2) < high:
        if rising(middle) < 0:
            low = middle
        else:
            high = middle
    return high
