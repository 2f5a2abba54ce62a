"""As many weather-years as wanted, from a record or from twelve monthly normals (Richardson 1981).

Wet and dry days follow a two-state Markov chain by month; wet days bring gamma amounts; maximum and minimum temperature
swing about their seasonal course with the persistence and the fellow-feeling that days have, shifted on wet days.
The form leaves out slow differences between years: real summers differ a little more from each other than these.
"""

import math

import numpy as np
from numpy.typing import NDArray

from brimful.domains.climate.values import FloatArray
from brimful.records import record

WET_MM = 0.25
"""A day with at least this much rain is wet (0.01 in, the American rule; memory)."""
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_OF_DAY: NDArray[np.int64] = np.repeat(np.arange(1, 13), MONTH_DAYS)
_SAME_DAY = np.array([[1.0, 0.633], [0.633, 1.0]])
_NEXT_DAY = np.array([[0.621, 0.445], [0.563, 0.674]])
"""Correlations of maximum and minimum temperature on the same and the next day, mean of 31 American stations:
Richardson 1982, Trans. ASAE 25:735 (memory)."""
_USUAL_SPREAD_C = (4.5, 4.0)
"""Standard deviation of daily maximum and minimum where only normals are known (common practice, no source)."""
_USUAL_WET_SHIFT_C = (-2.0, 0.5)
"""Maximum and minimum on wet less on dry days where only normals are known (common practice, no source)."""
_ENOUGH_DAYS = 15
_LEAST_RANGE_C = 0.5


@record
class Climate:
    """What the generator needs; arrays by month (12,) or by temperature and month (2, 12): maximum, then minimum."""

    mean_c: FloatArray
    spread_c: FloatArray
    wet_shift_c: FloatArray
    wet_after_dry: FloatArray
    wet_after_wet: FloatArray
    amount_shape: FloatArray
    amount_scale_mm: FloatArray
    """Gamma law of the rain of a wet day above WET_MM."""
    same_day: FloatArray
    next_day: FloatArray

    @property
    def wet_share(self) -> FloatArray:
        """Share of wet days by month in the long run."""
        result: FloatArray = self.wet_after_dry / np.maximum(1.0 + self.wet_after_dry - self.wet_after_wet, 1e-12)
        return result


@record
class WeatherYears:
    """Generated days, each (365, years)."""

    tmax_c: FloatArray
    tmin_c: FloatArray
    rain_mm: FloatArray


@record
class MonthlyStatistics:
    """What a record and its generated years are compared by, (12,) each, persistence one number each."""

    tmax_c: FloatArray
    tmin_c: FloatArray
    rain_mm_day: FloatArray
    wet_share: FloatArray
    tmax_persistence: float
    """Correlation of one day's maximum with the next, seasonal course taken out."""
    tmin_persistence: float


def month_of(day_of_year: NDArray[np.int64]) -> NDArray[np.int64]:
    """Month of a day of the year; a leap year's days after February count one late, its last as the 365th.

    >>> month_of(np.array([1, 59, 60, 366])).tolist()
    [1, 2, 3, 12]
    """
    result: NDArray[np.int64] = MONTH_OF_DAY[np.minimum(day_of_year, 365) - 1]
    return result


