"""Laws of the hourly store."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.watering.levels import capture_share, depletion_share, stress_coefficient, total_available_mm
from brimful.domains.watering.season import (
    Balance,
    Season,
    Store,
    counted_rain_mm,
    daylight_shares,
    litres_per_mm,
)
from brimful.domains.watering.store import Pulse, run_store

CONTAINERS, YEARS, DAYS = 4, 3, 16


def some_store(seed: int, dry_capture: float = 0.6) -> Store:
    """A few invented containers."""
    capacity = np.random.default_rng(seed).uniform(1.0, 20.0, CONTAINERS)
    return Store(capacity, 0.6 * capacity, 0.4 * capacity, 0.5 * capacity, np.full(CONTAINERS, dry_capture))


def some_season(seed: int, demand: float = 1.0) -> Season:
    """An invented season: evaporation, a little rain, plants of different thirst."""
    draw = np.random.default_rng(seed)
    shape = (DAYS, YEARS)
    thirst = np.broadcast_to(demand * draw.uniform(0.1, 1.0, CONTAINERS), (DAYS, CONTAINERS))
    hours = daylight_shares(np.full(DAYS, 5.3), np.full(DAYS, 20.6))
    return Season(draw.uniform(1, 9, shape), thirst, draw.gamma(0.3, 4.0, shape), np.full_like(thirst, 0.2), hours)


def same_daily(*starts: Pulse) -> list[list[Pulse]]:
    """The same starts every day."""
    return [list(starts)] * DAYS


def each(litres: float) -> np.ndarray:
    """So many litres for every container."""
    return np.full(CONTAINERS, litres)


@settings(max_examples=30)
@given(seed=st.integers(0, 999), litres=st.floats(0, 8), demand=st.floats(0, 20), capture=st.floats(0, 1))
def test_the_account_closes(seed: int, litres: float, demand: float, capture: float) -> None:
    """Start + watering + rain = use + drained + shed + end, to 1e-9 of what went through, however hard it is driven."""
    balance = run_store(
        some_store(seed, capture), some_season(seed, demand), same_daily((5, each(litres)), (14, each(1.0)))
    )
    through = balance.start_l + balance.applied_l + balance.rain_l
    assert np.abs(balance.closure_l() / through).max() < 1e-9
    assert balance.lowest_l.min() >= 0.0
    assert (balance.lowest_l <= balance.end_l + 1e-12).all()
    assert (balance.used_l <= balance.wanted_l * (1 + 1e-9)).all()
    assert balance.applied_l.sum(axis=0) == pytest.approx(np.full((YEARS, CONTAINERS), DAYS * (litres + 1.0)))


@settings(max_examples=30)
@given(seed=st.integers(0, 999), litres=st.floats(0, 8), more=st.floats(0, 8), capture=st.floats(0, 1))
def test_more_minutes_never_raise_stress(seed: int, litres: float, more: float, capture: float) -> None:
    """A longer start leaves every container at least as wet at every moment, and drains at least as much."""
    store, season = some_store(seed, capture), some_season(seed)
    less = run_store(store, season, same_daily((5, each(litres))), period_days=1)
    wetter = run_store(store, season, same_daily((5, each(litres + more))), period_days=1)
    assert (wetter.lowest_l >= less.lowest_l - 1e-9).all()
    assert (wetter.used_l >= less.used_l - 1e-9).all()


@settings(max_examples=30)
@given(seed=st.integers(0, 999), demand=st.floats(0, 1), factor=st.floats(1, 2))
def test_more_demand_never_lowers_stress(seed: int, demand: float, factor: float) -> None:
    """Thirstier plants leave every container at most as wet."""
    store, pulses = some_store(seed), same_daily((5, each(1.0)))
    calm = run_store(store, some_season(seed, demand), pulses, period_days=1)
    dear = run_store(store, some_season(seed, demand * factor), pulses, period_days=1)
    assert (dear.lowest_l <= calm.lowest_l + 1e-9).all()


def test_containers_and_years_do_not_touch_each_other() -> None:
    """One container in one year gives the same alone as among thousands: blocks are only for speed."""
    many = 3000
    capacity = np.linspace(2.0, 20.0, many)
    store = Store(capacity, 0.5 * capacity, 0.4 * capacity, 0.5 * capacity, np.full(many, 0.6))
    rain, thirst = np.random.default_rng(5).gamma(0.3, 4.0, (DAYS, YEARS)), np.full((DAYS, many), 0.7)
    season = Season(np.full((DAYS, YEARS), 5.0), thirst, rain, 0.2 * thirst, np.full(24, 1 / 24))
    whole = run_store(store, season, [[(5, np.full(many, 2.0))]] * DAYS)
    one = Store(
        *(part[2345:2346] for part in (capacity, store.refill_l, store.stress_l, store.dry_l, store.dry_capture))
    )
    alone_season = Season(season.et0_mm[:, 1:2], thirst[:, :1], rain[:, 1:2], 0.2 * thirst[:, :1], season.hour_shares)
    alone = run_store(one, alone_season, [[(5, np.array([2.0]))]] * DAYS)
    assert alone.end_l[:, 0, 0] == pytest.approx(whole.end_l[:, 1, 2345])
    assert alone.drained_l[:, 0, 0] == pytest.approx(whole.drained_l[:, 1, 2345])


def test_evaporation_by_container_is_taken_as_given() -> None:
    """ET0 given for each container equals ET0 given once when all stand in the same light."""
    season = some_season(7)
    by_container = np.repeat(season.et0_mm[:, :, None], CONTAINERS, axis=2)
    wide = Season(by_container, season.litres_per_mm, season.rain_mm, season.rain_litres_per_mm, season.hour_shares)
    pulses = same_daily((6, each(1.0)))
    assert (run_store(some_store(7), wide, pulses).end_l == run_store(some_store(7), season, pulses).end_l).all()


def plain_loop(store: Store, season: Season, pulses: list[list[Pulse]], year: int, pot: int) -> float:
    """The same hour by hour, in plain words, for one container and one year."""
    water = float(store.capacity_l[pot])
    for day in range(DAYS):
        demand = season.et0_mm[day, year] * season.litres_per_mm[day, pot]
        for hour in range(24):
            gifts = (
                [season.rain_mm[day, year] * season.rain_litres_per_mm[day, pot]] if hour == season.rain_hour else []
            )
            gifts += [litres[pot] for at, litres in pulses[day] if at == hour]
            for gift in gifts:
                capture = store.dry_capture[pot] + (1 - store.dry_capture[pot]) * min(1, water / store.dry_l[pot])
                water = min(water + capture * gift, store.capacity_l[pot])
            water -= min(1.0, water / store.stress_l[pot]) * demand * season.hour_shares[day, hour]
    return water


def test_the_fast_way_equals_plain_words() -> None:
    """Every container and year ends where a plain loop over the hours ends."""
    store, season, pulses = some_store(3), some_season(3), same_daily((5, each(0.8)), (5, each(0.3)), (15, each(0.5)))
    end = run_store(store, season, pulses, period_days=DAYS).end_l[0]
    for year in range(YEARS):
        for pot in range(CONTAINERS):
            assert end[year, pot] == pytest.approx(plain_loop(store, season, pulses, year, pot), abs=1e-10)


@given(water=st.floats(0, 10), dry=st.just(0.0) | st.floats(1e-6, 10), least=st.floats(0, 1))
def test_a_drier_mix_never_catches_more(water: float, dry: float, least: float) -> None:
    """Capture lies between its dry value and all, and a wetter mix catches at least as much."""
    here = capture_share(np.array(water), np.array(dry), np.array(least))
    wetter = capture_share(np.array(water + 1.0), np.array(dry), np.array(least))
    assert least - 1e-12 <= here <= wetter + 1e-12 <= 1.0 + 1e-9
    assert capture_share(np.array(dry), np.array(dry), np.array(least)) == pytest.approx(1.0)


@given(rise=st.floats(0, 11), length=st.floats(1, 13))
def test_the_hours_share_out_the_whole_day(rise: float, length: float) -> None:
    """Shares add up to one, none at night, most around noon, alike on both sides of it."""
    shares = daylight_shares(np.array([rise]), np.array([rise + length]))[0]
    assert shares.sum() == pytest.approx(1.0)
    assert shares.min() >= 0.0
    assert shares[: int(rise)].sum() == 0.0
    symmetric = daylight_shares(np.array([6.0]), np.array([18.0]))[0]
    assert symmetric == pytest.approx(symmetric[::-1])
    assert daylight_shares(np.array([np.nan]), np.array([np.nan]))[0] == pytest.approx(np.full(24, 1 / 24))


@given(water=st.floats(0, 20), level=st.floats(0.1, 10), demand=st.floats(0, 30))
def test_stress_and_depletion_stay_inside_their_bounds(water: float, level: float, demand: float) -> None:
    """FAO-56 (read): Ks 0–1, p 0.1–0.8 and never larger on a dearer day."""
    assert 0.0 <= stress_coefficient(np.array(water), np.array(level)) <= 1.0
    assert 0.1 <= depletion_share(0.35, demand + 1.0) <= depletion_share(0.35, demand) <= 0.8


def test_demand_and_rain_by_the_day() -> None:
    """The larger of canopy and wet surface; a rain below a fifth of ET0 does not count."""
    ours = litres_per_mm(
        np.array([0.0, 1.0]), np.array(1.2), wetted_area_m2=np.array([0.5, 0.5]), evaporation_factor=0.7
    )
    assert ours == pytest.approx([0.35, 1.2])
    assert counted_rain_mm(np.array([0.9, 1.0]), np.array([5.0, 5.0])) == pytest.approx([0.0, 1.0])


def test_parts_that_do_not_fit_are_refused() -> None:
    """Levels out of order, shapes and hours that do not belong together."""
    one = np.ones(2)
    with pytest.raises(ValueError, match="out of order"):
        Store(one, 2 * one, one, one, one)
    with pytest.raises(ValueError, match="shapes"):
        Store(one, one, one, one, np.ones(3))
    good = some_season(1)
    with pytest.raises(ValueError, match="season has ET0"):
        Season(good.et0_mm[:3], good.litres_per_mm, good.rain_mm, good.rain_litres_per_mm, good.hour_shares)
    with pytest.raises(ValueError, match="add up to 1"):
        Season(good.et0_mm, good.litres_per_mm, good.rain_mm, good.rain_litres_per_mm, np.full(24, 0.1))
    with pytest.raises(ValueError, match="days of starts"):
        run_store(some_store(1), good, [[]])
    with pytest.raises(ValueError, match="one clock day"):
        daylight_shares(np.array([20.0]), np.array([5.0]))
    with pytest.raises(ValueError, match="capacity"):
        total_available_mm(0.1, 0.2, 1.0)
    assert isinstance(run_store(some_store(1), good, same_daily()), Balance)
