"""The weather generator gives back the climate it was given."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.climate.generator import (
    MONTH_DAYS,
    WET_MM,
    Climate,
    climate_from_normals,
    climate_from_record,
    generate_years,
    monthly_statistics,
)

MIDDLE = (np.arange(12) + 0.5) / 12.0
TMAX = 15.0 - 12.0 * np.cos(2 * np.pi * (MIDDLE - 0.05))
TMIN = TMAX - np.linspace(8.0, 13.0, 12)
RAIN = np.array([120.0, 90, 80, 60, 45, 30, 15, 20, 35, 80, 130, 0.0])
WET = np.array([16.0, 14, 14, 12, 9, 7, 3, 4, 7, 12, 16, 0.0])
CLIMATE = climate_from_normals(TMAX, TMIN, rain_mm=RAIN, wet_days=WET)
MANY = 1500
DAY = np.arange(1, 366)
LONG = generate_years(CLIMATE, MANY, seed=11)
STATISTICS = monthly_statistics(DAY, LONG.tmax_c, tmin_c=LONG.tmin_c, rain_mm=LONG.rain_mm)


def test_the_monthly_means_come_back() -> None:
    """Temperatures within 0.2 °C, rain within 8 % or 0.1 mm a day, wet days within 0.5 a month, over 1,500 years."""
    assert pytest.approx(TMAX, abs=0.2) == STATISTICS.tmax_c
    assert pytest.approx(TMIN, abs=0.2) == STATISTICS.tmin_c
    days = np.array(MONTH_DAYS)
    assert STATISTICS.rain_mm_day * days == pytest.approx(RAIN, rel=0.08, abs=3.0)
    # a chain carries the last days' habit of one month into the next: December, dry here, inherits from November
    assert STATISTICS.wet_share * days == pytest.approx(WET, abs=0.5)


def test_days_persist_as_published() -> None:
    """Richardson 1982 (memory): a day's maximum goes with the next at 0.62, its minimum at 0.67."""
    assert STATISTICS.tmax_persistence == pytest.approx(0.621, abs=0.05)
    assert STATISTICS.tmin_persistence == pytest.approx(0.674, abs=0.05)


def test_a_record_made_by_the_generator_is_read_back() -> None:
    """Fitting forty generated years gives back chain, amounts, spread and correlations."""
    record = generate_years(CLIMATE, 40, seed=5)
    day = np.tile(DAY, 40)
    tmax, tmin, rain = (part.T.ravel() for part in (record.tmax_c, record.tmin_c, record.rain_mm))
    fitted = climate_from_record(day, tmax, tmin_c=tmin, rain_mm=rain)
    assert fitted.mean_c == pytest.approx(CLIMATE.mean_c, abs=0.7)
    assert fitted.spread_c == pytest.approx(CLIMATE.spread_c, rel=0.12)
    assert fitted.wet_after_dry == pytest.approx(CLIMATE.wet_after_dry, abs=0.05)
    assert fitted.wet_after_wet[:11] == pytest.approx(CLIMATE.wet_after_wet[:11], abs=0.09)
    expected = CLIMATE.amount_shape * CLIMATE.amount_scale_mm
    assert (fitted.amount_shape * fitted.amount_scale_mm)[:6] == pytest.approx(expected[:6], rel=0.15)
    assert fitted.same_day == pytest.approx(CLIMATE.same_day, abs=0.08)
    assert fitted.next_day == pytest.approx(CLIMATE.next_day, abs=0.08)


def test_years_generated_from_a_record_have_its_statistics() -> None:
    """Monthly means and wet shares of the fitted record return within sampling."""
    record = generate_years(CLIMATE, 4, seed=8)
    day = np.tile(DAY, 4)
    tmax, tmin, rain = (part.T.ravel() for part in (record.tmax_c, record.tmin_c, record.rain_mm))
    tmax = np.where(np.arange(tmax.size) % 97 == 0, np.nan, tmax)
    before = monthly_statistics(day, tmax, tmin_c=tmin, rain_mm=rain)
    made = generate_years(climate_from_record(day, tmax, tmin_c=tmin, rain_mm=rain), MANY, seed=3)
    after = monthly_statistics(DAY, made.tmax_c, tmin_c=made.tmin_c, rain_mm=made.rain_mm)
    assert after.tmax_c == pytest.approx(before.tmax_c, abs=0.3)
    assert after.tmin_c == pytest.approx(before.tmin_c, abs=0.3)
    assert after.wet_share == pytest.approx(before.wet_share, abs=0.05)
    assert after.rain_mm_day.sum() == pytest.approx(before.rain_mm_day.sum(), rel=0.1)
    assert after.tmax_persistence == pytest.approx(before.tmax_persistence, abs=0.12)


def test_the_course_through_the_year_has_no_steps() -> None:
    """The mean of many years moves less than a degree from one day to the next, also at the turn of months and year."""
    course = LONG.tmax_c.mean(axis=1)
    assert np.abs(np.diff(np.append(course, course[0]))).max() < 1.0


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(0, 2**32 - 1), years=st.integers(1, 4))
def test_same_seed_same_weather_and_every_day_possible(seed: int, years: int) -> None:
    """Minimum below maximum, rain nought or a wet day's, any number of years, the same twice."""
    one, two = generate_years(CLIMATE, years, seed), generate_years(CLIMATE, years, seed)
    assert one.tmax_c.shape == (365, years)
    assert (one.tmax_c == two.tmax_c).all()
    assert (one.rain_mm == two.rain_mm).all()
    assert (one.tmin_c < one.tmax_c).all()
    assert ((one.rain_mm == 0.0) | (one.rain_mm >= WET_MM)).all()


def test_a_place_without_rain_and_one_with_rain_every_day() -> None:
    """The ends of the chain hold."""
    dry = climate_from_normals(TMAX, TMIN, rain_mm=np.zeros(12), wet_days=np.zeros(12))
    assert generate_years(dry, 5, 1).rain_mm.max() == 0.0
    wet = climate_from_normals(TMAX, TMIN, rain_mm=np.full(12, 300.0), wet_days=np.array(MONTH_DAYS, dtype=float))
    assert generate_years(wet, 5, 1).rain_mm[1:].min() >= WET_MM
    record = np.tile(DAY, 1)
    flat = climate_from_record(record, np.full(365, 20.0), tmin_c=np.full(365, 10.0), rain_mm=np.zeros(365))
    assert isinstance(flat, Climate)
    assert generate_years(flat, 2, 1).tmax_c == pytest.approx(np.full((365, 2), 20.0), abs=1e-6)


def test_what_cannot_be_fitted_is_refused() -> None:
    """A month missing, normals upside down, no years."""
    with pytest.raises(ValueError, match="lacks months"):
        part = DAY[:300]
        climate_from_record(part, np.ones(300), tmin_c=np.zeros(300), rain_mm=np.zeros(300))
    with pytest.raises(ValueError, match="normals do not fit"):
        climate_from_normals(TMIN, TMAX, rain_mm=RAIN, wet_days=WET)
    with pytest.raises(ValueError, match="years"):
        generate_years(CLIMATE, 0, 1)