def climate_from_normals(
    tmax_c: FloatArray, tmin_c: FloatArray, *, rain_mm: FloatArray, wet_days: FloatArray
) -> Climate:
    """A daily climate from twelve monthly normals (Richardson 1981; Geng et al. 1986).

    Formula: wet after dry = 0.75 × wet share, wet after wet = 0.25 + 0.75 × wet share; scale of a wet day's rain
    = 1.83 × its mean − 2.16 mm, at least a third of the mean.

    Args:
        tmax_c: mean daily maximum by month [°C], (12,)
        tmin_c: mean daily minimum by month [°C], (12,)
        rain_mm: rain of the month [mm], (12,)
        wet_days: days with rain in the month [d], (12,)
    Returns: Climate
    Valid: minimum below maximum; wet days no more than the month has
    Source: Geng, Penning de Vries & Supit 1986, Agric. Forest Meteorol. 36:363 (memory)
    """
    days = np.array(MONTH_DAYS, dtype=np.float64)
    fits = all(part.shape == (12,) and bool(np.isfinite(part).all()) for part in (tmax_c, tmin_c, rain_mm, wet_days))
    if not (fits and bool(np.all((tmin_c < tmax_c) & (rain_mm >= 0) & (wet_days >= 0) & (wet_days <= days)))):
        raise ValueError(
            "the normals do not fit: expected twelve finite values each, minimum below maximum, "
            "rain 0 or more, wet days from 0 to the days of the month"
        )
    share = np.where(rain_mm > WET_MM * wet_days, wet_days / days, 0.0)
    mean = np.where(share > 0.0, rain_mm / np.maximum(wet_days, 1e-9) - WET_MM, 1.0)
    scale = np.maximum(1.83 * mean - 2.16, mean / 3.0)
    by_month = np.ones(12)
    return Climate(
        mean_c=np.stack([tmax_c, tmin_c]),
        spread_c=np.outer(_USUAL_SPREAD_C, by_month),
        wet_shift_c=np.outer(_USUAL_WET_SHIFT_C, by_month),
        wet_after_dry=0.75 * share,
        wet_after_wet=np.where(share > 0.0, 0.25 + 0.75 * share, 0.0),
        amount_shape=mean / scale,
        amount_scale_mm=scale,
        same_day=_SAME_DAY,
        next_day=_NEXT_DAY,
    )


def climate_from_record(
    day_of_year: NDArray[np.int64], tmax_c: FloatArray, *, tmin_c: FloatArray, rain_mm: FloatArray
) -> Climate:
    """A daily climate fitted to a record of days in a row (Richardson 1981).

    Formula: shares and means by month; gamma by Thom's likelihood rule; correlations of the standardized residuals.

    Args:
        day_of_year: of each day, 1 January = 1, (days,)
        tmax_c: daily maximum [°C], (days,); nan where missing
        tmin_c: daily minimum [°C], (days,)
        rain_mm: daily rain [mm], (days,)
    Returns: Climate; a month with too few wet days to tell takes the whole record's law
    Valid: at least 60 days, every month present
    Source: Richardson 1981, Water Resour. Res. 17:182 (form from memory)
    """
    months = month_of(day_of_year)
    if not set(range(1, 13)) <= set(months.tolist()) or months.size < 60:
        missing = sorted(set(range(1, 13)) - set(months.tolist()))
        raise ValueError(
            f"the record has {months.size} days and lacks months {missing}: expected every month of the year"
        )
    temperature = np.stack([tmax_c, tmin_c])
    wet = rain_mm >= WET_MM
    shift = np.stack([_wet_shifts(months, part, wet) for part in temperature])
    share = np.array([wet[months == month].mean() for month in range(1, 13)])
    mean = np.stack([[np.nanmean(part[months == month]) for month in range(1, 13)] for part in temperature])
    curve = np.stack([_smooth_course(row) for row in mean])[:, np.minimum(day_of_year, 365) - 1]
    course = curve + shift[:, months - 1] * (wet - share[months - 1])
    spread = np.stack([[np.nanstd((temperature - course)[row, months == m]) for m in range(1, 13)] for row in (0, 1)])
    rest = (temperature - course) / np.maximum(spread, 1e-9)[:, months - 1]
    shape, scale = _amounts(months, rain_mm, wet)
    return Climate(
        mean_c=mean,
        spread_c=spread,
        wet_shift_c=shift,
        wet_after_dry=_chain(months, wet, after=False),
        wet_after_wet=_chain(months, wet, after=True),
        amount_shape=shape,
        amount_scale_mm=scale,
        same_day=_correlation(rest, rest),
        next_day=_correlation(rest[:, 1:], rest[:, :-1]),
    )


