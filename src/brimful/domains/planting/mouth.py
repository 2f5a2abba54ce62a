"""The mouth of a container in plan, seen with its front downwards: rings along the rim, and distance to the rim.

Where along a ring is told by the way walked from the middle of the front, counter-clockwise; negative the other way.
"""

import math
from typing import Protocol

from brimful.records import record

FRONT_ARC = 200.0 / 360.0
"""Share of a round rim that counts as front edge and both ends (common practice, no source)."""
Point = tuple[float, float]


class Mouth(Protocol):
    """What layout asks of a mouth."""

    @property
    def half_depth_m(self) -> float:
        """From the middle to the front [m]."""

    @property
    def half_width_m(self) -> float:
        """From the middle to the right-hand end [m]."""

    @property
    def area_m2(self) -> float:
        """Area of the mouth [m²]."""

    def ring_m(self, inset_m: float) -> float:
        """Length of the ring that lies so far within the rim [m]; 0 where there is none."""

    def front_m(self, inset_m: float) -> float:
        """Length of that ring's part along the front and both ends [m]."""

    def at(self, inset_m: float, along_m: float) -> Point:
        """The point of that ring after walking so far from the middle of the front."""

    def to_rim_m(self, point: Point) -> float:
        """Distance from a point to the rim [m], below 0 outside."""


def half_narrow_m(mouth: Mouth) -> float:
    """From the middle to the rim the narrow way [m]."""
    return min(mouth.half_depth_m, mouth.half_width_m)


@record
class RoundMouth:
    """A round mouth, by its diameter inside the rim [m]."""

    diameter_m: float

    def __post_init__(self) -> None:
        if not self.diameter_m > 0.0:
            raise ValueError(f"diameter_m is {self.diameter_m}: expected above 0")

    @property
    def half_depth_m(self) -> float:
        """Its radius [m]."""
        return self.diameter_m / 2.0

    @property
    def half_width_m(self) -> float:
        """Its radius [m]."""
        return self.diameter_m / 2.0

    @property
    def area_m2(self) -> float:
        """π D² / 4."""
        return math.pi * self.diameter_m**2 / 4.0

    def ring_m(self, inset_m: float) -> float:
        """Circumference so far within the rim."""
        return max(0.0, 2.0 * math.pi * (self.half_depth_m - inset_m))

    def front_m(self, inset_m: float) -> float:
        """The front arc of that ring."""
        return FRONT_ARC * self.ring_m(inset_m)

    def at(self, inset_m: float, along_m: float) -> Point:
        """On the ring, counted from the front."""
        radius = max(0.0, self.half_depth_m - inset_m)
        angle = along_m / radius - math.pi / 2.0 if radius > 0.0 else 0.0
        return radius * math.cos(angle), radius * math.sin(angle)

    def to_rim_m(self, point: Point) -> float:
        """Radius less distance from the middle."""
        return self.half_depth_m - math.hypot(*point)


@record
class RectangularMouth:
    """A rectangular mouth by its inside width along the front and its depth from front to back [m]."""

    width_m: float
    depth_m: float

    def __post_init__(self) -> None:
        if not (self.width_m > 0.0 and self.depth_m > 0.0):
            raise ValueError(f"width_m and depth_m are {self.width_m} and {self.depth_m}: expected above 0")

    @property
    def half_depth_m(self) -> float:
        """Half its depth [m]."""
        return self.depth_m / 2.0

    @property
    def half_width_m(self) -> float:
        """Half its width [m]."""
        return self.width_m / 2.0

    @property
    def area_m2(self) -> float:
        """Width times depth."""
        return self.width_m * self.depth_m

    def ring_m(self, inset_m: float) -> float:
        """Perimeter of the rectangle so far within the rim; 0 where no room is left."""
        width, depth = self._inner(inset_m)
        return 2.0 * (width + depth) if width > 0.0 and depth > 0.0 else 0.0

    def front_m(self, inset_m: float) -> float:
        """Front side and the fore two thirds of both ends."""
        width, depth = self._inner(inset_m)
        return width + 4.0 / 3.0 * depth if width > 0.0 and depth > 0.0 else 0.0

    def at(self, inset_m: float, along_m: float) -> Point:
        """On the inner rectangle, counted from the middle of its front side."""
        width, depth = (max(0.0, v) for v in self._inner(inset_m))
        half, back = width / 2.0, 1.5 * width + depth
        way = along_m % (2.0 * (width + depth)) if width + depth > 0.0 else 0.0
        if way <= half:
            return way, -depth / 2.0
        if way <= half + depth:
            return half, way - half - depth / 2.0
        if way <= back:
            return width + depth - way, depth / 2.0
        return (
            (-half, depth / 2.0 - (way - back)) if way <= back + depth else (way - 2.0 * (width + depth), -depth / 2.0)
        )

    def to_rim_m(self, point: Point) -> float:
        """Least distance to a side."""
        return min(self.half_width_m - abs(point[0]), self.half_depth_m - abs(point[1]))

    def _inner(self, inset_m: float) -> tuple[float, float]:
        return self.width_m - 2.0 * inset_m, self.depth_m - 2.0 * inset_m
