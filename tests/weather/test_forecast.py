"""The JSON of a forecast service: units, gaps, errors; invented values."""

import json
import math
from typing import Any

import pytest

from brimful.errors import WeatherError
from brimful.weather import DailyWeather
from brimful.weather.order import in_order
from brimful.weather.reading import read_days

ANSWER: dict[str, Any] = {
    "latitude": 47.6,
    "longitude": -122.3,
    "elevation": 42.0,
    "daily_units": {
        "time": "iso8601",
        "temperature_2m_max": "°F",
        "temperature_2m_min": "°F",
        "precipitation_sum": "inch",
        "wind_speed_10m_mean": "km/h",
        "wind_speed_10m_max": "km/h",
        "shortwave_radiation_sum": "MJ/m²",
        "sunshine_duration": "s",
        "relative_humidity_2m_mean": "%",
        "et0_fao_evapotranspiration": "mm",
    },
    "daily": {
        "time": ["2015-07-01", "2015-07-02"],
        "temperature_2m_max": [86.0, 77.0],
        "temperature_2m_min": [50.0, 59.0],
        "precipitation_sum": [0.0, 0.5],
        "wind_speed_10m_mean": [7.2, 10.8],
        "wind_speed_10m_max": [36.0, 36.0],
        "shortwave_radiation_sum": [25.5, None],
        "sunshine_duration": [36000.0, 18000.0],
        "relative_humidity_2m_mean": [55, 70],
        "et0_fao_evapotranspiration": [5.1, 3.2],
    },
}


def read(answer: object) -> DailyWeather:
    """The record that this answer makes."""
    return in_order(read_days(json.dumps(answer), {}, "some.json"), "some.json")


def changed(part: str, name: str, value: object) -> dict[str, Any]:
    """The answer with one thing changed."""
    return {**ANSWER, part: {**ANSWER[part], name: value}}


def test_units_are_read_and_turned() -> None:
    """°F, inch, km/h, seconds become °C, mm, m/s, hours; null stays unknown; the place comes along."""
    weather = read(ANSWER)
    assert weather.tmax_c == pytest.approx([30.0, 25.0])
    assert weather.rain_mm == pytest.approx([0.0, 12.7])
    assert weather.wind_m_s == pytest.approx([2.0, 3.0])
    assert weather.sunshine_h == pytest.approx([10.0, 5.0])
    assert weather.rh_mean_pct == pytest.approx([55.0, 70.0])
    assert weather.radiation_mj_m2 is not None
    assert math.isnan(weather.radiation_mj_m2[1])
    assert (weather.latitude_deg, weather.elevation_m, weather.wind_height_m) == (47.6, 42.0, 10.0)
    assert "wind_max" in {note.code for note in weather.notes}


def test_miles_an_hour_as_the_service_spells_them() -> None:
    """The service writes mp/h for miles an hour."""
    weather = read(changed("daily_units", "wind_speed_10m_mean", "mp/h"))
    assert weather.wind_m_s is not None
    assert weather.wind_m_s[0] == pytest.approx(7.2 * 0.44704)


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        ({"error": True, "reason": "Latitude must be in range"}, "Latitude must be in range"),
        ([1, 2], "the JSON is a list"),
        ({"daily": {}}, 'no "daily"'),
        (changed("daily", "time", []), "has no days"),
        (changed("daily", "temperature_2m_max", [1.0]), "one value for each of the 2 days"),
        (changed("daily_units", "temperature_2m_max", "degrees of warmth"), 'the unit of "temperature_2m_max"'),
        (changed("daily", "temperature_2m_max", [None, None]), "tmax is not known on any day"),
    ],
)
def test_what_is_wrong_is_said(answer: object, said: str) -> None:
    """A broken answer is one sentence."""
    with pytest.raises(WeatherError) as caught:
        read(answer)
    assert said in str(caught.value)


def test_cut_off_json() -> None:
    """Half an answer is named with its line."""
    with pytest.raises(WeatherError, match=r"some.json:1: the text is not JSON"):
        read_days(json.dumps(ANSWER)[:200], {}, "some.json")
