"""Twenty-one years of nights at Graz.

Data: the Austrian national weather service (CC BY 4.0), Graz, Austria, 47.08° N, 2000–2020, daily minimum. The dates
are computed here a second time with the calendar and statistics of the standard library, in the way of the US climate
normals (NOAA, PRBLST and PRBFST); the expected dates are those of an independent calculation.
"""

import csv
import datetime
import statistics
from pathlib import Path

import pytest

from brimful.domains.climate.frost import HARD_FROST_C, first_frost_day, frost_dates, last_frost_day, month_and_day
from brimful.weather import DailyWeather, read_weather

FILE = Path(__file__).parents[1] / "data" / "graz.csv"


@pytest.fixture(scope="module")
def graz() -> DailyWeather:
    """The record, as the general CSV reader reads it."""
    columns = {
        "date": "time",
        "tmax": "tmax °C",
        "tmin": "tmin °C",
        "radiation": "strahl J/cm²",
        "rh_mean": "rel %",
        "wind": "vv m/s",
    }
    return read_weather(FILE, columns, latitude_deg=47.08, elevation_m=366.0)


@pytest.mark.parametrize(
    ("threshold_c", "dates"),
    [
        (0.0, ((4, 6), (4, 21), (11, 5), (10, 17))),
        (HARD_FROST_C, ((3, 14), (3, 28), None, None)),
    ],
)
def test_dates(graz: DailyWeather, threshold_c: float, dates: tuple[tuple[int, int] | None, ...]) -> None:
    """Last frost by half and by nine of ten springs, first by half and after nine of ten autumns (calculated)."""
    known = graz.years <= 2020
    frosts = frost_dates(graz.dates[known], graz.tmin_c[known], threshold_c=threshold_c)
    ours = (
        last_frost_day(frosts, 0.5),
        last_frost_day(frosts, 0.1),
        first_frost_day(frosts, 0.5),
        first_frost_day(frosts, 0.1),
    )
    assert frosts.spring_years.size == 21
    assert all(month_and_day(day) == expected for day, expected in zip(ours, dates, strict=True) if expected)


def test_against_the_standard_library(graz: DailyWeather) -> None:
    """The same quantiles from the raw file with datetime and statistics alone."""
    spring: dict[int, int] = {}
    with FILE.open() as file:
        for row in csv.DictReader(file):
            day = datetime.date.fromisoformat(row["time"])
            if day.year <= 2020 and day.month <= 7 and row["tmin"] and float(row["tmin"]) <= 0.0:
                spring[day.year] = day.replace(year=2001).timetuple().tm_yday if (day.month, day.day) != (2, 29) else 59
    tenths = statistics.quantiles(spring.values(), n=10, method="inclusive")
    known = graz.years <= 2020
    frosts = frost_dates(graz.dates[known], graz.tmin_c[known])
    assert last_frost_day(frosts, 0.5) == pytest.approx(tenths[4])
    assert last_frost_day(frosts, 0.1) == pytest.approx(tenths[8])
