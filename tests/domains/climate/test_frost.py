"""Frost dates: invented winters by hand, and laws."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from brimful.domains.climate.frost import (
    FrostDates,
    first_frost_day,
    frost_dates,
    frost_free_days,
    last_frost_day,
    month_and_day,
)


def days(first: str, last: str) -> NDArray[np.datetime64]:
    """All days from first to last."""
    return np.arange(np.datetime64(first), np.datetime64(last) + 1)


def nights(dates: NDArray[np.datetime64], *cold: str) -> NDArray[np.float64]:
    """Nights of 5 °C but for those of −1 °C."""
    return np.where(np.isin(dates, np.array(cold, dtype="datetime64[D]")), -1.0, 5.0)


def test_one_year_by_hand() -> None:
    """Frosts on 3 March, 20 April, 30 October and 2 December: the last of spring and first of autumn are found."""
    year = days("2015-01-01", "2015-12-31")
    found = frost_dates(year, nights(year, "2015-03-03", "2015-04-20", "2015-10-30", "2015-12-02"))
    assert month_and_day(found.last_spring[0]) == (4, 20)
    assert month_and_day(found.first_autumn[0]) == (10, 30)
    assert list(frost_free_days(found)) == [192.0]  # 10 days of April, 153 May to September, 29 of October


def test_leap_day_moves_nothing() -> None:
    """20 April is the same day in a leap year."""
    for year in ("2015", "2016"):
        dates = days(f"{year}-01-01", f"{year}-12-31")
        assert frost_dates(dates, nights(dates, f"{year}-04-20")).last_spring[0] == 110.0


def test_year_without_frost() -> None:
    """A year without frost has no date, and counts as earlier than all springs and later than all autumns."""
    dates = days("2011-01-01", "2013-12-31")
    found = frost_dates(dates, nights(dates, "2011-04-10", "2012-04-20", "2011-11-01", "2012-11-11"))
    assert math.isnan(found.last_spring[2])
    assert month_and_day(last_frost_day(found, 0.5)) == (4, 10)
    assert month_and_day(first_frost_day(found, 0.5)) == (11, 11)
    assert math.isnan(last_frost_day(found, 0.9))
    assert math.isnan(first_frost_day(found, 0.9))


def test_southern_season_runs_from_july() -> None:
    """South of the equator the last frost of 12 October and the first of 3 May belong to one season."""
    dates = days("2014-07-01", "2015-06-30")
    found = frost_dates(dates, nights(dates, "2014-10-12", "2015-05-03"), southern=True)
    assert month_and_day(found.last_spring[0], southern=True) == (10, 12)
    assert month_and_day(found.first_autumn[0], southern=True) == (5, 3)
    assert list(frost_free_days(found)) == [202.0]  # 19 + 30 + 31 + 31 + 28 + 31 + 30 + 2


def test_half_known_spring_is_left_out() -> None:
    """A spring with more than a tenth of its nights unknown, or a record that begins in May, has no last frost."""
    dates = days("2015-05-01", "2015-12-31")
    found = frost_dates(dates, nights(dates, "2015-10-30"))
    assert found.last_spring.size == 0
    assert math.isnan(last_frost_day(found, 0.5))
    assert found.first_autumn.size == 1


@given(st.lists(st.floats(-5.0, 10.0), min_size=365, max_size=365), st.floats(-4.0, 4.0), st.floats(0.1, 4.0))
def test_harder_frost_makes_a_longer_season(tmin: list[float], threshold: float, harder: float) -> None:
    """A lower threshold never makes the last frost later or the first earlier."""
    dates, cold = days("2015-01-01", "2015-12-31"), np.array(tmin)
    light = frost_dates(dates, cold, threshold_c=threshold)
    hard = frost_dates(dates, cold, threshold_c=threshold - harder)
    assert not hard.last_spring[0] > light.last_spring[0]
    assert not hard.first_autumn[0] < light.first_autumn[0]


@given(st.lists(st.floats(60.0, 150.0), min_size=2, max_size=40), st.floats(0.05, 0.95), st.floats(0.0, 0.05))
def test_rarer_is_later(last: list[float], chance: float, less: float) -> None:
    """The rarer the later frost, the later its day, within the record."""
    years = np.arange(len(last))
    found = FrostDates(0.0, False, years, np.array(last), years, np.array(last) + 150.0)
    assert last_frost_day(found, chance - less) >= last_frost_day(found, chance) - 1e-9
    assert min(last) - 1e-9 <= last_frost_day(found, chance) <= max(last) + 1e-9
    assert first_frost_day(found, chance) >= first_frost_day(found, chance - less) - 1e-9


def test_wrong_chance_and_day() -> None:
    """A chance above 1 and a day above 365 are refused."""
    found = FrostDates(0.0, False, np.array([1]), np.array([100.0]), np.array([1]), np.array([300.0]))
    with pytest.raises(ValueError, match="chance 10"):
        last_frost_day(found, 10)
    with pytest.raises(ValueError, match="day 366"):
        month_and_day(366)