def generate_years(climate: Climate, years: int, seed: int) -> WeatherYears:
    """Weather for as many years as wanted, day by day, all years at once (Richardson 1981).

    Formula: residual χ = A χ(yesterday) + B ε with A = M₁ M₀⁻¹ and B Bᵀ = M₀ − M₁ M₀⁻¹ M₁ᵀ;
    T = course + shift × (wet − share of wet days) + spread × χ.

    Args:
        climate: from normals or from a record
        years: how many
        seed: same seed, same weather
    Returns: WeatherYears, 365 days each
    Valid: years ≥ 1
    Source: Richardson 1981, Water Resour. Res. 17:182 (form from memory)
    """
    if years < 1:
        raise ValueError(f"years is {years}: expected 1 or more")
    draw = np.random.default_rng(seed)
    month = MONTH_OF_DAY - 1
    wet = _wet_days(climate, years, draw)
    rest = _residuals(climate, years, draw)
    depart = climate.wet_shift_c[:, month, None] * (wet - climate.wet_share[month][:, None])
    curve = np.stack([_smooth_course(row) for row in climate.mean_c])
    temperature = curve[:, :, None] + depart + climate.spread_c[:, month, None] * rest
    amounts = WET_MM + draw.gamma(
        climate.amount_shape[month][:, None], climate.amount_scale_mm[month][:, None], wet.shape
    )
    tmax = np.maximum(temperature[0], temperature[1])
    tmin = np.minimum(np.minimum(temperature[0], temperature[1]), tmax - _LEAST_RANGE_C)
    return WeatherYears(tmax, tmin, np.where(wet, amounts, 0.0))


def monthly_statistics(
    day_of_year: NDArray[np.int64], tmax_c: FloatArray, *, tmin_c: FloatArray, rain_mm: FloatArray
) -> MonthlyStatistics:
    """What record and generated years are compared by.

    Formula: means by month; correlation of each day with the next after the smooth course of the means is taken off.

    Args:
        day_of_year: of each day, 1 January = 1, (days,)
        tmax_c: [°C], (days,) or (days, years)
        tmin_c: [°C], same shape
        rain_mm: [mm], same shape
    Returns: MonthlyStatistics
    Valid: every month present
    Source: arithmetic
    """
    months = month_of(day_of_year)

    def mean(values: FloatArray) -> FloatArray:
        return np.array([np.nanmean(values[months == month]) for month in range(1, 13)])

    def persistence(values: FloatArray) -> float:
        rest = (values.T - _smooth_course(mean(values))[np.minimum(day_of_year, 365) - 1]).T
        return float(_correlation(rest[1:].reshape(1, -1), rest[:-1].reshape(1, -1))[0, 0])

    wet = (rain_mm >= WET_MM).astype(np.float64)
    return MonthlyStatistics(
        mean(tmax_c), mean(tmin_c), mean(rain_mm), mean(wet), persistence(tmax_c), persistence(tmin_c)
    )


def _wet_days(climate: Climate, years: int, draw: np.random.Generator) -> NDArray[np.bool_]:
    """The chain of wet and dry days."""
    chance = draw.random((365, years))
    wet = np.empty((365, years), dtype=bool)
    before = draw.random(years) < climate.wet_share[-1]
    for day, month in enumerate((MONTH_OF_DAY - 1).tolist()):
        before = chance[day] < np.where(before, climate.wet_after_wet[month], climate.wet_after_dry[month])
        wet[day] = before
    return wet


def _residuals(climate: Climate, years: int, draw: np.random.Generator) -> FloatArray:
    """Persistent, mutually correlated departures of both temperatures, (2, 365, years)."""
    carry = climate.next_day @ np.linalg.pinv(climate.same_day)
    fresh = _root(climate.same_day - carry @ climate.next_day.T)
    noise = np.einsum("ij,jdy->diy", fresh, draw.standard_normal((2, 365, years)))
    rest = np.empty((365, 2, years))
    state = _root(climate.same_day) @ draw.standard_normal((2, years))
    for day in range(365):
        state = carry @ state + noise[day]
        rest[day] = state
    return rest.transpose(1, 0, 2)


