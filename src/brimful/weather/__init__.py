"""Daily weather files read into one shape, gaps filled by stated rules."""

from brimful.weather.normals import from_normals
from brimful.weather.reading import read_weather
from brimful.weather.record import DailyWeather, WeatherNote
from brimful.weather.reference import reference_et

__all__ = ["DailyWeather", "WeatherNote", "from_normals", "read_weather", "reference_et"]
