"""A typical year of days from twelve monthly normals."""

from collections.abc import Sequence

import numpy as np

from brimful.weather.order import in_order
from brimful.weather.raw import RawDays
from brimful.weather.record import DailyWeather, FloatArray

TYPICAL_YEAR = 2001  # any year without a leap day: the days are typical, not those of this year
_DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
_STARTS = np.concatenate(([0], np.cumsum(_DAYS)))


def from_normals(
    tmax_c: Sequence[float],
    tmin_c: Sequence[float],
    *,
    rain_mm: Sequence[float] | None = None,
    latitude_deg: float | None = None,
    elevation_m: float | None = None,
    source: str = "monthly normals",
) -> DailyWeather:
    """A year of typical days whose monthly means are the normals, joined without steps.

    Args:
        tmax_c, tmin_c: mean highest and lowest temperature of each month, January first [°C]
        rain_mm: rain of each month, spread evenly over its days [mm]; left out where None
        latitude_deg, elevation_m: of the place
        source: how to name it
    Raises:
        ValueError: not twelve values
        WeatherError: temperatures that cannot be in °C
    """
    start = np.datetime64(f"{TYPICAL_YEAR}-01-01")
    values = {"tmax_c": daily_from_monthly(tmax_c), "tmin_c": daily_from_monthly(tmin_c)}
    if rain_mm is not None:
        values["rain_mm"] = np.repeat(_twelve(rain_mm) / _DAYS, _DAYS)
    raw = RawDays(start + np.arange(365), values, np.zeros(365, dtype=np.int64), wind_height_m=2.0)
    return in_order(raw, source, latitude_deg=latitude_deg, elevation_m=elevation_m)


def daily_from_monthly(monthly: Sequence[float]) -> FloatArray:
    """365 daily values on lines between the months' middles, whose means over each month are exactly the given ones."""
    means = _twelve(monthly)
    shares = _shares()
    by_month = np.add.reduceat(shares, _STARTS[:-1], axis=0) / _DAYS[:, None]
    return shares @ np.linalg.solve(by_month, means)


def _shares() -> FloatArray:
    """How much of each month's knot is in each day: lines between the middles, round the year."""
    day, middle = np.arange(365) + 0.5, _STARTS[:-1] + _DAYS / 2.0
    at = np.concatenate((middle[-1:] - 365.0, middle, middle[:1] + 365.0))
    knots = np.vstack([np.eye(12)[-1:], np.eye(12), np.eye(12)[:1]])
    return np.column_stack([np.interp(day, at, knots[:, month]) for month in range(12)])


def _twelve(monthly: Sequence[float]) -> FloatArray:
    values = np.asarray(monthly, dtype=np.float64)
    if values.shape != (12,) or not np.isfinite(values).all():
        raise ValueError(f"{values.size} monthly values were given; expected twelve numbers, January first")
    return values
