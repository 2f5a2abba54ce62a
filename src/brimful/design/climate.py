"""Stage: the weather of the place, and reference evapotranspiration on planting day, mid-season and hottest days."""

import datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from brimful.design.ledger import Ledger
from brimful.design.model import NO_WEATHER, UNNAMED, OccasionClimate, SiteWorked
from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import Season
from brimful.errors import WeatherError
from brimful.plan.schema import Normals, Site
from brimful.records import record

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from brimful.weather import DailyWeather

WITHOUT_WEATHER_MM = (3.0, 4.5, 6.5)
HARMLESS = ("filled", "wind_height", "unsorted", "quality")
"""What a weather file may have that was put right by a stated rule."""
FAO_TABLE = (
    "FAO-56 table 2 (p.8, read): 4 to 7 mm a day at about 20 °C in a temperate dry climate, 2 to 4 in a humid one"
)
FORTNIGHT, MONTH, HOTTEST = 14, 15, 90.0
USUAL_C = 20.0
"""The mean that growers' "weeks to fill" are told for (common practice, no source)."""
FREEZING_C = 0.0
LEAST_DAYS = 7 * 16 + 1
"""So many days of growth are always worked out, that drawings of week 16 can be made of a short season too."""
MADE_YEARS = 100
WET_DAY_MM = 6.0
"""Rain of a wet day where only the month's rain is known (common practice, no source)."""


@record
class Warmth:
    """Mean temperature of each day from planting day on [°C], and how it was taken; the days after planting by which
    half of the seasons have had autumn's first frost, None where they have none or it is not known."""

    mean_c: tuple[float, ...]
    taken_as: str
    planting_day: int
    frost_after_days: int | None = None
    southern: bool = False


@record
class Climate:
    """The place, and its demand on each occasion."""

    site: SiteWorked
    occasions: tuple[OccasionClimate, ...]
    warmth: Warmth


def climate_of(site: Site, folder: Path, season: Season | None, notes: Notes, ledger: Ledger) -> Climate | None:
    """The climate of a site from its weather file; a plain assumption where there is none; None where it is wrong."""
    if site.weather is None and site.normals is None:
        return _without_weather(site, season, notes)
    weather = read_weather_of(site, folder, notes)
    if weather is None or season is None:
        return None
    try:
        return _from_days(site, weather, season, notes, ledger)
    except WeatherError as error:
        notes.wrong("weather-unusable", _where(site), str(error), "")
        return None


def read_weather_of(site: Site, folder: Path, notes: Notes) -> "DailyWeather | None":
    """The days of a site's weather file, or days made from its monthly normals; None, and why, where there are none."""
    try:
        if site.weather is not None:
            return _read(site, folder)
        if site.normals is not None:
            return _made_from_normals(site, notes)
    except (WeatherError, ValueError) as error:
        notes.wrong("weather-unusable", _where(site), str(error), "")
        return None
    said = "no weather was given; the season cannot be worked out from nothing"
    remedy = 'Add weather = "FILE.csv" or twelve monthly normals under [site].'
    notes.wrong("no-weather", ("site",), said, remedy)
    return None


def _where(site: Site) -> tuple[str, str]:
    return ("site", "weather" if site.weather is not None else "normals")


def _made_from_normals(site: Site, notes: Notes) -> "DailyWeather":
    """A hundred years of days made from the normals, so that hot days and dry weeks are in them."""
    from brimful.weather import DailyWeather

    if site.latitude is None:
        raise WeatherError("normals without a latitude were given; expected both. Set latitude under [site].")
    assert site.normals is not None
    said = f"{MADE_YEARS} years of days made from the monthly normals, seed 0"
    notes.assume("site.weather", "daily weather", said, "Richardson 1981 (form from memory)")
    dates, tmax, tmin, rain = _days_like(site.normals)
    return DailyWeather(
        "monthly normals",
        dates,
        tmax,
        tmin,
        rain_mm=rain,
        latitude_deg=site.latitude,
        elevation_m=site.elevation,
    )


@lru_cache(maxsize=4)
def _days_like(normals: Normals) -> "tuple[NDArray[Any], NDArray[Any], NDArray[Any], NDArray[Any]]":
    """Dates, highest, lowest and rain of days made from normals; always the same ones, so that they may be kept."""
    import numpy as np

    from brimful.domains.climate.generator import MONTH_DAYS, climate_from_normals, generate_years

    rain = np.array(normals.rain or (0.0,) * 12)
    wet = np.minimum(rain / WET_DAY_MM, np.array(MONTH_DAYS, dtype=np.float64))
    climate = climate_from_normals(np.array(normals.tmax), np.array(normals.tmin), rain_mm=rain, wet_days=wet)
    made = generate_years(climate, MADE_YEARS, 0)
    one = np.arange(np.datetime64("2001-01-01"), np.datetime64("2002-01-01"))
    month, day = one.astype("datetime64[M]"), one - one.astype("datetime64[M]").astype("datetime64[D]")
    dates = np.concatenate([(month + 12 * year).astype("datetime64[D]") + day for year in range(MADE_YEARS)])
    tmax, tmin, fallen = (values.T.ravel() for values in (made.tmax_c, made.tmin_c, made.rain_mm))
    return dates, tmax, tmin, fallen


