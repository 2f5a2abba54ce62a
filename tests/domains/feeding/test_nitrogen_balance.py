"""Coated feed, the nitrogen balance and the feed plan: laws."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.feeding.coated import coated_dose, longevity_days, refeed_day, released_fractions
from brimful.domains.feeding.injector import Ratio
from brimful.domains.feeding.nitrogen import WeekIn, nitrogen_balance, nitrogen_demand_g, nitrogen_to_feed_g
from brimful.domains.feeding.schedule import Feeding, drench_ppm, feed_plan, tank_fill

AMOUNT = st.floats(0, 50)
WEEK = st.builds(WeekIn, AMOUNT, AMOUNT, AMOUNT, st.floats(0, 200), st.floats(1, 200))
WEEKS = st.lists(WEEK, min_size=1, max_size=20)
TEMPERATURES = st.lists(st.floats(0, 40), min_size=1, max_size=200)


@given(TEMPERATURES, st.floats(20, 300), st.floats(1, 3))
def test_release_never_falls_nor_passes_the_whole(days: list[float], rated: float, ratio: float) -> None:
    """Released shares never fall, lie in 0 to 1, and come sooner in warmer mix."""
    shares = released_fractions(days, rated, ratio=ratio)
    warmer = released_fractions([day + 5 for day in days], rated, ratio=ratio)
    assert list(shares) == sorted(shares)
    assert shares[0] > 0
    assert shares[-1] <= 1
    assert all(warm >= cool for warm, cool in zip(warmer, shares, strict=True))


@given(st.integers(20, 300), st.floats(0, 40), st.floats(1, 3))
def test_steady_mix_lasts_the_rated_life(rated: int, reference: float, ratio: float) -> None:
    """At the bag's own temperature all is out on the last rated day, and 10 °C more divides the life by Q."""
    shares = released_fractions([reference] * rated, rated, reference_c=reference, ratio=ratio)
    assert shares[-1] == pytest.approx(1.0)
    warm = longevity_days(rated, reference + 10, reference_c=reference, ratio=ratio)
    assert warm * ratio == pytest.approx(rated)


def test_refeed_comes_on_the_first_day_past_the_mark() -> None:
    """Seven tenths of a 100-day coating at its reference are out on day 70; a short season never gets there."""
    shares = released_fractions([21.1] * 100, 100)
    assert refeed_day(shares) in (70, 71)
    assert refeed_day(shares[:50]) is None


@given(st.floats(1, 200), st.floats(0.5, 10), st.floats(5, 40), st.floats(0.05, 2), st.floats(5, 50))
def test_dose_obeys_both_rules(layer: float, rate: float, percent: float, surface: float, cap: float) -> None:
    """A coated dose never passes the volume rate nor the surface cap, and meets one of them."""
    dose = coated_dose(layer, rate, nitrogen_percent=percent, surface_m2=surface, cap_n_g_m2=cap)
    assert dose.mass_g <= layer * rate * (1 + 1e-12)
    assert dose.mass_g * percent / 100 <= cap * surface * (1 + 1e-12)
    assert dose.mass_g == (dose.by_surface_g if dose.capped else dose.by_volume_g)


@given(AMOUNT, WEEKS)
def test_nitrogen_is_neither_made_nor_lost(start: float, weeks: list[WeekIn]) -> None:
    """Start + released + fed = taken up + drained + left, over any run of weeks."""
    balance = nitrogen_balance(start, weeks)
    came = start + sum(week.released_g + week.fed_g for week in weeks)
    went = sum(week.taken_up_g + week.drained_g for week in balance) + balance[-1].stored_g
    assert went == pytest.approx(came)
    assert all(min(week.taken_up_g, week.drained_g, week.stored_g, week.short_g) >= 0 for week in balance)


@given(AMOUNT, WEEK)
def test_more_draining_leaves_less(start: float, week: WeekIn) -> None:
    """Nothing drains out of a week without drainage; more drained water takes more nitrogen."""
    dry = WeekIn(week.released_g, week.fed_g, week.demand_g, 0, week.held_l)
    wet = WeekIn(week.released_g, week.fed_g, week.demand_g, week.drained_l + 1, week.held_l)
    none, some, more = (nitrogen_balance(start, [one])[0].drained_g for one in (dry, week, wet))
    assert none == 0 <= some <= more


