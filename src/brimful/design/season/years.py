"""Weather-years of the season: those of a long record as they were, else a hundred made from record or normals."""

from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import Season
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.generator import climate_from_record, generate_years
from brimful.domains.climate.record import DailyRecord, Place
from brimful.plan.schema import Site
from brimful.records import record
from brimful.weather import DailyWeather, reference_et

FloatArray = NDArray[np.float64]
ENOUGH_YEARS = 15
MADE_YEARS = 100
FEWEST_DAYS = 60
SEED = 0


@record
class Years:
    """The season's days, each array (days, years), and the days' number in a year without a leap day."""

    day_of_year: NDArray[np.int64]
    tmax_c: FloatArray
    tmin_c: FloatArray
    rain_mm: FloatArray
    et0_mm: FloatArray
    radiation_mj_m2: FloatArray
    extraterrestrial_mj_m2: FloatArray
    place: Place
    count: int
    words: str


def season_days(season: Season) -> NDArray[np.int64]:
    """The season's days as numbers 1 … 365 of a year without a leap day, over the new year where it runs so."""
    first, last = (day if day < 60 else day - 1 for day in (season.planting_day, season.season_end))
    return (first - 1 + np.arange((last - first) % 365 + 1)) % 365 + 1


def years_of(weather: DailyWeather, site: Site, season: Season, notes: Notes) -> Years | None:
    """The weather-years that the season is judged by; None, and why, where the record has no season at all."""
    days = season_days(season)
    whole = _whole_seasons(weather, days)
    every_month = np.unique(weather.months).size == 12 and weather.days_count >= FEWEST_DAYS
    if len(whole) >= ENOUGH_YEARS or (whole and not every_month):
        if len(whole) < ENOUGH_YEARS:
            said = f"{len(whole)} of the record and no more, since it lacks the other months"
            notes.assume("site.weather (years)", "weather-years", said)
        return _real(weather, site, days, whole)
    if not every_month:
        lacks = ", ".join(f"{date(2001, m, 1):%B}" for m in sorted({*range(1, 13)} - set(weather.months.tolist())))
        said = f"the weather has {weather.days_count} days, none in {lacks}" if lacks else "the weather is too short"
        remedy = "Give whole years, or one whole season at least; twelve monthly normals do as well."
        notes.wrong("weather-unusable", ("site", "weather"), f"{said}, and no season as a whole", remedy)
        return None
    said = f"{MADE_YEARS} years made from {weather.days_count} days, seed {SEED}"
    notes.assume("site.weather (years)", "weather-years", said, "Richardson 1981 (form from memory); ET0 by FAO-56")
    return _made(weather, site, days)


def _calendar(weather: DailyWeather) -> NDArray[np.int64]:
    """Day numbers 1 … 365; 29 February counts as the 28th's neighbour, 59."""
    year = weather.dates.astype("datetime64[Y]")
    leap = (year + 1).astype("datetime64[D]") - year.astype("datetime64[D]") == np.timedelta64(366, "D")
    day = weather.day_of_year
    return np.where(leap & (day >= 60), day - 1, day)


def _whole_seasons(weather: DailyWeather, days: NDArray[np.int64]) -> list[NDArray[np.int64]]:
    """Where the days of each whole season stand in the record, 29 February left out."""
    in_month = (weather.dates - weather.dates.astype("datetime64[M]").astype("datetime64[D]")).astype(np.int64) + 1
    plain = np.flatnonzero((weather.months != 2) | (in_month != 29))
    starts = np.flatnonzero(_calendar(weather)[plain] == days[0])
    return [plain[start : start + days.size] for start in starts.tolist() if start + days.size <= plain.size]


def _real(weather: DailyWeather, site: Site, days: NDArray[np.int64], whole: list[NDArray[np.int64]]) -> Years:
    """The record's own seasons."""
    result = reference_et(weather, coastal=site.coastal)
    at = np.array(whole).T
    rain = weather.rain_mm if weather.rain_mm is not None else np.zeros(weather.days_count)
    return Years(
        days,
        weather.tmax_c[at],
        weather.tmin_c[at],
        np.nan_to_num(rain[at]),
        result.et0_mm[at],
        result.radiation_mj_m2[at],
        result.extraterrestrial_mj_m2[at],
        _place(weather, site),
        len(whole),
        f"{len(whole)} season{'s' * (len(whole) > 1)} of {weather.source.rsplit('/', 1)[-1]}",
    )


def _place(weather: DailyWeather, site: Site) -> Place:
    return Place(weather.latitude_deg or 0.0, weather.elevation_m or 0.0, 2.0, site.coastal)


def _made(weather: DailyWeather, site: Site, days: NDArray[np.int64]) -> Years:
    """Years drawn from the record's climate; ET0 corrected month by month to the record's own."""
    calendar = _calendar(weather)
    rain = np.nan_to_num(weather.rain_mm) if weather.rain_mm is not None else np.zeros(calendar.size)
    climate = climate_from_record(calendar, weather.tmax_c, tmin_c=weather.tmin_c, rain_mm=rain)
    made = generate_years(climate, MADE_YEARS, SEED)
    index = days - 1
    tmax, tmin, rain_mm = made.tmax_c[index], made.tmin_c[index], made.rain_mm[index]
    place = _place(weather, site)
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
        place,
        MADE_YEARS,
        words,
    )


def _correction(weather: DailyWeather, site: Site, calendar: NDArray[np.int64]) -> FloatArray:
    """What ET0 by all that was measured is over ET0 by temperature alone, month by month."""
    whole = reference_et(weather, coastal=site.coastal).et0_mm
    place = _place(weather, site)
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
    found = date(2001, 1, 1) + timedelta(days=int(day) - 1)
    return f"{found.day} {found:%B}"
