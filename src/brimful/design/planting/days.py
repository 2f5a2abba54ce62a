"""What the weather of the place says of the days a planting stands: warm mix, last frost, cold nights, its end."""

import math
from dataclasses import field
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.care.mix_warmth import WALL_C
from brimful.design.climate import read_weather_of
from brimful.design.settle.notes import Notes
from brimful.errors import WeatherError
from brimful.plan.read import Places
from brimful.plan.schema import Site
from brimful.records import record

if TYPE_CHECKING:
    from brimful.domains.climate.nights import SeasonNights
    from brimful.weather import DailyWeather
    from brimful.weather.frost_normals import FrostDay

ONE_IN_TEN = 0.1
ASSUMED_COLDEST_C = 1.0
"""Taken where there is no weather: just above freezing, as plants stand from the last frost to the first (own rule)."""
ASSUMED = f"assumed {ASSUMED_COLDEST_C:g} °C, just above frost: no weather was given"
FIRST_DAYS = 28
"""Nights so soon after planting count as spring's even where the season only cools (our own rule)."""
AUTUMN_AFTER_DAYS = 120
"""Planted so long after the last frost is planted in autumn, and spring's dates do not apply (our own rule)."""


@record
class SiteDays:
    """Days from planting on. `mix_c`: mean temperature of the mix on each day of a year from planting day; `nights`:
    of each season of the record; `warmest`: the day from which it only cools; `last_frost`: kept by nine springs of
    ten, None where no frost comes or nothing is known; `in_autumn`: spring's dates do not apply."""

    planted: date
    removed: date
    coldest_c: float = ASSUMED_COLDEST_C
    coldest_taken_as: str = ASSUMED
    mix_c: tuple[float, ...] = ()
    last_frost: date | None = None
    frost_taken_as: str = ""
    in_autumn: bool = False
    warmest: int = 0
    nights: "SeasonNights | None" = field(default=None, compare=False)

    @property
    def seasons_words(self) -> str:
        """How often something is that half of the seasons have, as far as the record tells."""
        one = self.nights is not None and self.nights.seasons == 1
        return "the one season on record has" if one else "half of the seasons have"

    @property
    def cold_known(self) -> bool:
        """Whether the coldest night is of a record or published, and not assumed."""
        return not self.coldest_taken_as.startswith("assumed")

    @property
    def known(self) -> bool:
        """Whether there is weather to go by."""
        return bool(self.mix_c)

    def ends_on(self, harmed_c: float) -> date | None:
        """The day by which half of the seasons have a night, after the warmest time, that harms at this temperature;
        None where fewer than half do before the plants are removed."""
        from brimful.domains.climate.nights import first_cold_night

        night = None if self.nights is None else first_cold_night(self.nights, harmed_c, self.warmest)
        return None if night is None else self.planted + timedelta(days=night)

    def safe_from(self, harmed_c: float) -> date | None:
        """The first day from planting on after which nine seasons of ten have no such night until the warmest time;
        None where it is not known or there is none."""
        from brimful.domains.climate.nights import coldest_night_c

        if self.nights is None:
            return None
        end = _until(self.warmest, self.nights)
        days = range(end)
        safe = (day for day in days if coldest_night_c(self.nights, day, end, ONE_IN_TEN) > harmed_c)
        first = next(safe, None)
        return None if first is None else self.planted + timedelta(days=first)


def days_of(site: Site, folder: Path, planted: date, removed: date) -> SiteDays:
    """What the place's weather, made days or published frost dates say; what is assumed where there is none."""
    normals = _frost_normals(site, folder)
    weather = None
    if site.weather is not None or site.normals is not None:
        weather = read_weather_of(site, folder, Notes(Places()))  # what is wrong with it the design has told
    if weather is None:
        last, said = _last_frost(None, normals, planted, southern=(site.latitude or 0.0) < 0)
        coldest, taken = _published_coldest(normals, planted) or (ASSUMED_COLDEST_C, ASSUMED)
        return SiteDays(planted, removed, coldest, taken, (), last, said, _in_autumn(last, planted))
    return _from_weather(weather, normals, planted, removed)


