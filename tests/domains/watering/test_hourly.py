"""The mix by the hour: the same account as by the week, seen more often."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.domains.watering.test_store import DAYS, each, same_daily, some_season, some_store

from brimful.domains.watering.hourly import levels_by_hour
from brimful.domains.watering.store import run_store


@settings(max_examples=20)
@given(seed=st.integers(0, 999), litres=st.floats(0, 8), demand=st.floats(0, 20))
def test_the_hours_end_and_dip_as_the_whole_does(seed: int, litres: float, demand: float) -> None:
    """The last hour is the account's end; no hour lies under its lowest; water never passes full or falls below 0."""
    store, season, starts = some_store(seed), some_season(seed, demand), same_daily((5, each(litres)))
    full = np.broadcast_to(store.capacity_l, (season.rain_mm.shape[1], store.capacity_l.size))
    levels = levels_by_hour(store, season, starts, full)
    whole = run_store(store, season, starts, start_l=full, period_days=DAYS)
    assert levels.shape == (24 * DAYS, *full.shape)
    assert levels[-1] == pytest.approx(whole.end_l[0])
    assert (levels.min(axis=0) >= whole.lowest_l[0] - 1e-9).all()
    assert (levels >= 0).all() and (levels <= store.capacity_l + 1e-9).all()


def test_without_water_no_hour_rises_and_nights_stand_still() -> None:
    """Without starts or rain the mix only dries, and only while the sun is up."""
    from dataclasses import replace

    store, season = some_store(3), some_season(3)
    dry = replace(season, rain_mm=np.zeros_like(season.rain_mm))
    full = np.broadcast_to(store.capacity_l, (season.rain_mm.shape[1], store.capacity_l.size))
    change = np.diff(levels_by_hour(store, dry, [[]] * DAYS, full), axis=0)
    by_day = change[23:].reshape(-1, 24, *full.shape)[: DAYS - 1]  # from midnight on
    assert (change <= 1e-12).all()
    assert (by_day[:, :5] == 0).all() and (by_day[:, 21:] == 0).all() and (by_day[:, 12] < 0).all()


def test_days_and_starts_must_be_as_many() -> None:
    """Fewer days of starts than of weather are refused."""
    store, season = some_store(1), some_season(1)
    with pytest.raises(ValueError, match="expected"):
        levels_by_hour(store, season, [[]], np.zeros((3, 4)))
