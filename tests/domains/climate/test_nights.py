"""Nights of a stretch of the year: laws of the coldest night, of the first cold one, and of the mean day."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from brimful.domains.climate.nights import (
    SeasonNights,
    coldest_night_c,
    first_cold_night,
    mean_by_day,
    season_nights,
)

lows = arrays(np.float64, st.tuples(st.integers(1, 8), st.just(30)), elements=st.floats(-20, 30))
DATES = np.arange(np.datetime64("2001-01-01"), np.datetime64("2006-01-01"))


@given(lows, st.floats(0, 1), st.floats(0, 1))
def test_the_coldest_night_lies_between_the_seasons(low: np.ndarray, one: float, other: float) -> None:
    """It lies between the coldest and the mildest season's coldest night, and falls as the chance falls."""
    nights = SeasonNights(low)
    at = [coldest_night_c(nights, 0, 30, chance) for chance in sorted((one, other))]
    assert low.min() <= at[0] <= at[1] + 1e-9
    assert at[1] <= low.min(axis=1).max() + 1e-9


@given(lows, st.integers(1, 29))
def test_fewer_nights_are_no_colder(low: np.ndarray, start: int) -> None:
    """The later one begins to count, the milder the coldest night."""
    nights = SeasonNights(low)
    assert coldest_night_c(nights, start, 30, 0.1) >= coldest_night_c(nights, 0, 30, 0.1) - 1e-9


@given(lows, st.floats(-25, 35), st.floats(0.01, 1.0))
def test_the_first_cold_night_splits_the_seasons(low: np.ndarray, threshold: float, share: float) -> None:
    """By that night at least the share asked for has had one, the night before fewer; None where too few ever do."""
    night = first_cold_night(SeasonNights(low), threshold, share=share)
    had = (low <= threshold).cumsum(axis=1) > 0
    if night is None:
        assert had[:, -1].mean() < share
    else:
        assert had[:, night].mean() >= share - 1e-12
        assert night == 0 or had[:, night - 1].mean() < share


def test_seasons_begin_on_their_day_over_the_new_year_too() -> None:
    """A night numbered by its date stands at its place in each season; a season cut off by the record is left out."""
    number = (DATES - DATES[0]).astype(np.float64)
    spring = season_nights(DATES, number, date(2030, 5, 15), 100)
    assert spring.seasons == 5
    starts = [np.datetime64(f"{year}-05-15") for year in range(2001, 2006)]
    assert spring.low_c[:, 0].tolist() == [float((s - DATES[0]).astype(int)) for s in starts]
    assert (np.diff(spring.low_c, axis=1) == 1).all()
    assert season_nights(DATES, number, date(2030, 11, 15), 150).seasons == 4


def test_a_season_half_unknown_is_left_out() -> None:
    """Where more than a tenth of the nights is unknown, the season does not count."""
    low = np.where(np.datetime64("2001-07-01") > DATES, np.nan, 5.0)
    assert season_nights(DATES, low, date(2030, 5, 15), 100).seasons == 4


def test_nothing_known_gives_nothing() -> None:
    """Without seasons there is no coldest night and no first one."""
    none = SeasonNights(np.empty((0, 10)))
    assert np.isnan(coldest_night_c(none, 0, 10, 0.1))
    assert first_cold_night(none, 0.0) is None


@given(st.floats(-20, 30))
def test_the_mean_of_equal_days_is_theirs(value: float) -> None:
    """A record of one value has it on every day, the 29th of February too; the mean of all days is kept."""
    day = (DATES - DATES.astype("datetime64[Y]")).astype(np.int64) + 1
    assert mean_by_day(day, np.full(DATES.size, value)) == pytest.approx(value)
    wave = np.cos(day / 365 * 2 * np.pi)
    assert mean_by_day(day, wave)[:365].mean() == pytest.approx(wave.mean(), abs=2e-3)


def test_mistakes_are_refused() -> None:
    """Stretches, chances and counts that cannot be are refused."""
    nights = SeasonNights(np.zeros((2, 10)))
    for wrong in (
        lambda: coldest_night_c(nights, 5, 5, 0.1),
        lambda: coldest_night_c(nights, 0, 10, 1.1),
        lambda: first_cold_night(nights, 0.0, share=0.0),
        lambda: season_nights(DATES, np.zeros(DATES.size), date(2030, 5, 15), 0),
    ):
        with pytest.raises(ValueError, match="expected"):
            wrong()
