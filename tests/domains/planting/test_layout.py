"""Places of the plants: laws of fit, repeat, front and mixing; the tube's ring; build order."""

import math
from collections import Counter
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.build import build_order
from brimful.domains.planting.layout import LOOP_WIDTH_M, Layout, Place, layout
from brimful.domains.planting.mouth import Mouth, RectangularMouth, RoundMouth
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.spread import alternate, share_out, turned

GRASS = Part("grass", "upright", 1, 0.165, 0.18)
GERANIUM = Part("geranium", "mounding", 4, 0.083, 0.083)
CALIBRACHOA = Part("calibrachoa", "trailing", 6, 0.083, 0.083)
ELEVEN = Recipe((GRASS, GERANIUM, CALIBRACHOA))
LARGE = RoundMouth(0.70)

views = st.sampled_from(["all-round", "one-sided"])
recipes = st.builds(
    lambda u, m, n, t, view: Recipe(
        (
            Part("u", "upright", u, 0.15, 0.14),
            Part("m", "mounding", m, 0.083, 0.083),
            Part("n", "mounding", n, 0.102, 0.083),
            Part("t", "trailing", t, 0.06, 0.057),
        ),
        view=view,
    ),
    st.integers(0, 3),
    st.integers(0, 6),
    st.integers(0, 4),
    st.integers(0, 12),
    views,
).filter(lambda recipe: recipe.total > 0)
mouths = st.one_of(
    st.builds(RoundMouth, st.floats(0.2, 1.2)),
    st.builds(RectangularMouth, st.floats(0.3, 2.0), st.floats(0.15, 1.0)),
)


def codes(planted: Layout) -> list[str]:
    """Codes of what does not fit."""
    return [problem.code for problem in planted.problems]


def clear_m(a: Place, b: Place) -> float:
    """Room between two root balls."""
    return math.hypot(a.x_m - b.x_m, a.y_m - b.y_m) - (a.ball_width_m + b.ball_width_m) / 2


@given(recipes, mouths)
def test_what_is_said_to_fit_fits(recipe: Recipe, mouth: Mouth) -> None:
    """Every plant has a place; without a problem no two root balls overlap and none reaches beyond the rim."""
    planted = layout(recipe, mouth, 0.5)
    assert Counter(p.key for p in planted.places) == {p.key: p.count for p in recipe.parts if p.count}
    overlap = any(clear_m(a, b) < -1e-6 for a, b in combinations(planted.places, 2))
    outside = any(p.to_rim_m < p.ball_width_m / 2 - 1e-6 for p in planted.places)
    assert overlap == ("ball-overlap" in codes(planted))
    assert outside == ("ball-outside" in codes(planted))


@given(recipes, mouths)
def test_the_loop_touches_no_root_ball(recipe: Recipe, mouth: Mouth) -> None:
    """The ring kept for the tube is as wide as promised and free of root balls."""
    loop = layout(recipe, mouth, 0.5).loop
    if loop is not None:
        assert loop.room_m >= LOOP_WIDTH_M - 1e-6
        for place in layout(recipe, mouth, 0.5).places:
            assert abs(place.to_rim_m - loop.inset_m) >= (place.ball_width_m + LOOP_WIDTH_M) / 2 - 1e-6


@given(recipes, mouths)
def test_angles_are_counted_from_the_front(recipe: Recipe, mouth: Mouth) -> None:
    """Each place is the same in both forms: distance from the middle, and angle from the front, to the right first."""
    for place in layout(recipe, mouth, 0.5).places:
        turn = math.radians(place.angle_deg)
        here = place.radius_m * math.sin(turn), -place.radius_m * math.cos(turn)
        assert (place.x_m, place.y_m) == pytest.approx(here, abs=1e-9)


def test_places_repeat_exactly() -> None:
    """Worked out afresh, the same recipe gives the same places to the last digit."""
    first = layout(ELEVEN, LARGE, 0.5)
    layout.cache_clear()
    assert layout(ELEVEN, LARGE, 0.5) == first


def test_layers_stand_where_they_belong() -> None:
    """Upright at the centre, mounding plants on one ring within the trailing ones, no problem with eleven plants."""
    planted = layout(ELEVEN, LARGE, 0.5)
    radii = {role: {round(p.radius_m, 9) for p in planted.places if p.role == role} for role in ("upright", "mounding")}
    assert codes(planted) == []
    assert radii["upright"] == {0.0}
    assert len(radii["mounding"]) == 1
    assert max(radii["mounding"]) < min(p.radius_m for p in planted.places if p.role == "trailing")


def test_many_uprights_stand_round_the_rarest() -> None:
    """One canna among six sages stands in the middle, the sages in a ring about it, none touching."""
    canna, sage = Part("canna", "upright", 1, 0.083, 0.083), Part("sage", "upright", 6, 0.083, 0.083)
    planted = layout(Recipe((sage, canna)), LARGE, 0.5)
    assert codes(planted) == []
    assert [(p.key, p.radius_m) for p in planted.places if p.radius_m < 1e-9] == [("canna", 0.0)]


@pytest.mark.parametrize("front", ["geranium", "calibrachoa"])
def test_the_front_plant_stands_at_the_front(front: str) -> None:
    """The plant named stands exactly at the front when seen all round."""
    planted = layout(Recipe((GRASS, GERANIUM, CALIBRACHOA), front=front), LARGE, 0.5)
    assert min(min(p.angle_deg, 360 - p.angle_deg) for p in planted.places if p.key == front) < 1e-9