def _from_weather(weather: "DailyWeather", normals: "tuple[FrostDay, ...]", planted: date, removed: date) -> SiteDays:
    import numpy as np

    from brimful.domains.climate.nights import coldest_night_c, mean_by_day, season_nights

    stand = min((removed - planted).days + 1, 366)
    means = mean_by_day(weather.day_of_year, (weather.tmax_c + weather.tmin_c) / 2)
    means = np.where(np.isfinite(means), means, np.nanmean(means))
    mean_c = np.roll(means, 1 - planted.timetuple().tm_yday)
    nights = season_nights(weather.dates, weather.tmin_c, planted, stand)
    warmest = int(mean_c[:stand].argmax())
    last, said = _last_frost(weather, normals, planted, southern=(weather.latitude_deg or 0.0) < 0)
    coldest = coldest_night_c(nights, 0, _until(warmest, nights), ONE_IN_TEN)
    seasons = f"{nights.seasons} seasons of {Path(weather.source).name}"
    taken = f"one season in ten has such a night after planting ({seasons})"
    if nights.seasons == 1:
        taken = f"the coldest night after planting of the one season in {Path(weather.source).name}"
    if math.isnan(coldest):
        coldest, taken = ASSUMED_COLDEST_C, f"assumed {ASSUMED_COLDEST_C:g} °C: no season of the weather is whole"
    coldest, taken = _published_coldest(normals, planted) or (coldest, taken)
    mix = tuple(float(value) + WALL_C for value in mean_c)
    known = nights if nights.seasons else None
    return SiteDays(planted, removed, coldest, taken, mix, last, said, _in_autumn(last, planted), warmest, known)


def _until(warmest: int, nights: "SeasonNights") -> int:
    return min(max(warmest, FIRST_DAYS), int(nights.low_c.shape[1]))


def _frost_normals(site: Site, folder: Path) -> "tuple[FrostDay, ...]":
    from brimful.weather.frost_normals import read_frost_normals

    if site.frost_normals is None:
        return ()
    try:
        return read_frost_normals(folder / site.frost_normals)
    except WeatherError:  # the season tells of it
        return ()


def _last_frost(
    weather: "DailyWeather | None", normals: "tuple[FrostDay, ...]", planted: date, *, southern: bool
) -> tuple[date | None, str]:
    """The last frost that nine springs of ten keep to: published where it is, else of the record's own nights."""
    published = next((d for d in normals if d.last and d.threshold_c == 0.0 and d.chance == ONE_IN_TEN), None)
    if published is not None:
        return _in_spring(published.month, published.day, planted), "nine springs of ten, by published normals"
    if weather is None:
        return None, ""
    from brimful.domains.climate.frost import frost_dates, last_frost_day, month_and_day

    frosts = frost_dates(weather.dates, weather.tmin_c, southern=southern)
    day = last_frost_day(frosts, ONE_IN_TEN)
    if math.isnan(day):
        return None, "no frost in nine springs of ten"
    month, number = month_and_day(day, southern=southern)
    count, name = int(frosts.spring_years.size), Path(weather.source).name
    said = f"nine springs of ten, going by {count} in {name}" if count > 1 else f"the one spring in {name}"
    return _in_spring(month, number, planted), said


def _in_spring(month: int, day: int, planted: date) -> date:
    """That day in the spring the planting belongs to: the latest that lies no more than 100 days after planting."""
    years = (planted.year - 1, planted.year, planted.year + 1)
    return max(when for year in years if (when := date(year, month, day)) <= planted + timedelta(days=100))


def _in_autumn(last_frost: date | None, planted: date) -> bool:
    return last_frost is not None and planted - last_frost > timedelta(days=AUTUMN_AFTER_DAYS)


def _published_coldest(normals: "tuple[FrostDay, ...]", planted: date) -> tuple[float, str] | None:
    """The coldest night that one spring in ten still has after planting, to the step of the published thresholds."""
    known = {d.threshold_c: _in_spring(d.month, d.day, planted) for d in normals if d.last and d.chance == ONE_IN_TEN}
    if not known or _in_autumn(max(known.values()), planted):
        return None
    ahead = [threshold for threshold, day in known.items() if day >= planted]
    if ahead:
        return min(ahead), "published normals: one spring in ten still has such a night after planting"
    return max(known), "published normals: nine springs of ten have no such night after planting"
