"""Nights of a stretch of the year, season by season: how cold the coldest gets, and when a cold one first comes."""

import math
from datetime import date

import numpy as np
from numpy.typing import NDArray

from brimful.domains.climate.values import FloatArray
from brimful.records import record

FEWEST_KNOWN = 0.9  # share of a season's nights that must be known for it to count; common practice


@record
class SeasonNights:
    """Lowest temperature of each night from one day of the year on, (seasons, nights) [°C]; NaN is not known."""

    low_c: FloatArray

    @property
    def seasons(self) -> int:
        """How many seasons of the record are known well enough."""
        return int(self.low_c.shape[0])


def season_nights(dates: NDArray[np.datetime64], tmin_c: FloatArray, first: date, nights: int) -> SeasonNights:
    """The nights of every season in a record, from a day of the year on (no equation).

    Args:
        dates: the days of the record, in order; tmin_c: lowest temperature of each, NaN where not known [°C];
        first: first day of the season, in any year; nights: how many from it on
    Returns: SeasonNights; seasons with more than a tenth of their nights unknown are left out
    Valid: 1 to 366 nights
    Raises: ValueError for other counts of nights
    Source: definition
    """
    if not 1 <= nights <= 366:
        raise ValueError(f"{nights} nights were given; expected 1 to 366")
    days = dates.astype("datetime64[D]")
    found = []
    for year in np.unique(days.astype("datetime64[Y]").astype(np.int64) + 1970):
        start = np.datetime64(
            f"{year:04d}-{first.month:02d}-{min(first.day, 28) if first.month == 2 else first.day:02d}"
        )
        low, high = np.searchsorted(days, [start, start + np.timedelta64(nights, "D")])
        row = np.full(nights, np.nan)
        row[(days[low:high] - start).astype(np.int64)] = tmin_c[low:high]
        if np.count_nonzero(np.isfinite(row)) >= FEWEST_KNOWN * nights:
            found.append(row)
    return SeasonNights(np.array(found, dtype=np.float64).reshape(len(found), nights))


def coldest_night_c(nights: SeasonNights, start: int, end: int, chance: float) -> float:
    """The temperature that the coldest night of a stretch falls to or below with this chance [°C] (no equation).

    Formula: the quantile, at the chance, of each season's coldest night, by linear interpolation between ranks.

    Args:
        nights: of the seasons; start, end: first night and the one after the last, from 0; chance: 0.1 for the night
            that one season in ten has [-]
    Returns: temperature, NaN where no season is known [°C]
    Valid: ten seasons or more; fewer say less
    Raises: ValueError for a stretch outside the season, or a chance outside 0 to 1
    Source: definition of a quantile
    """
    if not (0 <= start < end <= nights.low_c.shape[1] and 0.0 <= chance <= 1.0):
        raise ValueError(
            f"nights {start} to {end}, chance {chance} were given; expected a stretch of the season, 0 to 1"
        )
    if not nights.seasons:
        return math.nan
    part = np.where(np.isnan(nights.low_c[:, start:end]), np.inf, nights.low_c[:, start:end])
    return float(np.quantile(part.min(axis=1), chance))


def first_cold_night(nights: SeasonNights, threshold_c: float, start: int = 0, share: float = 0.5) -> int | None:
    """The night by which this share of the seasons has had one at or below a temperature (no equation).

    Formula: the ⌈share · n⌉-th of the seasons' first such nights in order; a season without one comes after all.

    Args:
        nights: of the seasons; threshold_c: [°C]; start: first night that counts; share: of the seasons [-]
    Returns: night, counted from 0; None where fewer seasons than that have one
    Valid: 0 < share ≤ 1
    Raises: ValueError for another share
    Source: definition
    """
    if not 0.0 < share <= 1.0:
        raise ValueError(f"share {share} was given; expected above 0, up to 1")
    cold = nights.low_c[:, start:] <= threshold_c
    firsts = sorted(int(row.argmax()) + start for row in cold if row.any())
    rank = math.ceil(share * nights.seasons)
    return firsts[rank - 1] if nights.seasons and rank <= len(firsts) else None


def mean_by_day(day_of_year: NDArray[np.int64], values: FloatArray, *, within_days: int = 7) -> FloatArray:
    """Mean of each day of the year over a record, smoothed over its neighbours (no equation).

    Formula: mean of all values within so many days of the day, over the new year too.

    Args:
        day_of_year: 1 to 366; values: of each day, NaN where not known; within_days: to each side
    Returns: 366 means, day 1 first; NaN where nothing is near
    Valid: any record
    Source: definition
    """
    known = np.isfinite(values)
    days = day_of_year[known] - 1
    count = np.bincount(days, minlength=366).astype(np.float64)
    total = np.bincount(days, weights=values[known], minlength=366)
    around = np.arange(-within_days, within_days + 1)
    index = (np.arange(366)[:, None] + around[None, :]) % 366
    with np.errstate(invalid="ignore"):
        means: FloatArray = total[index].sum(axis=1) / count[index].sum(axis=1)
    return means
