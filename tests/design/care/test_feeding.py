"""Feeding through the whole plan: printed strengths come out, mass is conserved, impossible feed is a finding."""

import pytest
from tests.design.care.desks import codes, made
from tests.design.plans import EXAMPLES, FIXED, text_of


def fed(feed: str) -> str:
    """The fixed plan with a feed table."""
    return f"{FIXED}[feed]\n{feed}\n"


@pytest.mark.parametrize(
    ("label", "ppm", "ratio", "ounces", "source"),
    [
        ("20-10-20", 200, 100, 13.5, "University of Massachusetts Extension (2011), read"),
        ("15-5-15", 200, 100, 18.0, "label chart in a grower supplier's newsletter, read"),
        ("15-5-15", 100, 100, 9.0, "label chart in a grower supplier's newsletter, read"),
        ("20-10-20", 200, 200, 26.66, "grower page, read"),
    ],
)
def test_printed_stock_strengths(label: str, ppm: int, ratio: int, ounces: float, source: str) -> None:
    """The stock in ounces a gallon as charts print it; they round to half ounces, so 2 %."""
    feed = made(fed(f'label = "{label}"\nppm = {ppm}\ninjector = "1:{ratio}"\ncounts = "final"')).feed
    assert feed is not None
    assert feed.soluble is not None
    assert feed.soluble.stock_oz_gal == pytest.approx(ounces, rel=0.02), source
    assert feed.soluble.made_up_n_ppm == pytest.approx(ppm)


def test_the_two_conventions_differ_by_one_part() -> None:
    """1:15 to water needs 16/15 of the stock strength of 1:15 of final."""
    final, water = (made(fed(f'ppm = 100\ninjector = "1:15"\ncounts = "{c}"')).feed for c in ("final", "water"))
    assert final is not None
    assert water is not None
    assert final.soluble is not None
    assert water.soluble is not None
    assert water.soluble.stock_g_l / final.soluble.stock_g_l == pytest.approx(16 / 15)


@pytest.mark.parametrize("name", EXAMPLES)
def test_nitrogen_is_conserved_week_by_week(name: str) -> None:
    """What was there and came in is taken up, drained or still there."""
    feed = made(text_of(name)).feed
    assert feed is not None
    for one in feed.nitrogen:
        stored = 0.0
        for week in one.weeks:
            came = stored + week.released_g + week.fed_g
            assert came == pytest.approx(week.taken_up_g + week.drained_g + week.stored_g)
            assert week.taken_up_g <= week.demand_g + 1e-12
            stored = week.stored_g


@pytest.mark.parametrize("name", EXAMPLES)
def test_tank_and_order_agree(name: str) -> None:
    """The soluble feed in the order is the sum of all tanks; stock carries the feed that was weighed."""
    care = made(text_of(name))
    assert care.feed is not None
    assert care.feed.soluble is not None
    assert care.order is not None
    kilograms = sum(tank.feed_g for tank in care.feed.tanks) / 1000
    item = next(i for i in care.order.items if i.key == care.feed.soluble.key)
    assert item.needed_amount == pytest.approx(kilograms)
    for tank in care.feed.tanks:
        assert tank.stock_l * care.feed.soluble.stock_g_l == pytest.approx(tank.feed_g)
        assert tank.nitrogen_each_g * tank.containers_count == pytest.approx(tank.feed_g * 0.2)


def test_ec_stands_only_where_the_water_is_known() -> None:
    """Water of 0.3 mS/cm with 200 ppm of 15-5-15 reads 1.78 (0.74 a 100 ppm: label chart in a newsletter, read)."""
    plain, known = (made(fed(f'label = "15-5-15"\nppm = 200\n{more}')).feed for more in ("", "water_ec = 0.3"))
    assert plain is not None
    assert known is not None
    assert plain.soluble is not None
    assert known.soluble is not None
    assert plain.soluble.solution_ec_ms_cm is None
    assert known.soluble.solution_ec_ms_cm == pytest.approx(1.78, abs=0.005)


def test_a_stock_that_salts_out_is_told() -> None:
    """300 ppm of 15 % N at 1:200 wants 400 g/L, twice what cold water takes."""
    text = fed('label = "15-5-15"\nppm = 300\ninjector = "1:200"')
    assert "stock-too-strong" in codes(text)


def test_no_feed_at_all() -> None:
    """A plan may want no feed; the season then has no feeding, the order no feed."""
    care = made(fed('soluble = "none"\ncoated = "none"'))
    assert care.feed is None
    assert care.season is not None
    assert not [task for task in care.season.tasks if task.key == "feed"]


def test_an_unknown_feed_is_told() -> None:
    """A feed that is not in the table is a finding with what there is."""
    assert "unknown-feed" in codes(fed('soluble = "soluble-99"'))
    assert "unknown-feed" in codes(fed('coated = "soluble-20-10-20"'))


def test_warmer_mix_lets_go_sooner() -> None:
    """Release never falls, and the dose keeps under both of its rules."""
    feed = made().feed
    assert feed is not None
    for one in feed.coated:
        assert list(one.released_weekly_share) == sorted(one.released_weekly_share)
        assert one.dose_g == pytest.approx(min(one.by_volume_g, one.by_surface_g))
