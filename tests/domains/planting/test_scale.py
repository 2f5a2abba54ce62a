"""Counts by area and lattice; recipes for larger and smaller containers."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.density import (
    four_inch_worth,
    plants_by_area,
    plants_on_lattice,
    proportion,
)
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.scale import scale_recipe

INCH = 0.0254
REFERENCE = math.pi * (24 * INCH) ** 2 / 4
areas = st.floats(0.02, 2.0)


def recipe(up: int, mound: int, trail: int, second: int = 0) -> Recipe:
    """A recipe with these counts."""
    return Recipe(
        (
            Part("up", "upright", up, 0.16, 0.18),
            Part("mound", "mounding", mound, 0.08, 0.08),
            Part("trail", "trailing", trail, 0.08, 0.08),
            Part("second", "trailing", second, 0.08, 0.08),
        )
    )


recipes = st.builds(recipe, st.integers(0, 3), st.integers(0, 9), st.integers(0, 9), st.integers(0, 9)).filter(
    lambda r: r.total > 0
)


@pytest.mark.parametrize(
    ("diameter", "spacing", "inset", "square", "staggered"),
    [
        (0.60, 0.20, 0.0, 7.07, 8.16),
        (0.60, 0.20, 0.05, 4.91, 5.67),
        (0.60, 0.15, 0.0, 12.57, 14.51),
        (0.90, 0.20, 0.0, 15.90, 18.36),
    ],
)
def test_lattice_counts(diameter: float, spacing: float, inset: float, square: float, staggered: float) -> None:
    """Plants on a square and a staggered lattice in a round mouth (calculated by hand)."""
    assert plants_on_lattice(diameter, spacing, inset_m=inset) == pytest.approx(square, abs=5e-3)
    assert plants_on_lattice(diameter, spacing, inset_m=inset, staggered=True) == pytest.approx(staggered, abs=5e-3)


@given(recipes)
def test_the_same_area_keeps_the_recipe(given_recipe: Recipe) -> None:
    """Scaling to its own container changes nothing."""
    assert scale_recipe(given_recipe, 0.3, 0.3, to_width_m=0.6).recipe == given_recipe


@given(recipes, areas)
def test_scaling_keeps_near_the_area(given_recipe: Recipe, area: float) -> None:
    """The total stays within one plant a layer of the area rule, plus what a fixed number of uprights takes up."""
    scaled = scale_recipe(given_recipe, 0.3, area, to_width_m=math.sqrt(area)).recipe
    uprights = sum(p.count for p in scaled.layer("upright"))
    assert abs(scaled.total - given_recipe.total * area / 0.3) <= 3.0 + uprights
    assert scaled.total >= 1 or given_recipe.total * area / 0.3 < 1.5


@given(recipes, areas, st.floats(1.0, 3.0))
def test_a_larger_container_never_has_fewer_of_a_layer(given_recipe: Recipe, area: float, more: float) -> None:
    """With as many uprights, no layer shrinks as the container grows."""
    small, large = (scale_recipe(given_recipe, 0.3, a, to_width_m=0.6).recipe for a in (area, area * more))
    if sum(p.count for p in small.layer("upright")) == sum(p.count for p in large.layer("upright")):
        for role in ("mounding", "trailing"):
            before, after = (sum(p.count for p in r.layer(role)) for r in (small, large))
            assert after >= before or (before == 1 and role == "trailing")


@given(recipes, areas)
def test_odd_stays_odd_and_even_stays_even(given_recipe: Recipe, area: float) -> None:
    """A layer of three plants or more keeps its kind of number."""
    scaled = scale_recipe(given_recipe, 0.3, area, to_width_m=0.6).recipe
    for role in ("mounding", "trailing"):
        before, after = (sum(p.count for p in r.layer(role)) for r in (given_recipe, scaled))
        assert after < 2 or before % 2 == after % 2


def test_at_14_in_the_upright_is_dropped() -> None:
    """From 24 in to 14 in the upright goes, with its reason; to 16 in it stays; at 36 in there are three."""
    uprights = {}
    for inches in (14, 16, 36):
        width = inches * INCH
        scaled = scale_recipe(recipe(1, 4, 6), REFERENCE, math.pi * width**2 / 4, to_width_m=width)
        uprights[inches] = sum(p.count for p in scaled.recipe.layer("upright"))
        assert len(scaled.reasons) == (1 if inches == 16 else 2)
    assert uprights == {14: 0, 16: 1, 36: 3}


def test_small_containers_keep_one_variety_and_the_edge() -> None:
    """Where plants are too few for two varieties the second goes; last of all remains a trailing plant."""
    tiny = scale_recipe(recipe(1, 4, 3, 3), REFERENCE, REFERENCE / 12, to_width_m=0.18).recipe
    assert [(p.key, p.count) for p in tiny.parts] == [("trail", 1)]


def test_a_dropped_front_is_told() -> None:
    """A front plant that falls away is no longer asked for, and the reasons say so."""
    whole = Recipe(recipe(1, 4, 3, 3).parts, front="second")
    scaled = scale_recipe(whole, REFERENCE, REFERENCE / 12, to_width_m=0.18)
    assert scaled.recipe.front is None
    assert "second" in scaled.reasons[-1]


def test_worth_of_trade_sizes() -> None:
    """One 6-inch is 2 four-inch or 4 pack plants, one gallon 3 four-inch (common practice, no source)."""
    assert four_inch_worth(1.75) == 2 * four_inch_worth(0.473) == 4 * four_inch_worth(0.147)
    assert four_inch_worth(2.84) == 3 * four_inch_worth(0.473)


def test_proportion_by_height_and_of_bowls() -> None:
    """A 60 cm container aims at 90 cm of plant, 60 to 120 cm (garden sources, read); a low bowl goes by its width."""
    upright = proportion(1.3, 0.6, 0.6)
    assert (upright.least_m, upright.aimed_m, upright.most_m, upright.fits) == (0.6, pytest.approx(0.9), 1.2, False)
    assert proportion(0.9, 0.2, 0.9).ratio == pytest.approx(1.0)


def test_mistakes_are_refused() -> None:
    """Areas, sizes and spacings that cannot be are refused."""
    for wrong in (
        lambda: plants_by_area(0.0),
        lambda: plants_on_lattice(0.6, 0.0),
        lambda: plants_on_lattice(0.6, 0.2, inset_m=0.3),
        lambda: four_inch_worth(0.0),
        lambda: proportion(0.0, 1.0, 1.0),
        lambda: scale_recipe(recipe(1, 1, 1), 0.0, 1.0, to_width_m=1.0),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
