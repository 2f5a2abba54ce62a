"""Cover and growth in degree-days: laws of the logistic curve, worked values, trims, frost."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.canopy import cover_of_round_mouth
from brimful.domains.planting.cover import (
    degree_days_to,
    grown_cover,
    hurry,
    initial_cover,
    rate_from_weeks,
)
from brimful.domains.planting.growth import Habitus, Stand, base_temperature_c, circles_on, grow, habitus_of
from brimful.domains.planting.layout import layout
from brimful.domains.planting.mouth import RoundMouth
from brimful.domains.planting.recipe import Part, Recipe

from .taxa import taxa

covers = st.floats(0.001, 0.999)
rates = st.floats(1e-4, 0.05)
heat = st.floats(0.0, 2000.0)
K = 0.00656


@given(covers, rates, heat, heat)
def test_growth_in_two_steps_is_growth_in_one(cover: float, rate: float, one: float, two: float) -> None:
    """Cover grown in two stretches of warmth equals cover grown in both at once, and never leaves 0 to 1."""
    both = grown_cover(cover, rate, one + two)
    assert grown_cover(grown_cover(cover, rate, one), rate, two) == pytest.approx(both, abs=1e-9)
    assert cover - 1e-12 <= both <= 1.0


@given(covers, rates, covers)
def test_degree_days_turn_the_curve_round(cover: float, rate: float, goal: float) -> None:
    """After the degree-days told, cover is at its goal."""
    need = degree_days_to(cover, rate, goal)
    assert grown_cover(cover, rate, need) == pytest.approx(max(goal, cover), abs=1e-9)


@given(st.floats(0.001, 0.89), st.floats(1.0, 30.0), st.floats(-2.0, 15.0))
def test_weeks_to_fill_are_kept(cover: float, weeks: float, base: float) -> None:
    """At 20 °C a plant fills nine tenths in the weeks its grower tells."""
    rate = rate_from_weeks(cover, weeks, base)
    assert grown_cover(cover, rate, 7 * weeks * (20 - base)) == pytest.approx(0.9, abs=1e-9)


@pytest.mark.parametrize(
    ("cover", "need", "at_20", "at_15"),
    [
        (0.10, 670, 51.5, 83.7),
        (0.15, 599, 46.1, 74.9),
        (0.20, 546, 42.0, 68.3),
        (0.30, 464, 35.7, 58.0),
        (0.40, 397, 30.5, 49.6),
        (0.50, 335, 25.8, 41.9),
    ],
)
def test_degree_days_to_nine_tenths(cover: float, need: float, at_20: float, at_15: float) -> None:
    """Degree-days and days to nine tenths by initial cover, base 7 °C, six weeks from 0.20 (calculated by hand)."""
    rate = rate_from_weeks(0.20, 6, 7.0)
    found = degree_days_to(cover, rate)
    assert found == pytest.approx(need, abs=0.5)
    assert (found / 13, found / 8) == pytest.approx((at_20, at_15), abs=0.06)


def test_lettuce_curve() -> None:
    """Fast growth of lettuce lasts from day 5.6 to 26.2 (Li et al. 2022, Agronomy 12:860, read): k 0.128 a day.

    The fast phase of a logistic lies between its points of greatest bend, at cover (3 ∓ √3)/6.
    """
    low, high = (3 - math.sqrt(3)) / 6, (3 + math.sqrt(3)) / 6
    assert degree_days_to(low, 0.128, high) == pytest.approx(26.2 - 5.6, abs=0.1)


def test_initial_cover_and_hurry() -> None:
    """Twice the plants reach nine tenths at 30 instead of 42 days (calculated), for twice the bill."""
    assert initial_cover(13, 0.14, math.pi * 0.61**2 / 4) == pytest.approx(13 * (0.14 / 0.61) ** 2)
    early = hurry(0.20, K, factor=2.0, warmth_c=13.0, ball_share=0.058)
    assert early.days_sooner == pytest.approx(42.0 - 30.5, abs=0.1)
    assert (early.plants_factor, early.root_ball_share) == (2.0, pytest.approx(0.116))


@pytest.mark.parametrize("key", sorted(taxa()))
def test_every_taxon_grows_from_its_pot_to_its_size(key: str) -> None:
    """Each taxon widens and rises day by day within its table's bounds, and dies at its damaging temperature only."""
    taxon = taxa()[key]
    stands = grow(habitus_of(taxon, 0.14), [20.0] * 200, [12.0] * 199 + [taxon.min_temp_damage_c])
    if taxon.min_temp_damage_c < 12.0:
        living = stands[:-1]
        steps = pairwise(living)
        assert all(a.radius_m <= b.radius_m + 1e-12 and a.height_m <= b.height_m + 1e-12 for a, b in steps)
        assert 0.0 < living[-1].radius_m <= taxon.spread_m() / 2 + 1e-12
        assert 0.0 < living[-1].height_m <= taxon.height_m() + 1e-12
    assert stands[-1] == Stand(0.0, 0.0, alive=False)