def _read(site: Site, folder: Path) -> "DailyWeather":
    assert site.weather is not None
    path, given = folder / site.weather.file, site.weather
    try:
        stat = path.stat()
    except (OSError, ValueError):
        stamp = (0, 0)  # reading it says what is wrong
    else:
        stamp = (stat.st_mtime_ns, stat.st_size)
    return _read_once(path, stamp, given.columns, (given.wind_height, site.latitude, site.elevation))


@lru_cache(maxsize=4)
def _read_once(
    path: Path,
    stamp: tuple[int, int],  # noqa: ARG001  (a file that has changed since is read again)
    columns: tuple[tuple[str, str], ...],
    place: tuple[float | None, float | None, float | None],
) -> "DailyWeather":
    """The days of a file, kept while it does not change, since a plan that is edited asks for them again and again."""
    from brimful.weather import read_weather

    wind_height, latitude, elevation = place
    return read_weather(path, dict(columns), wind_height_m=wind_height, latitude_deg=latitude, elevation_m=elevation)


def _from_days(site: Site, weather: "DailyWeather", season: Season, notes: Notes, ledger: Ledger) -> Climate:
    from brimful.weather import reference_et

    result = reference_et(weather, coastal=site.coastal)
    for note in weather.notes:
        place = f" (line {note.line})" if note.line else ""
        tell = notes.note if note.code in HARMLESS else notes.warn
        tell(f"weather-{note.code}", ("site", "weather"), f"{Path(weather.source).name}{place}: {note.message}", "")
    filled = tuple(f"{fill.variable}: {fill.rule}, {fill.days_count} days" for fill in result.fills)
    for fill in result.fills:
        if not fill.measured:
            notes.assume(
                f"site.weather.{fill.variable}",
                f"{fill.variable} where the weather file has none",
                fill.rule,
                "FAO-56 (read)",
            )
    at = ledger.at("site")
    days, et0 = weather.day_of_year, result.et0_mm
    planting = at.work(
        "et0_planting_mm_day", mean_around, et0_mm=et0, day_of_year=days, day=season.planting_day, width_days=FORTNIGHT
    )
    middle = middle_of(season.planting_day, season.season_end)
    mid = at.work("et0_mid_season_mm_day", mean_around, et0_mm=et0, day_of_year=days, day=middle, width_days=2 * MONTH)
    peak = at.work(
        "et0_peak_mm_day",
        hottest_decile,
        et0_mm=et0,
        day_of_year=days,
        first_day=season.planting_day,
        last_day=season.season_end,
    )
    grown = at.work(
        "hot_days_past_count",
        day_hot_days_are_past,
        et0_mm=et0,
        day_of_year=days,
        first_day=season.planting_day,
        last_day=season.season_end,
        hot_mm=peak,
    )
    occasions = (
        OccasionClimate("planting_day", planting, "mean of the fortnight around planting day", 0),
        OccasionClimate("mid_season", mid, "mean of the month around the middle of the season", days_of(season) // 2),
        OccasionClimate("peak", peak, "exceeded on one day in ten of the season", grown),
    )
    place = site.place or UNNAMED
    source = Path(weather.source).name
    worked = SiteWorked(
        place, weather.latitude_deg, weather.elevation_m or 0.0, source, weather.days_count, filled, occasions
    )
    return Climate(worked, occasions, _warmth_of(weather, season))


def days_of(season: Season) -> int:
    """Days from planting day to the season's end."""
    return (season.season_end - season.planting_day) % 366


def _warmth_of(weather: "DailyWeather", season: Season) -> Warmth:
    """The mean of each day of the season over all years of the record; a day it lacks lies between its neighbours."""
    import numpy as np

    from brimful.domains.climate.nights import first_cold_night, season_nights

    mean, day = (weather.tmax_c + weather.tmin_c) / 2, weather.day_of_year
    known = np.isfinite(mean)
    total = np.bincount(day[known], mean[known], minlength=367)
    count = np.bincount(day[known], minlength=367)
    have = np.flatnonzero(count)
    wanted = (season.planting_day - 1 + np.arange(max(days_of(season) + 1, LEAST_DAYS))) % 366 + 1
    found = np.interp(wanted, have, total[have] / count[have], period=366)
    first = datetime.date(2024, 1, 1) + datetime.timedelta(days=season.planting_day - 1)
    nights = season_nights(weather.dates, weather.tmin_c, first, min(found.size, 366))
    frost = first_cold_night(nights, FREEZING_C, int(found[: nights.low_c.shape[1]].argmax()))
    southern = (weather.latitude_deg or 0.0) < 0
    taken_as = f"mean days of {Path(weather.source).name}"
    return Warmth(tuple(found.tolist()), taken_as, season.planting_day, frost, southern)


def _without_weather(site: Site, season: Season | None, notes: Notes) -> Climate | None:
    planting, mid, peak = WITHOUT_WEATHER_MM
    said = f"{planting:g}, {mid:g} and {peak:g} mm a day on planting day, mid-season and the hottest days"
    notes.assume("site.weather", "reference evapotranspiration", said, FAO_TABLE)
    notes.warn(
        "no-weather", ("site",), f"no weather was given; {said} are taken", 'Add weather = "FILE.csv" under [site].'
    )
    if season is None:
        return None
    taken = "assumed, no weather given"
    occasions = (
        OccasionClimate("planting_day", planting, taken, 0),
        OccasionClimate("mid_season", mid, taken, days_of(season) // 2),
        OccasionClimate("peak", peak, taken, days_of(season)),
    )
    worked = SiteWorked(site.place or UNNAMED, site.latitude, site.elevation or 0.0, NO_WEATHER, 0, (), occasions)
    days = max(days_of(season) + 1, LEAST_DAYS)
    words = f"days of {USUAL_C:g} °C, for which growers tell weeks to fill"
    return Climate(
        worked, occasions, Warmth((USUAL_C,) * days, words, season.planting_day, southern=(site.latitude or 0.0) < 0)
    )


def mean_around(et0_mm: "NDArray[np.float64]", day_of_year: "NDArray[np.int64]", day: int, width_days: int) -> float:
    """Mean reference evapotranspiration around a day of the year, over all years of the record, in mm a day.

    Formula: mean of all days within half the width of the day, in every year.
    Args: et0_mm: of each day [mm/day]; day_of_year [1 … 366]; day [1 … 366]; width_days [days]
    Returns: [mm/day]
    Valid: a record with at least one such day
    Source: ET0 of each day by FAO-56 equation 6; the mean is arithmetic
    """
    import numpy as np

    from_day = np.abs((day_of_year - day + 183) % 366 - 183)
    near = et0_mm[from_day <= width_days / 2]
    near = near[np.isfinite(near)]
    if not near.size:
        raise WeatherError(
            f"the weather has no day within {width_days // 2} days of {_said(day)}; expected some in each season"
        )
    return float(near.mean())


def hottest_decile(
    et0_mm: "NDArray[np.float64]", day_of_year: "NDArray[np.int64]", first_day: int, last_day: int
) -> float:
    """Reference evapotranspiration that one day in ten of the season exceeds, in mm a day.

    Formula: 90th percentile of all days from planting day to the season's end, in every year.
    Args: et0_mm: of each day [mm/day]; day_of_year [1 … 366]; first_day, last_day of the season [1 … 366]
    Returns: [mm/day]
    Valid: a record with at least one day of the season
    Source: ET0 of each day by FAO-56 equation 6; one day in ten is common practice, no source
    """
    import numpy as np

    length = (last_day - first_day) % 366
    within = et0_mm[(day_of_year - first_day) % 366 <= length]
    within = within[np.isfinite(within)]
    if not within.size:
        raise WeatherError(
            "the weather has no day within the season; expected some. Check the dates of file and season."
        )
    return float(np.percentile(within, HOTTEST))


def day_hot_days_are_past(
    et0_mm: "NDArray[np.float64]", day_of_year: "NDArray[np.int64]", *, first_day: int, last_day: int, hot_mm: float
) -> int:
    """The day of the season by which nine in ten of its hottest days are past, counted from planting day.

    Formula: 90th percentile of the days that reach `hot_mm`, over all years; plants are taken as grown by then.
    Args: et0_mm: of each day [mm/day]; day_of_year [1 … 366]; first_day, last_day of the season [1 … 366];
        hot_mm: from where a day is among the hottest [mm/day]
    Returns: [days after planting day]
    Valid: a record with at least one such day
    Source: our own rule: late in the hot spell leaves cover more, so that the water is not reckoned too small
    """
    import numpy as np

    since = (day_of_year - first_day) % 366
    hot = since[np.isfinite(et0_mm) & (since <= (last_day - first_day) % 366) & (et0_mm >= hot_mm)]
    return int(np.percentile(hot, HOTTEST)) if hot.size else 0


def middle_of(first_day: int, last_day: int) -> int:
    """The day of the year half way through the season, over the new year where the season runs so."""
    return (first_day + ((last_day - first_day) % 366) // 2 - 1) % 366 + 1


def _said(day: int) -> str:
    """A day of the leap calendar as a person says it."""
    date = datetime.date(2024, 1, 1) + datetime.timedelta(days=day - 1)
    return f"{date.day} {date:%B}"