def _root(covariance: FloatArray) -> FloatArray:
    """A square root of a covariance, with what rounding or a short record made negative taken as nothing."""
    values, vectors = np.linalg.eigh((covariance + covariance.T) / 2.0)
    result: FloatArray = vectors * np.sqrt(np.maximum(values, 0.0))
    return result


def _smooth_course(monthly: FloatArray) -> FloatArray:
    """A course through the year without steps whose months have exactly these means."""
    middles = np.cumsum(MONTH_DAYS) - np.array(MONTH_DAYS) / 2.0
    days = np.arange(365) + 0.5
    weights = np.stack([np.interp(days, middles, unit, period=365.0) for unit in np.eye(12)], axis=1)
    averages = np.stack([weights[month == MONTH_OF_DAY].mean(axis=0) for month in range(1, 13)])
    result: FloatArray = weights @ np.linalg.solve(averages, monthly)
    return result


def _wet_shifts(months: NDArray[np.int64], values: FloatArray, wet: NDArray[np.bool_]) -> FloatArray:
    """Mean of wet less mean of dry days by month; the year's, season taken out, where either kind is rare."""
    monthly = np.array([np.nanmean(values[months == month]) for month in range(1, 13)])
    rest = values - monthly[months - 1]
    whole = float(np.nanmean(rest[wet]) - np.nanmean(rest[~wet])) if wet.any() and not wet.all() else 0.0
    shifts = np.full(12, whole)
    for month in range(12):
        here = (months == month + 1) & np.isfinite(rest)
        if min((here & wet).sum(), (here & ~wet).sum()) >= _ENOUGH_DAYS:
            shifts[month] = rest[here & wet].mean() - rest[here & ~wet].mean()
    return shifts


def _chain(months: NDArray[np.int64], wet: NDArray[np.bool_], *, after: bool) -> FloatArray:
    """Share of wet days among those after a wet (or dry) day, by month; the year's where there is none."""
    follows = wet[:-1] == after
    whole = float(wet[1:][follows].mean()) if follows.any() else 0.0
    counts = [(follows & (months[1:] == month)) for month in range(1, 13)]
    return np.array([wet[1:][here].mean() if here.any() else whole for here in counts])


def _amounts(months: NDArray[np.int64], rain_mm: FloatArray, wet: NDArray[np.bool_]) -> tuple[FloatArray, FloatArray]:
    """Gamma shape and scale of wet days' rain above WET_MM, by month; the year's where wet days are rare."""
    whole = _gamma(rain_mm[wet] - WET_MM)
    laws = []
    for month in range(1, 13):
        above = rain_mm[wet & (months == month)] - WET_MM
        shape, scale = _gamma(above) if above.size >= _ENOUGH_DAYS else whole
        mean = float(above.mean()) if above.size else shape * scale
        laws.append((shape, max(mean / shape, 1e-9)))
    shapes, scales = zip(*laws, strict=True)
    return np.array(shapes), np.array(scales)


def _gamma(above_mm: FloatArray) -> tuple[float, float]:
    """Shape and scale by Thom's (1958) approximation of the likelihood; exponential where days are too few."""
    some = np.maximum(above_mm, 0.05)
    if some.size < 2 or float(np.ptp(some)) == 0.0:
        return 1.0, float(some.mean()) if some.size else 1.0
    mean = float(some.mean())
    gap = max(math.log(mean) - float(np.log(some).mean()), 1e-6)
    shape = (1.0 + math.sqrt(1.0 + 4.0 * gap / 3.0)) / (4.0 * gap)
    return shape, mean / shape


def _correlation(one: FloatArray, other: FloatArray) -> FloatArray:
    """Correlation of every row with every row, days with a missing part left out."""
    full = np.isfinite(one).all(axis=0) & np.isfinite(other).all(axis=0)
    first, second = (part[:, full] - part[:, full].mean(axis=1, keepdims=True) for part in (one, other))
    scale = np.outer(np.sqrt((first**2).sum(axis=1)), np.sqrt((second**2).sum(axis=1)))
    result: FloatArray = (first @ second.T) / np.maximum(scale, 1e-12)
    return result
