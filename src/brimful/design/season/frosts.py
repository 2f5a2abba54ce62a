"""Frost dates with their chances: from the record's own nights, and from a weather service's normals where given."""

import math
from pathlib import Path

import numpy as np

from brimful.design.season.model import FrostFreeWorked, FrostWorked
from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import Season
from brimful.domains.climate.frost import (
    HARD_FROST_C,
    FrostDates,
    first_frost_day,
    frost_dates,
    last_frost_day,
    month_and_day,
)
from brimful.errors import WeatherError
from brimful.plan.schema import Site
from brimful.weather import DailyWeather
from brimful.weather.frost_normals import FrostDay, read_frost_normals

ENOUGH_YEARS = 10
"""Nine years in ten can be told from no fewer."""
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def frosts_of(weather: DailyWeather, site: Site, season: Season, folder: Path, notes: Notes) -> tuple[FrostWorked, ...]:
    """Frost and hard frost of the record, then what published normals say."""
    southern = (weather.latitude_deg or 0.0) < 0
    found = [_of_record(weather, season, threshold, southern) for threshold in (0.0, HARD_FROST_C)]
    if site.frost_normals is not None:
        try:
            found.extend(_of_normals(read_frost_normals(folder / site.frost_normals), site.frost_normals))
        except WeatherError as error:
            notes.wrong("weather-unusable", ("site", "frost_normals"), str(error), "")
    return tuple(found)


def frost_free_of(frosts: tuple[FrostWorked, ...]) -> FrostFreeWorked | None:
    """The season that frost leaves in nine years of ten: by published normals where they were given, else the record's
    own nights; None where a date is not known, or the years are too few to say."""
    freezing = [
        f
        for f in frosts
        if f.threshold_c == 0.0 and f.years_count >= ENOUGH_YEARS and "none" not in (f.last_safe, f.first_safe)
    ]
    if not freezing:
        return None
    return FrostFreeWorked(freezing[-1].last_safe, freezing[-1].first_safe, freezing[-1].source)


def _of_record(weather: DailyWeather, season: Season, threshold_c: float, southern: bool) -> FrostWorked:
    frosts = frost_dates(weather.dates, weather.tmin_c, threshold_c=threshold_c, southern=southern)
    days = (
        last_frost_day(frosts, 0.5),
        last_frost_day(frosts, 0.1),
        first_frost_day(frosts, 0.5),
        first_frost_day(frosts, 0.1),
    )
    words = [_words(day, southern) for day in days]
    after, before = _risks(frosts, season, southern)
    years = int(frosts.spring_years.size)
    return FrostWorked(
        threshold_c, words[0], words[1], words[2], words[3], after, before, years, Path(weather.source).name
    )


def _risks(frosts: FrostDates, season: Season, southern: bool) -> tuple[float | None, float | None]:
    """Share of years with frost after planting day, and with frost before the season's end."""
    start, end = (_counted(day, southern) for day in (season.planting_day, season.season_end))
    after = float(np.mean(np.nan_to_num(frosts.last_spring, nan=-1) >= start)) if frosts.spring_years.size else None
    before = float(np.mean(np.nan_to_num(frosts.first_autumn, nan=999) <= end)) if frosts.autumn_years.size else None
    return after, before


def _counted(day: int, southern: bool) -> int:
    """A day of the leap calendar as frost dates count: from 1 January, or from 1 July south of the equator."""
    plain = day if day < 60 else day - 1
    return plain if not southern else (plain - 182) % 365 + 1


def _words(day: float, southern: bool) -> str:
    if math.isnan(day):
        return "none"
    month, number = month_and_day(day, southern=southern)
    return f"{number} {MONTHS[month - 1]}"


def _of_normals(days: tuple[FrostDay, ...], file: str) -> list[FrostWorked]:
    """Published dates, by threshold, the warmest first."""
    at = {(d.threshold_c, d.last, d.chance): f"{d.day} {MONTHS[d.month - 1]}" for d in days}
    keys = ((True, 0.5), (True, 0.1), (False, 0.5), (False, 0.1))
    found = []
    for threshold in sorted({d.threshold_c for d in days}, reverse=True):
        words = [at.get((threshold, last, chance), "none") for last, chance in keys]
        found.append(FrostWorked(threshold, words[0], words[1], words[2], words[3], None, None, 30, file))
    return found
