"""Weather-years of the season: those of a long record as they were, else thirty made from the record or the normals."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import Season
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.generator import climate_from_record, generate_years
from brimful.domains.climate.record import DailyRecord, Place
from brimful.plan.schema import Site
from brimful.weather import DailyWeather, reference_et

FloatArray = NDArray[np.float64]
ENOUGH_YEARS = 15
MADE_YEARS = 30
SEED = 0


@dataclass(frozen=True, slots=True)
class Years:
    """The season's days, each array (days, years), and the days' number in a year without a leap day."""

    day_of_year: NDArray[np.int64]
    tmax_c: FloatArray
    tmin_c: FloatArray
    rain_mm: FloatArray
    et0_mm: FloatArray
    radiation_mj_m2: FloatArray
    extraterrestrial_mj_m2: FloatArray
    count: int
    words: str


def season_days(season: Season) -> NDArray[np.int64]:
    """The season's days as numbers 1 … 365 of a year without a leap day, over the new year where it runs so."""
    first, last = (day if day < 60 else day - 1 for day in (season.planting_day, season.season_end))
    return (first - 1 + np.arange((last - first) % 365 + 1)) % 365 + 1


def years_of(weather: DailyWeather, site: Site, season: Season, notes: Notes) -> Years:
    """The weather-years that the season is judged by."""
    days = season_days(season)
    real = _real(weather, site, days)
    if real is not None:
        return real
    said = f"{MADE_YEARS} years made from {weather.days_count} days, seed {SEED}"
    notes.assume("site.weather (years)", "weather-years", said, "Richardson 1981 (form from memory); ET0 by FAO-56")
    return _made(weather, site, days)


def _calendar(weather: DailyWeather) -> NDArray[np.int64]:
    """Day numbers 1 … 365; 29 February counts as the 28th's neighbour, 59."""
    year = weather.dates.astype("datetime64[Y]")
    leap = (year + 1).astype("datetime64[D]") - year.astype("datetime64[D]") == np.timedelta64(366, "D")
    day = weather.day_of_year
    return np.where(leap & (day >= 60), day - 1, day)


def _real(weather: DailyWeather, site: Site, days: NDArray[np.int64]) -> Years | None:
    """The record's own seasons, where there are enough whole ones."""
    calendar = _calendar(weather)
    starts = np.flatnonzero(calendar == days[0])
    leap = weather.day_of_year != calendar
    whole = []
    for start in starts.tolist():
        ahead = range(start, min(start + days.size + 1, calendar.size))
        index = [i for i in ahead if not _is_leap_day(weather, i)]
        if len(index) >= days.size:
            whole.append(index[: days.size])
    if len(whole) < ENOUGH_YEARS or leap.size == 0:
        return None
    result = reference_et(weather, coastal=site.coastal)
    at = np.array(whole).T
    rain = weather.rain_mm if weather.rain_mm is not None else np.zeros(calendar.size)
    return Years(
        days,
        weather.tmax_c[at],
        weather.tmin_c[at],
        np.nan_to_num(rain[at]),
        result.et0_mm[at],
        result.radiation_mj_m2[at],
        result.extraterrestrial_mj_m2[at],
        len(whole),
        f"{len(whole)} seasons of {weather.source.rsplit('/', 1)[-1]}",
    )


def _is_leap_day(weather: DailyWeather, index: int) -> bool:
    return str(weather.dates[index])[5:] == "02-29"


def _made(weather: DailyWeather, site: Site, days: NDArray[np.int64]) -> Years:
    """Years drawn from the record's climate; ET0 corrected month by month to the record's own."""
    calendar = _calendar(weather)
    rain = np.nan_to_num(weather.rain_mm) if weather.rain_mm is not None else np.zeros(calendar.size)
    climate = climate_from_record(calendar, weather.tmax_c, tmin_c=weather.tmin_c, rain_mm=rain)
    made = generate_years(climate, MADE_YEARS, SEED)
    index = days - 1
    tmax, tmin, rain_mm = made.tmax_c[index], made.tmin_c[index], made.rain_mm[index]
    place = Place(weather.latitude_deg or 0.0, weather.elevation_m or 0.0, 2.0, site.coastal)
    doy = np.broadcast_to(days[:, None], tmax.shape)
    result = reference_et_of_days(DailyRecord(doy, tmax, tmin), place)
    factor = _correction(weather, site, calendar)[_month(days) - 1][:, None]
    words = f"{MADE_YEARS} years made from {weather.source.rsplit('/', 1)[-1]}"
    return Years(
        days,
        tmax,
        tmin,
        rain_mm,
        result.et0_mm * factor,
        result.radiation_mj_m2,
        result.extraterrestrial_mj_m2,
        MADE_YEARS,
        words,
    )


def _correction(weather: DailyWeather, site: Site, calendar: NDArray[np.int64]) -> FloatArray:
    """What ET0 by all that was measured is over ET0 by temperature alone, month by month."""
    whole = reference_et(weather, coastal=site.coastal).et0_mm
    place = Place(weather.latitude_deg or 0.0, weather.elevation_m or 0.0, 2.0, site.coastal)
    bare = reference_et_of_days(DailyRecord(weather.day_of_year, weather.tmax_c, weather.tmin_c), place).et0_mm
    months = _month(calendar)
    return np.array([np.nanmean(whole[months == m]) / np.nanmean(bare[months == m]) for m in range(1, 13)])


def _month(days: NDArray[np.int64]) -> NDArray[np.int64]:
    dates = np.datetime64("2001-01-01") + (days - 1)
    return dates.astype("datetime64[M]").astype(np.int64) % 12 + 1


def month_of(days: NDArray[np.int64]) -> NDArray[np.int64]:
    """The month of each day of a year without a leap day, 1 … 12."""
    return _month(days)


def words_of(day: int) -> str:
    """A day of a year without a leap day as a person says it.

    >>> words_of(135)
    '15 May'
    """
    import datetime

    date = datetime.date(2001, 1, 1) + datetime.timedelta(days=int(day) - 1)
    return f"{date.day} {date:%B}"
