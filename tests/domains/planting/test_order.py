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


def test_spares_by_size_and_place() -> None:
    """5 % for 4-inch, 8 % for packs, 10 % in public squares (common practice, no source)."""
    assert (spare_share(0.473), spare_share(0.147), spare_share(2.84, public=True)) == (0.05, 0.08, 0.10)


def test_dates_count_back_from_planting() -> None:
    """Pots are ordered 14 to 8 weeks ahead, stock 6 to 4; hardening starts two weeks before planting."""
    pots, stock = order_dates(MAY), order_dates(MAY, "stock")
    assert (MAY - pots.order_from, MAY - pots.order_by) == (timedelta(weeks=14), timedelta(weeks=8))
    assert (MAY - stock.order_from, MAY - stock.order_by) == (timedelta(weeks=6), timedelta(weeks=4))
    assert MAY - pots.hardening == timedelta(days=14)


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
        lambda: spare_share(0.0),
        lambda: order_dates(MAY, "soon"),
        lambda: planting_window("mild", MAY),
        lambda: first_warm_mix("warm", [MAY], []),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
