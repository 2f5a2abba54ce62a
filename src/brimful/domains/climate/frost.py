"""First and last frost of the year, with chances, from a record of nights."""

import math

import numpy as np
from numpy.typing import NDArray

from brimful.domains.climate.values import FloatArray
from brimful.records import record

FROST_C = 0.0  # 32 °F
HARD_FROST_C = -20.0 / 9.0  # 28 °F
FEWEST_NIGHTS = 0.9  # share of a half-year's nights that must be known for the half-year to count; common practice
DAYS_FROM_JANUARY = 365
_MONTH_STARTS = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30])

Whole = NDArray[np.int64]


@record
class FrostDates:
    """The last frost of each spring and the first of each autumn (of each half-year, south of the equator).

    Days count from 1 January, or from 1 July where `southern`, in a year without a leap day; NaN is a half-year
    without frost. `years` are those of the start of the count.
    """

    threshold_c: float
    southern: bool
    spring_years: Whole
    last_spring: FloatArray
    autumn_years: Whole
    first_autumn: FloatArray


def frost_dates(
    dates: NDArray[np.datetime64], tmin_c: FloatArray, *, threshold_c: float = FROST_C, southern: bool = False
) -> FrostDates:
    """The day of the last spring frost and the first autumn frost of every year in a record (no equation).

    Formula: the last night of January to July, and the first of August to December, with Tmin at or below the
    threshold; six months later south of the equator. A half-year with more than a tenth of its nights unknown is left
    out.

    Args:
        dates: the days of the record
        tmin_c: lowest temperature of each day, NaN where not known [°C]
        threshold_c: 0 °C for a frost, −2.2 °C for a hard one [°C]
        southern: whether the place lies south of the equator
    Returns: days counted from 1 January (1 July in the south) = 1
    Valid: temperatures at 1.5 to 2 m; the ground may freeze before
    Source: the definition of the US climate normals (NOAA, freeze dates)
    """
    year, day = _count(dates, southern)
    known, cold = np.isfinite(tmin_c), tmin_c <= threshold_c
    spring = day <= 212  # through 31 July
    years = np.unique(year)
    spring_years = [int(y) for y in years if _complete(known[spring & (year == y)], 212)]
    autumn_years = [int(y) for y in years if _complete(known[~spring & (year == y)], 153)]
    last = [_edge(day[spring & cold & (year == y)], last=True) for y in spring_years]
    first = [_edge(day[~spring & cold & (year == y)], last=False) for y in autumn_years]
    return FrostDates(
        threshold_c,
        southern,
        np.array(spring_years, dtype=np.int64),
        np.array(last, dtype=np.float64),
        np.array(autumn_years, dtype=np.int64),
        np.array(first, dtype=np.float64),
    )


def last_frost_day(frosts: FrostDates, chance_later: float) -> float:
    """The day after which a spring frost still comes with this chance, counted from 1 January (no equation).

    Formula: the quantile of the last frosts at 1 − chance; a spring without frost counts as earlier than all others.

    Args:
        frosts: the frosts of the record
        chance_later: 0.5 for the middle date, 0.1 for the date that nine springs of ten keep to [-]
    Returns: day, NaN where such a date does not exist because frost is rarer than that [day]
    Valid: twenty years or more
    Source: the definition of the US climate normals (NOAA, PRBLST: "on or after")
    """
    return _quantile(frosts.last_spring, 1.0 - _chance(chance_later), -math.inf)


def first_frost_day(frosts: FrostDates, chance_earlier: float) -> float:
    """The day before which an autumn frost has come with this chance, counted from 1 January (no equation).

    Formula: the quantile of the first frosts at the chance; an autumn without frost counts as later than all others.

    Args:
        frosts: the frosts of the record
        chance_earlier: 0.5 for the middle date, 0.1 for the date that nine autumns of ten keep to [-]
    Returns: day, NaN where such a date does not exist because frost is rarer than that [day]
    Valid: twenty years or more
    Source: the definition of the US climate normals (NOAA, PRBFST: "on or before")
    """
    return _quantile(frosts.first_autumn, _chance(chance_earlier), math.inf)


def frost_free_days(frosts: FrostDates) -> FloatArray:
    """Days between the last spring frost and the first autumn frost, year by year (no equation).

    Args:
        frosts: the frosts of the record
    Returns: days, of the years that have both half-years; NaN where one had no frost [days]
    Valid: twenty years or more
    Source: the definition of the US climate normals (NOAA, PRBGSL)
    """
    _, spring, autumn = np.intersect1d(frosts.spring_years, frosts.autumn_years, return_indices=True)
    return frosts.first_autumn[autumn] - frosts.last_spring[spring] - 1.0


def month_and_day(count: float, *, southern: bool = False) -> tuple[int, int]:
    """Month and day of a counted day, of a year without a leap day.

    >>> month_and_day(96)
    (4, 6)
    """
    if not 1 <= count < DAYS_FROM_JANUARY + 1:
        raise ValueError(f"day {count} was given; expected 1 to {DAYS_FROM_JANUARY}")
    day = (round(count) - 1 + (181 if southern else 0)) % DAYS_FROM_JANUARY
    month = int(np.searchsorted(_MONTH_STARTS, day, side="right"))
    return month, day - int(_MONTH_STARTS[month - 1]) + 1


def _count(dates: NDArray[np.datetime64], southern: bool) -> tuple[Whole, Whole]:
    """Year and day, counted from 1 January or 1 July; 29 February counts as the 28th."""
    months = dates.astype("datetime64[M]")
    month = months.astype(np.int64) % 12
    in_month = (dates - months.astype("datetime64[D]")).astype(np.int64) + 1
    day = _MONTH_STARTS[month] + np.where((month == 1) & (in_month == 29), 28, in_month)
    year = dates.astype("datetime64[Y]").astype(np.int64) + 1970
    if not southern:
        return year, day
    late = day > 181
    return np.where(late, year, year - 1), np.where(late, day - 181, day + 184)


def _complete(known: NDArray[np.bool_], nights: int) -> bool:
    return bool(np.count_nonzero(known) >= FEWEST_NIGHTS * nights)


def _edge(days: Whole, *, last: bool) -> float:
    if not days.size:
        return math.nan
    return float(days.max() if last else days.min())


def _quantile(days: FloatArray, share: float, never: float) -> float:
    """Quantile by linear interpolation between ranked years, years without frost ranked at `never`."""
    if not days.size:
        return math.nan
    ranked = np.sort(np.where(np.isnan(days), never, days))
    at = share * (ranked.size - 1)
    low, high = float(ranked[math.floor(at)]), float(ranked[math.ceil(at)])
    if math.isinf(low) or math.isinf(high):
        return math.nan
    return low + (at - math.floor(at)) * (high - low)


def _chance(value: float) -> float:
    if not 0.0 <= value <= 1.0:
        raise ValueError(f"chance {value} was given; expected 0 to 1")
    return value
