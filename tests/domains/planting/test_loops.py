"""Tube through the rings that root balls leave free: no loop on a ball, no water lost, the worst ball best served."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.layout import LOOP_WIDTH_M, layout
from brimful.domains.planting.loops import OFF_THE_WALL_M, emitter_points, ring_points, wound_insets_m
from brimful.domains.planting.mouth import Mouth, RoundMouth
from brimful.domains.planting.recipe import Recipe

from .test_layout import CALIBRACHOA, ELEVEN, GERANIUM, LARGE, mouths, recipes

REACH_M = 0.15
emitters, spacings = st.integers(1, 30), st.floats(0.1, 0.35)


@given(recipes, mouths, emitters, spacings)
def test_no_loop_touches_a_root_ball_or_the_wall(recipe: Recipe, mouth: Mouth, count: int, spacing: float) -> None:
    """Each loop keeps half a tube's room from every ball and 3 cm from the wall; loops lie at least 2 cm apart."""
    planted = layout(recipe, mouth, 0.5)
    insets = wound_insets_m(mouth, planted.free, planted.places, emitters=count, spacing_m=spacing, reach_m=REACH_M)
    for inset in insets:
        assert inset >= OFF_THE_WALL_M - 1e-9
        for place in planted.places:
            assert abs(place.to_rim_m - inset) >= (place.ball_width_m + LOOP_WIDTH_M) / 2 - 1e-6
    assert all(b - a >= LOOP_WIDTH_M - 1e-6 for a, b in pairwise(insets))


@given(recipes, mouths, emitters, spacings)
def test_every_emitter_lies_on_a_loop(recipe: Recipe, mouth: Mouth, count: int, spacing: float) -> None:
    """As many points as emitters, each so far within the rim as one of the loops, from the outermost in."""
    planted = layout(recipe, mouth, 0.5)
    insets = wound_insets_m(mouth, planted.free, planted.places, emitters=count, spacing_m=spacing, reach_m=REACH_M)
    if insets:
        points = emitter_points(mouth, insets, count, spacing)
        on = [min(range(len(insets)), key=lambda i: abs(insets[i] - mouth.to_rim_m(p))) for p in points]
        assert len(points) == count
        assert on == sorted(on)
        assert all(abs(insets[i] - mouth.to_rim_m(p)) < 1e-6 for i, p in zip(on, points, strict=True))


@given(st.integers(6, 24))
def test_a_piece_longer_than_a_loop_is_wound_on(count: int) -> None:
    """In 70 cm the loops' ways round add up to the piece, or the innermost stays open by less than one way round."""
    planted = layout(ELEVEN, LARGE, 0.5)
    insets = wound_insets_m(LARGE, planted.free, planted.places, emitters=count, spacing_m=0.1524, reach_m=REACH_M)
    ways = [LARGE.ring_m(inset) for inset in insets]
    assert sum(ways) - ways[-1] < count * 0.1524 <= sum(ways) + 1e-6


def test_sixteen_emitters_reach_eleven_plants() -> None:
    """Trade check (common practice, no source): 8 ft of dripline with 16 emitters waters a 28 in mouth in two loops."""
    planted = layout(ELEVEN, LARGE, 0.5)
    insets = wound_insets_m(LARGE, planted.free, planted.places, emitters=16, spacing_m=0.1524, reach_m=REACH_M)
    points = emitter_points(LARGE, insets, 16, 0.1524)
    gaps = [min(math.hypot(p.x_m - x, p.y_m - y) for x, y in points) - p.ball_width_m / 2 for p in planted.places]
    assert len(insets) == 2
    assert max(gaps) <= REACH_M


@given(recipes, mouths, st.integers(1, 12))
def test_single_emitters_stand_between_the_balls(recipe: Recipe, mouth: Mouth, count: int) -> None:
    """As many as asked, or none where no ring is free; none stands on a root ball or at the wall."""
    planted = layout(recipe, mouth, 0.5)
    points = ring_points(mouth, planted.free, planted.places, emitters=count)
    assert len(points) in (0, count)
    for x, y in points:
        assert mouth.to_rim_m((x, y)) >= OFF_THE_WALL_M - 1e-9
        assert all(math.hypot(p.x_m - x, p.y_m - y) >= p.ball_width_m / 2 - 1e-6 for p in planted.places)


def test_nothing_free_gives_nothing() -> None:
    """Where balls fill the mouth there is no ring, and nothing is wound."""
    packed = layout(Recipe((GERANIUM, CALIBRACHOA)), RoundMouth(0.3), 0.5)
    assert wound_insets_m(RoundMouth(0.3), (), packed.places, emitters=5, spacing_m=0.15, reach_m=REACH_M) == ()
    assert ring_points(RoundMouth(0.3), (), packed.places, emitters=5) == ()


def test_mistakes_are_refused() -> None:
    """No emitter, or no spacing, is refused."""
    for wrong in (
        lambda: wound_insets_m(LARGE, ((0.1, 0.2),), (), emitters=0, spacing_m=0.1, reach_m=REACH_M),
        lambda: wound_insets_m(LARGE, ((0.1, 0.2),), (), emitters=1, spacing_m=0.0, reach_m=REACH_M),
        lambda: ring_points(LARGE, ((0.1, 0.2),), (), emitters=0),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
