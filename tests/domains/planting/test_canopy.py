"""The union of the plants' circles: laws, closed forms, and fine polygons."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.canopy import (
    Circle,
    area_inside_polygon_m2,
    cover_of_rectangular_mouth,
    cover_of_round_mouth,
    rectangle_corners,
    union_area_m2,
)
from brimful.domains.planting.canopy_arrays import union_area_many

EXACT = 1e-12
position = st.floats(-1.0, 1.0, allow_nan=False).map(lambda v: round(v, 3))
radius = st.floats(0.0, 0.8, allow_nan=False).map(lambda v: round(v, 3))
plants = st.lists(st.tuples(position, position, radius), min_size=1, max_size=9)


def lens(distance: float, r: float, q: float) -> float:
    """Area common to two crossing circles (closed form)."""
    a = math.acos((distance**2 + r**2 - q**2) / (2 * distance * r))
    b = math.acos((distance**2 + q**2 - r**2) / (2 * distance * q))
    return r**2 * (a - math.sin(a) * math.cos(a)) + q**2 * (b - math.sin(b) * math.cos(b))


def discs(circles: list[Circle]) -> float:
    """Sum of the circles' own areas."""
    return math.fsum(math.pi * r * r for _, _, r in circles)


def polygons(circles: list[Circle], segments: int) -> shapely.Geometry:
    """The same union from many-sided polygons."""
    return shapely.union_all([shapely.Point(x, y).buffer(r, quad_segs=segments) for x, y, r in circles])


@given(plants)
def test_union_lies_between_the_largest_and_the_sum(circles: list[Circle]) -> None:
    """A canopy covers at least its largest plant and at most all plants laid side by side."""
    area = union_area_m2(circles)
    assert max(math.pi * r * r for _, _, r in circles) - EXACT <= area <= discs(circles) + EXACT


@given(plants, st.integers(0, 8), st.floats(0.0, 0.5))
def test_a_plant_that_grows_never_uncovers_ground(circles: list[Circle], which: int, more: float) -> None:
    """A larger radius never gives a smaller canopy."""
    which %= len(circles)
    x, y, r = circles[which]
    grown = [*circles[:which], (x, y, r + more), *circles[which + 1 :]]
    assert union_area_m2(grown) >= union_area_m2(circles) - EXACT


@given(plants, st.floats(-50, 50), st.floats(-50, 50), st.floats(0, 7))
def test_moving_and_turning_change_nothing(circles: list[Circle], dx: float, dy: float, turn: float) -> None:
    """The same plants elsewhere, turned, cover the same ground."""
    c, s = math.cos(turn), math.sin(turn)
    moved = [(c * x - s * y + dx, s * x + c * y + dy, r) for x, y, r in circles]
    assert union_area_m2(moved) == pytest.approx(union_area_m2(circles), abs=1e-9)


@given(plants)
def test_every_plant_twice_covers_the_same(circles: list[Circle]) -> None:
    """Doubling each plant on its own spot adds nothing, in any order."""
    assert union_area_m2([*circles, *reversed(circles)]) == pytest.approx(union_area_m2(circles), abs=EXACT)


@given(plants)
def test_batch_equals_one_by_one(circles: list[Circle]) -> None:
    """The numpy form gives the plain form's area, for plants full grown, at half size, and gone."""
    x, y, r = (np.array(v) for v in zip(*circles, strict=True))
    expected = [union_area_m2([(a, b, f * c) for a, b, c in circles]) for f in (1.0, 0.5, 0.0)]
    assert union_area_many(x, y, np.outer([1.0, 0.5, 0.0], r)) == pytest.approx(np.array(expected), abs=EXACT)


@given(plants)
def test_union_against_fine_polygons(circles: list[Circle]) -> None:
    """Polygons inscribed with 256 segments a quarter lose under one part in 10^5 of each disc, and never gain."""
    short = union_area_m2(circles) - polygons(circles, 256).area
    assert -1e-9 <= short <= 1e-5 * discs(circles) + 1e-9


@given(plants, st.floats(0.2, 2.0), st.floats(0.2, 2.0))
def test_rectangular_mouth_against_fine_polygons(circles: list[Circle], length: float, width: float) -> None:
    """The part of a canopy inside a rectangular mouth agrees with polygons cut by the rectangle."""
    mouth = shapely.Polygon(rectangle_corners(length, width))
    expected = polygons(circles, 256).intersection(mouth).area
    inside = area_inside_polygon_m2(circles, rectangle_corners(length, width))
    assert abs(inside - expected) <= 1e-5 * discs(circles) + 1e-9


@given(plants, st.floats(0.2, 2.0))
def test_round_mouth_keeps_the_sums(circles: list[Circle], diameter: float) -> None:
    """Inside and overhang make the union; bare and covered make the mouth."""
    cover = cover_of_round_mouth(circles, diameter)
    mouth = math.pi * diameter**2 / 4
    assert cover.inside_m2 + cover.overhang_m2 == pytest.approx(cover.union_m2, abs=1e-12)
    assert cover.gap_share * mouth + cover.inside_m2 == pytest.approx(mouth, abs=1e-9)
    assert 0.0 <= cover.overlap_share <= 1.0


def test_two_crossing_circles_by_the_lens() -> None:
    """Two circles cover their sum less the lens they share (closed form)."""
    for distance, r, q in [(1.0, 1.0, 1.0), (0.7, 0.5, 0.4), (0.30001, 0.5, 0.2), (0.69999, 0.5, 0.2)]:
        circles = [(3.0, -2.0, r), (3.0 + distance, -2.0, q)]
        assert union_area_m2(circles) == pytest.approx(discs(circles) - lens(distance, r, q), abs=1e-9)


