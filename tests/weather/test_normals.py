"""A typical year from twelve normals: the normals come back."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.weather import from_normals, reference_et
from brimful.weather.normals import daily_from_monthly

TMAX = [8.0, 10.0, 12.5, 15.5, 19.5, 22.0, 25.5, 25.5, 22.0, 15.5, 11.0, 8.0]  # invented
TMIN = [2.5, 3.0, 4.0, 6.0, 9.0, 11.5, 13.5, 13.5, 11.5, 8.0, 4.5, 2.5]


@given(st.lists(st.floats(-30.0, 40.0), min_size=12, max_size=12))
def test_monthly_means_come_back(normals: list[float]) -> None:
    """The mean of each month's days is the normal."""
    days = daily_from_monthly(normals)
    months = (np.datetime64("2001-01-01") + np.arange(365)).astype("datetime64[M]").astype(int) % 12
    means = np.bincount(months, weights=days) / np.bincount(months)
    assert means == pytest.approx(normals, abs=1e-9)


def test_same_all_year_stays_the_same() -> None:
    """Twelve equal normals make 365 equal days."""
    assert daily_from_monthly([12.0] * 12) == pytest.approx(12.0)


def test_a_typical_year() -> None:
    """365 days, rain summing to the months, no step above 0.5 °C from day to day, ET0 highest in summer."""
    weather = from_normals(TMAX, TMIN, rain_mm=[100.0] * 12, latitude_deg=47.6, elevation_m=20.0)
    assert weather.days_count == 365
    assert weather.rain_mm is not None
    assert weather.rain_mm.sum() == pytest.approx(1200.0)
    assert np.abs(np.diff(weather.tmax_c)).max() < 0.5
    et0 = reference_et(weather).et0_mm
    assert weather.months[np.argmax(et0)] in (6, 7)
    assert not [note for note in weather.notes if note.code in ("gap", "filled")]


def test_eleven_months_are_refused() -> None:
    """Eleven values are not a year."""
    with pytest.raises(ValueError, match="11 monthly values"):
        from_normals(TMAX[:11], TMIN)