@given(AMOUNT, WEEKS, st.floats(0, 200))
def test_feeding_what_is_asked_meets_the_floor(start: float, weeks: list[WeekIn], floor: float) -> None:
    """With no upper bound, the asked extra leaves no plant short and every week at the floor or above."""
    extra = nitrogen_to_feed_g(start, weeks, floor_ppm=floor, most_g=1e300)
    fed = [
        WeekIn(week.released_g, week.fed_g + more, week.demand_g, week.drained_l, week.held_l)
        for week, more in zip(weeks, extra, strict=True)
    ]
    for week, more in zip(nitrogen_balance(start, fed), extra, strict=True):
        assert week.short_g == pytest.approx(0, abs=1e-9)
        assert week.solution_ppm >= floor * (1 - 1e-9) - 1e-9
        if more > 1e-9:
            assert week.solution_ppm == pytest.approx(floor, rel=1e-6, abs=1e-6)


def test_the_most_a_watering_carries_holds_the_feed_down() -> None:
    """A bound on one week's feed is kept even where more is wanted."""
    hungry = WeekIn(0, 0, 10, 0, 50)
    assert nitrogen_to_feed_g(0, [hungry, hungry], floor_ppm=0, most_g=3) == (3, 3)


def test_drained_share_is_of_what_came_in() -> None:
    """The drained share is 0 where nothing came in, and less than all of a week's feed that was kept."""
    nothing, fed = nitrogen_balance(0, [WeekIn(0, 0, 0, 5, 50), WeekIn(0, 2, 0, 5, 50)])
    assert nothing.drained_share == 0
    assert 0 < fed.drained_share < 0.1


def test_demand_follows_the_water_used() -> None:
    """Twice the water used wants twice the nitrogen."""
    assert nitrogen_demand_g(20) == 2 * nitrogen_demand_g(10) > 0


@given(st.integers(0, 50), st.floats(0, 30), st.floats(10, 400), st.floats(5, 40), st.floats(1, 300))
def test_tank_holds_the_nitrogen_that_arrives(
    containers: int, litres: float, ppm: float, percent: float, ratio: float
) -> None:
    """Nitrogen weighed out is nitrogen that arrives, and the stock holds exactly the feed weighed."""
    fill = tank_fill(Feeding("a", 1, containers, litres, ppm), percent, ratio=ratio, convention=Ratio.TO_WATER)
    assert fill.feed_g * percent / 100 == pytest.approx(containers * fill.nitrogen_g_each)
    assert fill.stock_l * fill.stock_strength_g_l == pytest.approx(fill.feed_g)


def test_weekly_drench_of_a_season() -> None:
    """200 ppm in 10 L weekly for 22 weeks is 44 g N in one container (calculated)."""
    feedings = [Feeding("drive", week, 1, 10, 200) for week in range(22, 0, -1)]
    plan = feed_plan(feedings, 20, ratio=100, convention=Ratio.OF_FINAL)
    assert sum(fill.nitrogen_g_each for fill in plan) == pytest.approx(44.0)
    assert [fill.week for fill in plan] == list(range(1, 23))
    assert drench_ppm(2.0, 10) == pytest.approx(200)


@pytest.mark.parametrize(
    "call",
    [
        lambda: WeekIn(0, 0, 0, 0, 0),
        lambda: nitrogen_balance(-1, []),
        lambda: nitrogen_to_feed_g(0, [], floor_ppm=-1, most_g=0),
        lambda: nitrogen_demand_g(-1),
        lambda: longevity_days(0, 20),
        lambda: coated_dose(0, 1, nitrogen_percent=16, surface_m2=1, cap_n_g_m2=20),
        lambda: tank_fill(Feeding("a", 1, -1, 1, 100), 20, ratio=100, convention=Ratio.OF_FINAL),
        lambda: drench_ppm(1, 0),
    ],
)
def test_amounts_that_cannot_be_are_refused(call: Callable[[], object]) -> None:
    """Amounts below what can be are refused with a ValueError."""
    with pytest.raises(ValueError, match=r"expected|needs"):
        call()
