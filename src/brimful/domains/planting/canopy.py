"""Ground covered by a container's plants, seen from above: each plant a circle, their union exact.

The union's edge is made of arcs. On each circle the arcs hidden by its neighbours are found; the area is the line
integral along the arcs that remain (Green's theorem). Half angles come in Kahan's form, from sums that are the same
seen from both circles of a pair, so neighbouring arcs meet to the last digit even where circles barely touch.
"""

import math
from collections.abc import Iterable, Sequence

from brimful.records import record

Circle = tuple[float, float, float]
"""Centre x [m], centre y [m], radius [m]."""
Interval = tuple[float, float]
TOUCH = 1e-12
"""Circles that cross by less than this share of their radii only touch: else rounding could set three that touch in one
point against each other. What is neglected is a sliver of this thickness."""
FULL_TURN = 2.0 * math.pi
_WHOLE: list[Interval] = [(0.0, FULL_TURN)]


@record
class Cover:
    """What a canopy does to a container's mouth, seen from above.

    `union_m2` is all ground under leaves, `inside_m2` the part within the mouth, `overhang_m2` the part beyond the rim;
    `gap_share` is the bare share of the mouth, `overlap_share` the share of the plants' own areas that stand double.
    """

    union_m2: float
    inside_m2: float
    overhang_m2: float
    gap_share: float
    overlap_share: float


def union_area_m2(circles: Sequence[Circle]) -> float:
    """Ground covered by circles that may overlap, each spot counted once [m²] (exact, Green's theorem).

    Formula: A = Σ over visible arcs of ½ [r² (b − a) + r x (sin b − sin a) − r y (cos b − cos a)].

    Args:
        circles: (x, y, radius) of each plant [m]; duplicates, touching, nested and zero circles are all allowed
    Returns: area [m²]
    Valid: radii ≥ 0, all finite
    Source: Green's theorem; half angles after Kahan (memory)

    >>> round(union_area_m2([(0.0, 0.0, 1.0), (1.0, 0.0, 1.0)]), 6)
    5.054816
    """
    kept, _ = _centred(circles)
    return math.fsum(_arc_integral(c, visible_arcs(hidden_arcs(kept, i))) for i, c in enumerate(kept))


def area_inside_polygon_m2(circles: Sequence[Circle], corners: Sequence[tuple[float, float]]) -> float:
    """Ground covered within a mouth with straight sides [m²] (exact; Green's theorem on arcs and sides).

    Args:
        circles: (x, y, radius) of each plant [m]; corners: of a convex mouth, counter-clockwise [m]
    Returns: area [m²]
    Valid: convex mouth, three corners or more
    Source: Green's theorem
    """
    kept, (x0, y0) = _centred(circles)
    sides = _sides([(x - x0, y - y0) for x, y in corners])
    arcs = (
        _arc_integral(c, visible_arcs(hidden_arcs(kept, i) + [a for s in sides for a in _beyond(c, s)]))
        for i, c in enumerate(kept)
    )
    return math.fsum(arcs) + math.fsum(_side_integral(side, kept) for side in sides)


def rectangle_corners(length_m: float, width_m: float) -> list[tuple[float, float]]:
    """Corners of a rectangle about the origin, counter-clockwise [m], length along x."""
    x, y = length_m / 2.0, width_m / 2.0
    return [(-x, -y), (x, -y), (x, y), (-x, y)]


def cover_of_round_mouth(circles: Sequence[Circle], mouth_diameter_m: float) -> Cover:
    """Cover, overhang, gaps and overlap of a canopy over a round mouth about the origin [m², shares].

    Formula: overhang = union of plants and mouth − mouth; inside = union of plants − overhang.

    Args:
        circles: (x, y, radius) of each plant [m]; mouth_diameter_m: inside the rim [m]
    Returns: a Cover
    Valid: mouth_diameter_m > 0
    Source: definition
    """
    mouth = (0.0, 0.0, _positive(mouth_diameter_m, "mouth_diameter_m") / 2.0)
    mouth_m2 = math.pi * mouth[2] ** 2
    union = union_area_m2(circles)
    overhang = max(0.0, union_area_m2([*circles, mouth]) - mouth_m2)
    return _cover(circles, union, max(0.0, union - overhang), mouth_m2)


def cover_of_rectangular_mouth(circles: Sequence[Circle], length_m: float, width_m: float) -> Cover:
    """Cover, overhang, gaps and overlap of a canopy over a rectangular mouth about the origin [m², shares].

    Args:
        circles: (x, y, radius) of each plant [m]; length_m, width_m: inside the rim, length along x [m]
    Returns: a Cover
    Valid: length and width > 0
    Source: definition
    """
    mouth_m2 = _positive(length_m, "length_m") * _positive(width_m, "width_m")
    inside = area_inside_polygon_m2(circles, rectangle_corners(length_m, width_m))
    return _cover(circles, union_area_m2(circles), max(0.0, inside), mouth_m2)


def _cover(circles: Sequence[Circle], union: float, inside: float, mouth_m2: float) -> Cover:
    total = math.fsum(math.pi * r * r for _, _, r in circles)
    return Cover(
        union_m2=union,
        inside_m2=inside,
        overhang_m2=max(0.0, union - inside),
        gap_share=min(1.0, max(0.0, 1.0 - inside / mouth_m2)),
        overlap_share=max(0.0, 1.0 - union / total) if total > 0.0 else 0.0,
    )


