"""Soluble feed, injectors and conductivity: laws."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.feeding import soluble
from brimful.domains.feeding.conductivity import feed_ec_ms_cm, nitrogen_ppm_from_ec
from brimful.domains.feeding.injector import (
    Ratio,
    dilution,
    stock_g_l,
    stock_volume_l,
    strength_from_stock_g_l,
    weakest_ratio,
)

PPM = st.floats(1, 1000)
PERCENT = st.floats(1, 60)
RATIO = st.floats(1, 500)
CONVENTION = st.sampled_from(Ratio)


@given(PPM, PERCENT)
def test_strength_returns_from_every_unit(ppm: float, percent: float) -> None:
    """ppm to g/L to ounces and to teaspoons and back gives the same ppm."""
    strength = soluble.feed_g_l(ppm, percent)
    ounces = soluble.ounces_per_100_gallons(strength)
    spoons = soluble.teaspoons_per_gallon(strength)
    assert soluble.nitrogen_ppm(soluble.g_l_from_ounces(ounces), percent) == pytest.approx(ppm)
    assert soluble.g_l_from_teaspoons(spoons.likely).likely == pytest.approx(strength)
    assert spoons.low < spoons.likely < spoons.high


@given(PPM, PERCENT, RATIO, CONVENTION)
def test_stock_carries_exactly_what_the_solution_needs(
    ppm: float, percent: float, ratio: float, convention: Ratio
) -> None:
    """Grams in the stock drawn equal grams in the solution delivered, whatever the convention."""
    strength = soluble.feed_g_l(ppm, percent)
    stock = stock_g_l(strength, ratio, convention)
    assert stock * stock_volume_l(250.0, ratio, convention) == pytest.approx(strength * 250.0)
    assert strength_from_stock_g_l(stock, ratio, convention) == pytest.approx(strength)


@pytest.mark.parametrize(("ratio", "percent_apart"), [(100, 1.0), (15, 6.7)])
def test_conventions_differ_most_at_strong_ratios(ratio: float, percent_apart: float) -> None:
    """The two meanings of a ratio are 1 % apart at 1:100 and 6.7 % at 1:15 (calculated)."""
    apart = dilution(ratio, Ratio.TO_WATER) / dilution(ratio, Ratio.OF_FINAL) - 1
    assert 100 * apart == pytest.approx(percent_apart, abs=0.05)


@given(st.floats(0.01, 5), CONVENTION)
def test_weakest_ratio_makes_a_stock_at_its_limit(strength: float, convention: Ratio) -> None:
    """The weakest ratio allowed makes a stock of exactly the limit."""
    ratio = weakest_ratio(strength, convention)
    assert stock_g_l(strength, ratio, convention) == pytest.approx(200.0)


@given(st.floats(0, 2), PPM, st.floats(0.1, 1))
def test_meter_reads_back_the_strength(water: float, ppm: float, rise: float) -> None:
    """Strength to conductivity and back is the same strength; plain water reads as none."""
    assert nitrogen_ppm_from_ec(feed_ec_ms_cm(water, ppm, rise), water, rise) == pytest.approx(ppm, rel=1e-6)
    assert nitrogen_ppm_from_ec(water / 2, water, rise) == 0.0


def test_a_label_that_adds_to_more_than_the_bag_is_named() -> None:
    """Impossible labels are told in words, possible ones are not."""
    assert "110" in soluble.label_fault(50, 30, 30)
    assert "below zero" in soluble.label_fault(-1, 0, 0)
    assert "below zero" in soluble.label_fault(math.nan, 0, 0)
    assert soluble.label_fault(46) == ""


def test_oxides_hold_less_than_half_phosphorus() -> None:
    """P2O5 is 43.64 % phosphorus and K2O 83.01 % potassium by atomic masses 30.974, 39.098, 15.999."""
    phosphorus, potassium = soluble.element_percents(100, 100)
    assert phosphorus == pytest.approx(100 * 2 * 30.974 / (2 * 30.974 + 5 * 15.999), abs=0.01)
    assert potassium == pytest.approx(100 * 2 * 39.098 / (2 * 39.098 + 15.999), abs=0.01)


@pytest.mark.parametrize("percent", [0, -5, 101, math.nan])
def test_impossible_nitrogen_is_refused(percent: float) -> None:
    """A nitrogen share outside the bag is a caller's mistake."""
    with pytest.raises(ValueError, match="nitrogen_percent"):
        soluble.feed_g_l(100, percent)


@pytest.mark.parametrize(
    "call",
    [
        lambda: soluble.nitrogen_ppm(-1, 20),
        lambda: soluble.teaspoons_per_gallon(1, bulk_density_g_ml=0),
        lambda: soluble.g_l_from_teaspoons(1, bulk_density_g_ml=0),
        lambda: dilution(0.5, Ratio.OF_FINAL),
        lambda: stock_g_l(-1, 100, Ratio.OF_FINAL),
        lambda: strength_from_stock_g_l(-1, 100, Ratio.OF_FINAL),
        lambda: stock_volume_l(-1, 100, Ratio.OF_FINAL),
        lambda: weakest_ratio(0, Ratio.OF_FINAL),
        lambda: feed_ec_ms_cm(-1, 100, 0.7),
        lambda: nitrogen_ppm_from_ec(1, 0, 0),
    ],
)
def test_mistakes_are_refused(call: Callable[[], object]) -> None:
    """Amounts below what can be are refused with a ValueError."""
    with pytest.raises(ValueError, match="expected"):
        call()