@pytest.mark.parametrize("mouth", [LARGE, RectangularMouth(0.9, 0.6)])
def test_seen_from_one_side(mouth: Mouth) -> None:
    """The upright stands behind the middle, before it the mounding plants, and no trailing plant at the back."""
    planted = layout(Recipe((GRASS, GERANIUM, CALIBRACHOA), view="one-sided"), mouth, 0.5)
    behind = {p.role: p.y_m for p in planted.places if p.role == "upright"}["upright"]
    assert codes(planted) == []
    assert behind > 0.2 * mouth.half_depth_m
    assert all(p.y_m < 0.5 * mouth.half_depth_m for p in planted.places if p.role == "trailing")
    assert all(p.y_m < behind for p in planted.places if p.role == "mounding")


@pytest.mark.parametrize("front", ["geranium", "calibrachoa"])
@pytest.mark.parametrize("mouth", [LARGE, RectangularMouth(0.9, 0.6)])
def test_the_front_plant_stands_at_the_front_of_one_side(front: str, mouth: Mouth) -> None:
    """Seen from one side too the plant named stands in the middle of the front, be its layer's count odd or even."""
    for count in (4, 5):
        parts = (GRASS, Part("geranium", "mounding", count, 0.083, 0.083), CALIBRACHOA)
        planted = layout(Recipe(parts, view="one-sided", front=front), mouth, 0.5)
        assert min(min(p.angle_deg, 360 - p.angle_deg) for p in planted.places if p.key == front) < 1e-6


def test_two_varieties_three_each_give_threefold_symmetry() -> None:
    """Three and three alternate: a third of a turn brings each variety onto itself."""
    parts = (Part("a", "trailing", 3, 0.08, 0.08), Part("b", "trailing", 3, 0.08, 0.08), GRASS)
    places = layout(Recipe(parts), LARGE, 0.5).places
    for key in "ab":
        angles = sorted(p.angle_deg for p in places if p.key == key)
        assert [angles[1] - angles[0], angles[2] - angles[1]] == pytest.approx([120.0, 120.0])


@given(st.integers(1, 12), st.integers(1, 12))
def test_two_varieties_mix_evenly(a: int, b: int) -> None:
    """Round the ring, gaps between plants of one variety differ by one place at most."""
    order = alternate([("a", a), ("b", b)])
    assert Counter(order) == {"a": a, "b": b}
    for kind in "ab":
        at = [i for i, k in enumerate(order) if k == kind]
        gaps = [(q - p) % len(order) or len(order) for p, q in zip(at, [*at[1:], at[0]], strict=True)]
        assert max(gaps) - min(gaps) <= 1


def test_turning_and_sharing_out() -> None:
    """Turning keeps the order round the ring; sharing out adds up; nonsense is refused."""
    assert turned("abcd", "c", 1) == ["b", "c", "d", "a"]
    assert turned("ab", "z") == ["a", "b"]
    assert share_out(10, [1, 1, 1]) == [4, 3, 3]
    with pytest.raises(ValueError, match="expected"):
        share_out(3, [0.0, 0.0])


def test_what_cannot_be_is_told() -> None:
    """No plants, 500 plants, a front that is not there or cannot be, too deep, too many: each told by its code."""
    assert codes(layout(Recipe(()), LARGE, 0.5)) == ["plant-count"]
    assert codes(layout(Recipe((Part("x", "mounding", 500, 0.08, 0.08),)), LARGE, 0.5)) == ["plant-count"]
    assert codes(layout(Recipe((GRASS, GERANIUM), front="rose"), LARGE, 0.5)) == ["front"]
    assert codes(layout(Recipe((GRASS, GERANIUM), front="grass"), LARGE, 0.5)) == ["front"]
    assert codes(layout(ELEVEN, LARGE, 0.2)) == ["ball-depth"]
    assert "ball-overlap" in codes(layout(Recipe((GRASS, Part("x", "mounding", 60, 0.1, 0.1))), RoundMouth(0.3), 0.5))


def test_mistakes_of_the_caller_are_refused() -> None:
    """A role, view, size or depth that cannot be is refused."""
    for wrong in (
        lambda: Part("x", "filler", 1, 0.1, 0.1),
        lambda: Part("x", "upright", 1, 0.0, 0.1),
        lambda: Recipe((), view="sideways"),
        lambda: RoundMouth(0.0),
        lambda: RectangularMouth(1.0, -1.0),
        lambda: layout(ELEVEN, LARGE, 0.0),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()


@given(mouths, st.floats(0.0, 0.3), st.floats(-3.0, 3.0))
def test_a_ring_keeps_its_distance_from_the_rim(mouth: Mouth, inset: float, along: float) -> None:
    """Every point of a ring lies as far within the rim as asked, and the ring closes."""
    if mouth.ring_m(inset) > 0:
        assert mouth.to_rim_m(mouth.at(inset, along)) == pytest.approx(inset, abs=1e-9)
        assert mouth.at(inset, along + mouth.ring_m(inset)) == pytest.approx(mouth.at(inset, along), abs=1e-9)
        assert mouth.at(inset, 0.0) == pytest.approx((0.0, inset - mouth.half_depth_m), abs=1e-9)


@given(recipes, mouths)
def test_build_order_never_makes_one_dig(recipe: Recipe, mouth: Mouth) -> None:
    """The tube is laid after every plant inside its loop and before every plant outside it; steps follow each other."""
    planted = layout(recipe, mouth, 0.5)
    steps = build_order(planted)
    tube = next(step.number for step in steps if "tube" in step.what and step.what.startswith("Lay"))
    set_before = sum(
        int(n) for s in steps[: tube - 1] for n in s.what.split() if s.what.startswith("Set ") and n.isdigit()
    )
    inset = planted.loop.inset_m if planted.loop else -1.0
    assert set_before == sum(p.to_rim_m > inset for p in planted.places)
    assert all(max(step.after, default=0) < step.number and step.why for step in steps)