def hidden_arcs(circles: Sequence[Circle], index: int) -> list[Interval]:
    """Arcs of one circle hidden by the others, as (start, end) angles with start in 0–2π [rad]."""
    x, y, r = circles[index]
    arcs: list[Interval] = []
    for other, (u, v, q) in enumerate(circles):
        distance, more = math.hypot(u - x, v - y), r - q
        reach, least = (r + q) - distance, TOUCH * (r + q)
        if other != index and reach > least and distance - more > least and distance + more > least:
            half = _half_angle(reach * (distance - more), (distance + more) * ((r + q) + distance))
            arcs.append(_from(math.atan2(v - y, u - x), half))
    return arcs


def visible_arcs(hidden: Iterable[Interval]) -> list[Interval]:
    """What remains of a full turn when hidden arcs are taken away [rad]."""
    at, seen, last = 0.0, [], FULL_TURN
    for start, end in sorted(_unwrapped(hidden)):
        if start > at:
            seen.append((at, start))
        at = max(at, end)
    if at < last:
        seen.append((at, last))
    return seen


def _unwrapped(arcs: Iterable[Interval]) -> Iterable[Interval]:
    for start, end in arcs:
        yield start, min(end, FULL_TURN)
        if end > FULL_TURN:
            yield 0.0, end - FULL_TURN


def _half_angle(numerator: float, denominator: float) -> float:
    return 2.0 * math.atan2(math.sqrt(numerator), math.sqrt(denominator))


def _from(middle: float, half: float) -> Interval:
    start = (middle - half) % FULL_TURN
    return start, start + 2.0 * half


def _arc_integral(circle: Circle, arcs: Iterable[Interval]) -> float:
    x, y, r = circle
    return math.fsum(
        0.5 * r * (r * (b - a) + x * (math.sin(b) - math.sin(a)) - y * (math.cos(b) - math.cos(a))) for a, b in arcs
    )


def _centred(circles: Sequence[Circle]) -> tuple[list[Circle], tuple[float, float]]:
    """The circles that count, about their own middle, where sums lose no digits; and where that middle lies."""
    for circle in circles:
        if not all(map(math.isfinite, circle)) or circle[2] < 0.0:
            raise ValueError(f"circle {circle} was given: expected finite x, y [m] and a radius [m] of 0 or more")
    kept = [c for i, c in enumerate(circles) if c[2] > 0.0 and not _swallowed(circles, i)]
    count = max(1, len(kept))
    x0, y0 = math.fsum(c[0] for c in kept) / count, math.fsum(c[1] for c in kept) / count
    return [(x - x0, y - y0, r) for x, y, r in kept], (x0, y0)


def _swallowed(circles: Sequence[Circle], index: int) -> bool:
    """Whether a circle lies within a larger one; of equal ones the first is kept."""
    x, y, r = circles[index]
    return any(
        (r < q or (r == q and other < index)) and math.hypot(u - x, v - y) + (r - q) <= TOUCH * (r + q)
        for other, (u, v, q) in enumerate(circles)
    )


@record
class _Side:
    """A side of the mouth: where it starts, its unit direction, its length; outside lies to the right."""

    x: float
    y: float
    ux: float
    uy: float
    length: float


def _sides(corners: Sequence[tuple[float, float]]) -> list[_Side]:
    sides = []
    for (x, y), (p, q) in zip(corners, [*corners[1:], corners[0]], strict=True):
        length = math.hypot(p - x, q - y)
        sides.append(_Side(x, y, (p - x) / length, (q - y) / length, length))
    return sides


def _beyond(circle: Circle, side: _Side) -> list[Interval]:
    """The arc of a circle beyond one side of the mouth."""
    x, y, r = circle
    depth = side.ux * (y - side.y) - side.uy * (x - side.x)  # of the centre within, measured from the side
    if depth >= r * (1.0 - TOUCH):
        return []
    if depth <= -r * (1.0 - TOUCH):
        return _WHOLE
    return [_from(math.atan2(-side.ux, side.uy), _half_angle(r - depth, r + depth))]


def _side_integral(side: _Side, circles: Sequence[Circle]) -> float:
    covered = 0.0
    at = 0.0
    for start, end in sorted(chord for c in circles for chord in _chord(c, side)):
        covered += max(0.0, end - max(start, at))
        at = max(at, end)
    return 0.5 * covered * (side.x * side.uy - side.y * side.ux)


def _chord(circle: Circle, side: _Side) -> list[Interval]:
    x, y, r = circle
    depth = side.ux * (y - side.y) - side.uy * (x - side.x)
    if abs(depth) >= r * (1.0 - TOUCH):
        return []
    along = side.ux * (x - side.x) + side.uy * (y - side.y)
    half = math.sqrt((r - depth) * (r + depth))
    start, end = max(0.0, along - half), min(side.length, along + half)
    return [(start, end)] if end > start else []


def _positive(value: float, name: str) -> float:
    if not (math.isfinite(value) and value > 0.0):
        raise ValueError(f"{name} is {value}: expected above 0")
    return value
