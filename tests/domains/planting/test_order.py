"""Bloom calendar, upkeep, trays and dates."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.bloom import bloom_calendar, bloom_months, upkeep_hours
from brimful.domains.planting.order import (
    CLASSES,
    first_warm_mix,
    hardiness_class,
    kind_of_good,
    order_dates,
    planting_window,
    spare_share,
    tray_order,
)

from .taxa import taxa

MAY = date(2026, 5, 18)
SEASON = [MAY + timedelta(weeks=n) for n in range(20)]


@given(st.integers(1, 12), st.integers(1, 12))
def test_bloom_runs_from_start_to_end(start: int, end: int) -> None:
    """A season has both its ends, one month after the other, over the new year where need be."""
    months = bloom_months(start, end)
    assert (months[0], months[-1]) == (start, end)
    assert all(b == a % 12 + 1 for a, b in pairwise(months))


@given(st.sampled_from(sorted(taxa())), st.dates(date(2020, 1, 1), date(2030, 1, 1)), st.integers(1, 400))
def test_bloom_calendar_keeps_to_the_season(key: str, planted: date, days: int) -> None:
    """Shares stand for the days in the ground: over all months together no more than the season, none out of bloom."""
    removed = planted + timedelta(days=days)
    calendar = bloom_calendar([taxa()[key]], planted, removed)[key]
    assert min(calendar) == planted.strftime("%Y-%m")
    assert max(calendar) == removed.strftime("%Y-%m")
    assert all(0.0 <= share <= 1.0 for share in calendar.values())
    assert 28 * sum(calendar.values()) <= days + 1
    assert sum(calendar.values()) == 0.0 or taxa()[key].flowers


def test_bloom_over_new_year() -> None:
    """Hardy cyclamen, September to March, bloom through the turn of the year and half of a month cut short by frost."""
    calendar = bloom_calendar([taxa()["cyclamen-hardy"]], date(2026, 8, 1), date(2027, 2, 14))["cyclamen-hardy"]
    assert list(calendar.values()) == [0.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.5]


def test_deadheading_fills_the_visit_as_practised() -> None:
    """A 60 cm container takes 2 to 3 minutes a week without deadheading, 5 to 8 with (common practice, no source)."""
    zinnia = next(t for t in taxa().values() if t.genus == "Zinnia" and t.deadhead == "needed")
    scaevola = taxa()["scaevola"]
    july = [date(2026, 7, 6)]
    busy = upkeep_hours([(zinnia, 9)], 60, 0.2827, july)[0]
    easy = upkeep_hours([(scaevola, 9)], 60, 0.2827, july)[0]
    assert 5.0 <= busy.visit_h + busy.deadhead_h <= 8.0
    assert 2.0 <= easy.visit_h + easy.deadhead_h <= 3.0


def test_upkeep_adds_up_over_containers_and_trims_are_spaced() -> None:
    """Twice the containers take twice the hours; light trims come every fourth week, hard ones in July and August."""
    plants = [(taxa()["calibrachoa-trailing"], 5), (taxa()["petunia-trailing"], 3)]
    one, two = (upkeep_hours(plants, n, 0.3, SEASON) for n in (1, 2))
    assert [w.total_h for w in two] == pytest.approx([2 * w.total_h for w in one])
    assert [n for n, w in enumerate(one) if "calibrachoa-trailing" in w.trimmed] == [4, 8, 12, 16]
    assert [w.week.month for w in one if "petunia-trailing" in w.trimmed] == [7, 8]


@given(st.integers(0, 10_000), st.integers(1, 100), st.floats(0.0, 0.2))
def test_trays_hold_count_and_spare(needed: int, per_tray: int, spare: float) -> None:
    """Ordered plants cover count and spare, with less than a tray too many."""
    order = tray_order(needed, per_tray, spare)
    assert order.ordered == order.trays * per_tray
    assert needed * (1 + spare) - 1e-6 <= order.ordered < needed * (1 + spare) + per_tray


def test_230_calibrachoa_are_14_trays() -> None:
    """230 plants, 5 %, 18 a tray: 241.5, so 14 trays of 252 plants, 9.6 % to spare (calculated by hand)."""
    order = tray_order(230, 18, spare_share(0.473))
    assert (order.trays, order.ordered) == (14, 252)
    assert order.spare_share == pytest.approx(0.096, abs=5e-4)
    assert tray_order(12, None, 0.0).ordered == 12


@given(st.integers(0, 3_000), st.integers(1, 100), st.floats(0.0, 0.2), st.integers(0, 4_000))
def test_plants_on_hand_save_trays(needed: int, per_tray: int, spare: float, on_hand: int) -> None:
    """With what is on hand the order covers count and spare; no tray is bought that could be left out."""
    order = tray_order(needed, per_tray, spare, on_hand)
    wanted = needed * (1 + spare)
    assert order.ordered + on_hand >= wanted - 1e-6
    assert order.trays == 0 or order.ordered - per_tray + on_hand < wanted
    assert order.trays <= tray_order(needed, per_tray, spare).trays


def test_spares_by_size_and_place() -> None:
    """5 % for 4-inch, 8 % for packs, 10 % in public squares (common practice, no source)."""
    assert (spare_share(0.473), spare_share(0.147), spare_share(2.84, public=True)) == (0.05, 0.08, 0.10)


def test_dates_count_back_from_planting() -> None:
    """Pots are ordered 14 to 8 weeks ahead, stock 6 to 4; hardening starts two weeks before planting, if at all."""
    pots, stock = order_dates(MAY, "pots from seed"), order_dates(MAY, "nursery stock")
    assert (MAY - pots.order_from, MAY - pots.order_by) == (timedelta(weeks=14), timedelta(weeks=8))
    assert (MAY - stock.order_from, MAY - stock.order_by) == (timedelta(weeks=6), timedelta(weeks=4))
    assert pots.hardening == MAY - timedelta(days=14)
    assert stock.hardening is None


def test_larger_pots_are_ordered_earlier() -> None:
    """The larger a plant is sold, the earlier it is ordered; shrubs and bulbs go their own way."""
    petunia, shrub, tulip = (taxa()[key] for key in ("petunia-trailing", "rose-shrub", "tulip"))
    kinds = [kind_of_good(petunia, litres) for litres in (0.1, 0.5, 2.8, 6.0)]
    assert kinds == ["packs and plugs", "pots from cuttings", "large pots", "baskets and tubs"]
    days = [order_dates(MAY, kind).order_by for kind in kinds]
    assert days == sorted(days, reverse=True)
    assert (kind_of_good(shrub, 0.5), kind_of_good(tulip, 0.5)) == ("nursery stock", "bulbs")


@pytest.mark.parametrize("key", sorted(taxa()))
def test_every_taxon_is_some_kind_of_good(key: str) -> None:
    """Whatever the plant and its pot, there is a lead time, and the order comes before planting day."""
    for litres in (0.07, 0.5, 3.0, 12.0):
        dates = order_dates(MAY, kind_of_good(taxa()[key], litres))
        assert dates.order_from < dates.order_by < dates.planting


@pytest.mark.parametrize(
    ("genus", "expected"),
    [("Viola", "very hardy"), ("Antirrhinum", "frost tolerant"), ("Petunia", "tender"), ("Begonia", "warm")],
)
def test_frost_classes(genus: str, expected: str) -> None:
    """A known plant of each frost class (Purdue HO-203 as copied elsewhere, read)."""
    assert expected in {hardiness_class(t) for t in taxa().values() if t.genus == genus}


def test_windows_follow_frost_and_mix() -> None:
    """Hardier classes go out earlier; a cold mix holds the tender ones back."""
    firsts = [planting_window(c, MAY).first for c in CLASSES]
    assert firsts == sorted(firsts)
    assert planting_window("warm", MAY).first - MAY == timedelta(weeks=1)
    held = planting_window("warm", MAY, MAY + timedelta(days=20))
    assert (held.first, held.held_by) == (MAY + timedelta(days=20), "mix temperature")
    assert planting_window("warm", MAY, MAY).held_by == "frost"
    assert planting_window("warm", None, MAY).first == MAY


def test_the_mix_must_hold_its_warmth() -> None:
    """Three days together at 18 °C count, a warm day between cold ones does not."""
    days = [MAY + timedelta(days=n) for n in range(6)]
    assert first_warm_mix("warm", days, [19, 15, 18, 18, 18, 20]) == days[4]
    assert first_warm_mix("warm", days, [19, 15, 18, 18, 17, 20]) is None


def test_mistakes_are_refused() -> None:
    """Months, counts, classes and dates that cannot be are refused."""
    for wrong in (
        lambda: bloom_months(0, 5),
        lambda: bloom_calendar([], MAY, MAY),
        lambda: upkeep_hours([], 1, 0.0, SEASON),
        lambda: tray_order(-1, 18, 0.05),
        lambda: tray_order(1, 18, 0.05, -1),
        lambda: spare_share(0.0),
        lambda: order_dates(MAY, "soon"),
        lambda: planting_window("mild", MAY),
        lambda: planting_window("warm", None),
        lambda: kind_of_good(taxa()["tulip"], 0.0),
        lambda: first_warm_mix("warm", [MAY], []),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
