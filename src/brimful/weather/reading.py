"""Daily weather from any file that Brimful can read: it looks at the text and takes the reader that fits."""

from collections.abc import Mapping
from pathlib import Path

from brimful.weather.file_text import read_text
from brimful.weather.forecast import read_forecast
from brimful.weather.ghcn import is_lean, is_wide, read_lean, read_wide
from brimful.weather.order import in_order
from brimful.weather.raw import RawDays
from brimful.weather.record import DailyWeather
from brimful.weather.table import read_table


def read_weather(
    path: Path,
    columns: Mapping[str, str] | None = None,
    *,
    wind_height_m: float | None = None,
    latitude_deg: float | None = None,
    elevation_m: float | None = None,
) -> DailyWeather:
    """The days of a weather file: CSV with a header, GHCN-Daily by station (both layouts), or forecast JSON.

    Args:
        path: the file
        columns: for CSV, what its columns are: key → "HEADER unit", such as {"tmax": "MX °F"}; keys are date (or year,
            month, day), tmax, tmin, dew, rh_max, rh_min, rh_mean, radiation, sunshine, wind, rain, et0. Headers that
            say it themselves ("tmax_F", "rain (mm)") need none; "" leaves a column out
        wind_height_m: height of the wind instrument [m]; 10 m where neither this nor the file says
        latitude_deg: of the place, before the file's own [°]
        elevation_m: of the place, before the file's own [m]
    Raises:
        WeatherError: the file cannot be used; says where, what was given, what was expected and what to do
    """
    raw = read_days(read_text(path), columns or {}, str(path))
    return in_order(raw, str(path), wind_height_m=wind_height_m, latitude_deg=latitude_deg, elevation_m=elevation_m)


def read_days(text: str, columns: Mapping[str, str], file: str) -> RawDays:
    """The rows of a weather text, by whichever reader knows its form."""
    start = text.lstrip()[:4096]
    first = start.split("\n", 1)[0]
    if start[:1] in ("{", "["):
        return read_forecast(text, file)
    if is_lean(first):
        return read_lean(text, file)
    if is_wide(first) and not columns:
        return read_wide(text, file)
    return read_table(text, columns, file)