def test_three_circles_through_one_point() -> None:
    """Three unit circles through one point, 120° apart, leave three lenses to count once (closed form)."""
    circles = [(math.cos(t), math.sin(t), 1.0) for t in (0.3, 0.3 + 2 * math.pi / 3, 0.3 + 4 * math.pi / 3)]
    expected = 3 * math.pi - 3 * lens(math.sqrt(3.0), 1.0, 1.0)
    assert union_area_m2(circles) == pytest.approx(expected, abs=1e-9)


def test_three_circles_round_a_reuleaux_triangle() -> None:
    """Circles about a triangle's corners: inclusion and exclusion with the Reuleaux triangle (closed form)."""
    circles = [(0.0, 0.0, 1.0), (1.0, 0.0, 1.0), (0.5, math.sqrt(0.75), 1.0)]
    reuleaux = (math.pi - math.sqrt(3.0)) / 2.0
    assert union_area_m2(circles) == pytest.approx(3 * math.pi - 3 * lens(1.0, 1.0, 1.0) + reuleaux, abs=1e-9)


def test_a_chain_counts_every_link() -> None:
    """A chain of circles, each crossing only its neighbours, loses one lens a link (closed form)."""
    circles = [(0.15 * i, 0.0, 0.1) for i in range(40)]
    assert union_area_m2(circles) == pytest.approx(discs(circles) - 39 * lens(0.15, 0.1, 0.1), abs=1e-9)


@pytest.mark.parametrize("nudge", [0.0, 1e-16, -1e-16, 1e-13, -1e-13, 1e-9, -1e-9])
@pytest.mark.parametrize("far", [0.0, 100.0])
def test_touching_circles_lose_no_digits(nudge: float, far: float) -> None:
    """Circles that only just touch, from outside and from inside, keep nine decimals, also far from the origin."""
    outside = [(far, far, 0.3), (far + 0.5 + nudge, far, 0.2)]
    within = [(far, far, 0.3), (far + 0.1 + nudge, far, 0.2)]
    assert union_area_m2(outside) == pytest.approx(math.pi * 0.13, abs=1e-9)
    assert union_area_m2(within) == pytest.approx(math.pi * 0.09, abs=1e-9)


TOUCHING = [(0.0, 1.0), (0.5, 0.5), (0.75, 0.25), (1.5, 0.5), (1.25, 0.25)]


@given(st.floats(0.0, 7.0), st.floats(-3.0, 3.0), st.permutations(TOUCHING))
def test_many_circles_that_touch_in_one_point(turn: float, shift: float, circles: list[tuple[float, float]]) -> None:
    """Three nested circles and two outside, all touching in one point, any order and turn: 1.25 π (closed form)."""
    turned = [(shift + d * math.cos(turn), d * math.sin(turn), r) for d, r in circles]
    x, y, r = zip(*turned, strict=True)
    assert union_area_m2(turned) == pytest.approx(1.25 * math.pi, abs=1e-12)
    assert union_area_many(x, y, r) == pytest.approx(1.25 * math.pi, abs=1e-12)


def test_apart_nested_equal_and_none() -> None:
    """Apart adds up, nested and equal circles count once, nothing covers nothing."""
    assert union_area_m2([(0, 0, 1.0), (5, 0, 2.0)]) == pytest.approx(5 * math.pi)
    assert union_area_m2([(0, 0, 1.0), (0.2, 0.1, 0.3), (0, 0, 1.0)]) == pytest.approx(math.pi)
    assert union_area_m2([]) == union_area_m2([(0.0, 0.0, 0.0)]) == 0.0
    assert union_area_many([], [], np.zeros((3, 0))).tolist() == [0.0, 0.0, 0.0]


def test_a_plant_over_the_corner_of_a_box() -> None:
    """A plant on a corner covers a quarter of itself inside; one that hides the box leaves no gap (closed form)."""
    corner = cover_of_rectangular_mouth([(0.5, 0.25, 0.2)], 1.0, 0.5)
    assert corner.inside_m2 == pytest.approx(math.pi * 0.01, abs=1e-9)
    assert corner.gap_share == pytest.approx(1.0 - math.pi * 0.02, abs=1e-9)
    whole = cover_of_rectangular_mouth([(0.0, 0.0, 2.0)], 1.0, 0.5)
    assert (whole.inside_m2, whole.gap_share) == pytest.approx((0.5, 0.0), abs=1e-9)


def test_a_trailer_half_over_the_rim() -> None:
    """A plant centred on a round rim hangs over by its own area less the lens with the mouth (closed form)."""
    cover = cover_of_round_mouth([(0.3, 0.0, 0.1)], 0.6)
    assert cover.overhang_m2 == pytest.approx(math.pi * 0.01 - lens(0.3, 0.3, 0.1), abs=1e-9)


def test_wrong_circles_are_refused() -> None:
    """A negative or missing radius is the caller's mistake, and so are shapes that do not fit."""
    for circle in [(0.0, 0.0, -0.1), (0.0, math.nan, 0.1), (0.0, 0.0, math.inf)]:
        with pytest.raises(ValueError, match="radius"):
            union_area_m2([circle])
        with pytest.raises(ValueError, match="radius"):
            union_area_many([circle[0]], [circle[1]], [circle[2]])
    with pytest.raises(ValueError, match="shapes"):
        union_area_many([0.0], [0.0], [[0.1, 0.2]])
    with pytest.raises(ValueError, match="mouth_diameter_m"):
        cover_of_round_mouth([], 0.0)
