"""How a piece of tube is wound through the rings that root balls leave free, and where along it water comes out."""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement

from brimful.domains.planting.layout import LOOP_WIDTH_M, Place
from brimful.domains.planting.mouth import Mouth, Point, half_narrow_m

OFF_THE_WALL_M = 0.03
"""Nearer the wall water would run down the gap (common practice, no source)."""
MORE_LOOPS = 1
"""Windings are tried with so many loops more and fewer than an evenly spread piece would have."""
Ring = tuple[float, float]


def wound_insets_m(
    mouth: Mouth, free: tuple[Ring, ...], places: tuple[Place, ...], *, emitters: int, spacing_m: float, reach_m: float
) -> tuple[float, ...]:
    """How far within the rim each loop of a piece of dripline lies [m], the outermost first; no loop touches a ball.

    Formula: of all ways of laying n loops in the free rings, side by side 2 cm apart, whose ways round add up to the
    piece (the innermost need not close), the one with fewest loops whose emitters reach every root ball; where none
    does, the one that comes nearest to the ball farthest off. n from one less to one more than the middle ring takes.

    Args:
        mouth: at the level of the mix; free: rings for the tube's middle line, from and to so far within the rim [m];
        places: the plants; emitters: on the piece; spacing_m: from one to the next [m]; reach_m: how far an emitter
        wets the mix sideways [m]
    Returns: [m]; empty where no ring is free
    Valid: a piece of at least one emitter
    Source: geometry; our own rule
    """
    if emitters < 1 or spacing_m <= 0.0:
        raise ValueError(f"{emitters} emitters at {spacing_m} m were given; expected at least one, above 0")
    rings = [(min(max(a, OFF_THE_WALL_M), b), b) for a, b in free if b >= OFF_THE_WALL_M]
    if not rings:
        return ()

    def worth(insets: tuple[float, ...]) -> tuple[float, int, float]:
        farthest = _farthest_m(places, emitter_points(mouth, insets, emitters, spacing_m))
        return max(farthest, reach_m), len(insets), farthest

    return min(_windings(mouth, rings, emitters * spacing_m), key=worth)


def ring_points(mouth: Mouth, free: tuple[Ring, ...], places: tuple[Place, ...], *, emitters: int) -> tuple[Point, ...]:
    """Where single emitters stand, evenly along one free ring, so that the ball farthest from any is nearest [m].

    Formula: of all free rings, at either edge and in the middle, beginning half a step from the front.

    Args:
        mouth: at the level of the mix; free: rings between the balls, from and to so far within the rim [m];
        places: the plants; emitters: how many
    Returns: [m]; empty where no ring is free
    Valid: at least one emitter
    Source: geometry; our own rule
    """
    if emitters < 1:
        raise ValueError(f"{emitters} emitters were given; expected at least one")
    insets = [inset for a, b in free if b >= OFF_THE_WALL_M for inset in (max(a, OFF_THE_WALL_M), (a + b) / 2.0, b)]
    ways = [_spread(mouth, inset, emitters) for inset in insets if inset >= OFF_THE_WALL_M]
    return min(ways, key=lambda points: _farthest_m(places, points), default=())


def _spread(mouth: Mouth, inset_m: float, count: int) -> tuple[Point, ...]:
    step = mouth.ring_m(inset_m) / count
    return tuple(mouth.at(inset_m, (i + 0.5) * step) for i in range(count))


def emitter_points(mouth: Mouth, insets_m: Sequence[float], emitters: int, spacing_m: float) -> tuple[Point, ...]:
    """Where the emitters fall on a piece that begins at the front of the first loop, counter-clockwise [m].

    Past the last loop's end the piece goes on round it.
    """
    rings = [mouth.ring_m(inset) for inset in insets_m]
    points, loop, along = [], 0, 0.0
    for _ in range(emitters):
        along += spacing_m
        while loop + 1 < len(rings) and along > rings[loop] + 1e-9:
            along -= rings[loop]
            loop += 1
        points.append(mouth.at(insets_m[loop], along))
    return tuple(points)


def _windings(mouth: Mouth, rings: list[Ring], length_m: float) -> list[tuple[float, ...]]:
    """Ways of laying the piece; where it is longer than all of them, the longest."""
    usual = length_m / mouth.ring_m(half_narrow_m(mouth) / 2.0)
    found: list[tuple[float, ...]] = []
    longest: tuple[tuple[float, ...], float] = ((), 0.0)
    for count in sorted({1, *range(max(1, round(usual) - MORE_LOOPS), max(1, round(usual)) + MORE_LOOPS + 1)}):
        for chosen in combinations_with_replacement(rings, count):
            ends = _ends(chosen)
            if ends is None:
                continue
            outer, inner = (sum(mouth.ring_m(inset) for inset in way) for way in ends)
            last = mouth.ring_m(ends[1][-1])
            if outer > longest[1]:
                longest = (ends[0], outer)
            if outer >= length_m > inner - last:
                found.append(_between(mouth, ends, length_m))
    return found or [longest[0]]


def _ends(chosen: tuple[Ring, ...]) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
    """The loops as far out and as far in as their rings let them, loops of one ring side by side."""
    outer: list[float] = []
    for start, end in chosen:
        at = max(start, outer[-1] + LOOP_WIDTH_M) if outer else start
        if at > end:
            return None
        outer.append(at)
    inner: list[float] = []
    for _, end in reversed(chosen):
        inner.insert(0, min(end, inner[0] - LOOP_WIDTH_M) if inner else end)
    return tuple(outer), tuple(inner)


def _between(mouth: Mouth, ends: tuple[tuple[float, ...], tuple[float, ...]], length_m: float) -> tuple[float, ...]:
    """The loops moved inwards together until their ways round add up to the piece, as far as they can be."""
    low, high = 0.0, 1.0
    for _ in range(40):
        share = (low + high) / 2.0
        if sum(mouth.ring_m(inset) for inset in _at(ends, share)) > length_m:
            low = share
        else:
            high = share
    return _at(ends, low if high < 1.0 else 1.0)


def _at(ends: tuple[tuple[float, ...], tuple[float, ...]], share: float) -> tuple[float, ...]:
    return tuple(a + share * (b - a) for a, b in zip(*ends, strict=True))


def _farthest_m(places: tuple[Place, ...], points: tuple[Point, ...]) -> float:
    """How far the ball that is worst off lies from its nearest emitter."""
    return max(map(min, _ways_m(places, points)), default=0.0)


def _ways_m(places: tuple[Place, ...], points: tuple[Point, ...]) -> Iterator[list[float]]:
    for place in places:
        yield [math.hypot(place.x_m - x, place.y_m - y) - place.ball_width_m / 2.0 for x, y in points]