def test_a_plant_fills_its_spacing_in_its_weeks() -> None:
    """Calibrachoa covers nine tenths of its square of spacing after its five weeks at 20 °C."""
    taxon = taxa()["calibrachoa-trailing"]
    last = grow(habitus_of(taxon, 0.14), [20.0] * 35, [10.0] * 35)[-1]
    assert math.pi * last.radius_m**2 == pytest.approx(0.9 * taxon.usual_spacing_m**2, rel=1e-9)


def test_trims_cold_and_frost() -> None:
    """A hard trim takes its share of ground at once; under the base nothing grows; a killed plant stays dead."""
    habitus = Habitus(0.14, 0.5, 0.008, 0.1, 0.3, 0.006, 7.0, -2.0)
    cut = grow(habitus, [5.0] * 3, [3.0] * 3, {1: 0.58})
    assert cut[1] == cut[0]
    assert (cut[2].radius_m / cut[0].radius_m) ** 2 == pytest.approx(0.58)
    assert [s.alive for s in grow(habitus, [10.0] * 3, [3.0, -2.0, 3.0])] == [True, True, False, False]


def test_heat_beyond_the_optimum_adds_nothing() -> None:
    """Days of 26 °C and of 35 °C bring the same growth."""
    habitus = habitus_of(taxa()["geranium-zonal"], 0.14)
    assert grow(habitus, [26.0] * 20, [15.0] * 20) == grow(habitus, [35.0] * 20, [15.0] * 20)


def test_gaps_close_over_the_weeks() -> None:
    """In a container of eleven the bare share of the mouth falls week by week and overhang grows."""
    recipe = Recipe(
        (
            Part("purple-fountain-grass", "upright", 1, 0.165, 0.18),
            Part("geranium-zonal", "mounding", 4, 0.083, 0.083),
            Part("calibrachoa-trailing", "trailing", 6, 0.083, 0.083),
        )
    )
    known = {part.key: taxa()[part.key] for part in recipe.parts}
    days = {key: grow(habitus_of(taxon, 0.14), [20.0] * 84, [12.0] * 84) for key, taxon in known.items()}
    places = layout(recipe, RoundMouth(0.70), 0.5).places
    covers = [
        cover_of_round_mouth(circles_on(places, {key: stands[day] for key, stands in days.items()}), 0.70)
        for day in range(0, 85, 14)
    ]
    open_weeks = [(a, b) for a, b in pairwise(covers) if a.gap_share > 1e-9]
    assert len(open_weeks) >= 2
    assert all(a.gap_share > b.gap_share and a.overhang_m2 <= b.overhang_m2 for a, b in open_weeks)
    assert covers[0].gap_share > 0.4 > covers[-1].gap_share


def test_base_temperatures_follow_the_class_limits() -> None:
    """Pansies grow below 4 °C, celosia and vinca not below 8 °C (extension text, read)."""
    by_genus = {t.genus: base_temperature_c(t) for t in taxa().values()}
    assert by_genus["Viola"] <= 4.0
    assert by_genus["Celosia"] >= 8.0
    assert by_genus["Catharanthus"] >= 8.0


def test_mistakes_are_refused() -> None:
    """Shares, widths, weeks and records that cannot be are refused."""
    taxon = taxa()["geranium-zonal"]
    for wrong in (
        lambda: grown_cover(1.2, K, 10.0),
        lambda: degree_days_to(0.0, K),
        lambda: rate_from_weeks(0.2, 0.0, 7.0),
        lambda: rate_from_weeks(0.2, 6.0, 20.0),
        lambda: initial_cover(3, 0.0, 1.0),
        lambda: hurry(0.2, K, factor=0.5, warmth_c=10.0, ball_share=0.1),
        lambda: habitus_of(taxon, 0.0),
        lambda: grow(habitus_of(taxon, 0.1), [20.0], []),
        lambda: grow(habitus_of(taxon, 0.1), [20.0], [10.0], {0: 1.5}),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
