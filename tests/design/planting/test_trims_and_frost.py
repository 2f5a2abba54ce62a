"""Growth as it is shown: cut back on its days, ended by frost; water is reckoned for plants left alone."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.design.planting.test_planting_of_plans import desk_of

from brimful.catalog import load
from brimful.design.climate import Warmth
from brimful.design.growing import grown_of
from brimful.design.ledger import Ledger
from brimful.design.planting.desk import PlantingDesk
from brimful.domains.planting.bloom import trim_days
from brimful.domains.planting.growth import HARD_TRIM_KEEPS

PLANTED = date(2024, 5, 15)
WARMTH = Warmth((20.0,) * 150, "days of 20 °C", (PLANTED - date(2023, 12, 31)).days)
TRIMMED, SELF_SHAPING, HARDY = "petunia-trailing", "geranium-zonal", "viola"


def desk() -> PlantingDesk:
    """One container with a plant that is cut back hard, one that is not, and a hardy one."""
    return desk_of(f'1 {TRIMMED}", "1 {SELF_SHAPING}", "1 caladium", "1 {HARDY}')


def test_a_hard_trim_takes_its_share_on_its_day() -> None:
    """From 15 July to the next day a petunia keeps 0.58 of its ground; plants that are not trimmed never shrink."""
    (grown,) = grown_of(desk().settled.rows, WARMTH, Ledger())
    day = (date(2024, 7, 15) - PLANTED).days
    before, after = (grown.shown[TRIMMED][n].radius_m for n in (day, day + 1))
    assert HARD_TRIM_KEEPS <= (after / before) ** 2 < HARD_TRIM_KEEPS + 0.05
    assert grown.shown[SELF_SHAPING] == grown.stands[SELF_SHAPING]


def test_water_is_reckoned_for_plants_left_alone() -> None:
    """On no day are plants shown larger than those that water is reckoned for, cut back or frozen as they may be."""
    (grown,) = grown_of(desk().settled.rows, replace(WARMTH, frost_after_days=140), Ledger())
    for key, shown in grown.shown.items():
        alone = grown.stands[key]
        assert all(one.alive for one in alone)
        assert all(a.radius_m <= b.radius_m + 1e-12 for a, b in zip(shown, alone, strict=True))


def test_frost_ends_what_it_harms() -> None:
    """After the frost of day 140 what frost harms is gone and what is hardier stands; without a frost all stand."""
    (frosted,) = grown_of(desk().settled.rows, replace(WARMTH, frost_after_days=140), Ledger())
    (spared,) = grown_of(desk().settled.rows, WARMTH, Ledger())
    assert [frosted.shown[key][140].alive for key in ("caladium", HARDY)] == [True, True]
    assert [frosted.shown[key][141].alive for key in ("caladium", HARDY)] == [False, True]
    assert all(stands[-1].alive for stands in spared.shown.values())
    assert len(frosted.circles(145, shown=True)) < len(frosted.circles(145))


@given(st.dates(date(2024, 1, 1), date(2030, 12, 31)), st.integers(0, 300), st.booleans())
def test_trims_fall_after_the_first_weeks_and_within_the_stand(planted: date, days: int, southern: bool) -> None:
    """No trim in the first four weeks or after the end; hard ones on 15 July and 25 August, half a year on in the
    south; a longer stand has all trims of a shorter."""
    for trim in ("light", "hard", "none"):
        found = trim_days(trim, planted, days, southern=southern)
        assert list(found) == sorted(found)
        assert all(28 <= n < days for n in found)
        assert trim_days(trim, planted, days + 30, southern=southern)[: len(found)] == found
    when = {planted + timedelta(days=n) for n in trim_days("hard", planted, days, southern=southern)}
    assert {(day.month, day.day) for day in when} <= ({(1, 15), (2, 25)} if southern else {(7, 15), (8, 25)})


@pytest.mark.parametrize("key", ["angelonia", "cyclamen-hardy", "sweet-potato-vine"])
def test_months_of_bloom_in_the_south(key: str) -> None:
    """Half a year later, and back again after another half; foliage plants are as they were."""
    plant = load().plants[key]
    south = plant.in_south()
    assert south.in_south() == plant
    if plant.bloom_start_month is not None:
        assert south.bloom_start_month is not None
        assert (south.bloom_start_month - plant.bloom_start_month) % 12 == 6
