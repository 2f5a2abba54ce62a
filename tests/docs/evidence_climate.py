"""Rows of docs/evidence.md: sun and reference evapotranspiration."""

from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
from tests.docs.evidence_row import Row
from tests.published.test_eto_dataset import ROUNDED, load

import brimful
from brimful.domains.climate import atmosphere, evapotranspiration, hourly, radiation
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.degree_days import degree_days
from brimful.domains.climate.record import DailyRecord, Place
from brimful.domains.climate.sky import haurwitz_w_m2
from brimful.domains.climate.sun import SunPlace, apparent_elevation_deg, days_since_2000, sun_position
from brimful.weather import read_weather, reference_et
from brimful.weather.record import day_of_year

FALLON = Path(brimful.__file__).parent / "examples" / "fallon_2015.csv"
COLUMNS = {
    "tmax": "MX °F", "tmin": "MN °F", "radiation": "SR langley", "dew": "YM °F", "wind": "UA mph", "et0": "ETOS in",
}  # fmt: skip


def fao(example: str, page: str) -> str:
    """The citation of an example."""
    return f"FAO-56 (Allen et al. 1998), example {example}, p.{page}"


@cache
def fallon() -> tuple[np.ndarray, np.ndarray]:
    """Our and the network's ET0 of each day with wind [mm]."""
    weather = read_weather(FALLON, COLUMNS, wind_height_m=3.0, latitude_deg=39.4575, elevation_m=1208.5)
    assert weather.et0_mm is not None
    return reference_et(weather).et0_mm, weather.et0_mm


def days_off() -> int:
    """Days of the data set that differ from its answer by more than the last digit."""
    dates, days = load("example_daily")
    answers = load("example_daily_results")[1]["ETo_FAO_mm"]
    record = DailyRecord(
        day_of_year(dates), days["T_max"], days["T_min"], vapour_kpa=days["e_a"], radiation_mj_m2=days["R_s"]
    )
    off = np.abs(reference_et_of_days(record, Place(-43.6, 500.0)).et0_mm - answers)
    return int(np.count_nonzero(off > ROUNDED))


def bangkok() -> float:
    """Example 17."""
    above, hours = (f(13 + 44 / 60, 105) for f in (radiation.extraterrestrial_radiation, radiation.day_length))
    sunlight = radiation.radiation_from_sunshine(8.5, hours, extraterrestrial_mj_m2=above)
    clearness = radiation.relative_clearness(sunlight, radiation.clear_sky_radiation(2.0, above))
    longwave = radiation.net_longwave(34.8, 25.6, vapour_kpa=2.85, clearness=clearness)
    kept = radiation.net_radiation(radiation.net_shortwave(sunlight), longwave)
    energy = kept - evapotranspiration.soil_heat_of_month_so_far(29.2, 30.2)
    return float(
        evapotranspiration.reference_evapotranspiration(
            34.8, 25.6, vapour_kpa=2.85, net_energy_mj_m2=energy, wind_2m_m_s=2.0, elevation_m=2.0
        )
    )


def uccle() -> float:
    """Example 18."""
    measured = {"rh_max_pct": 84.0, "rh_min_pct": 63.0, "sunshine_h": 9.25, "wind_m_s": 10 / 3.6}
    record = DailyRecord(
        np.array([187]), np.array([21.5]), np.array([12.3]), **{key: np.array([v]) for key, v in measured.items()}
    )
    return float(reference_et_of_days(record, Place(50.80, 100.0, wind_height_m=10.0)).et0_mm[0])


def ndiaye() -> float:
    """Example 19, the afternoon hour."""
    angle = hourly.solar_hour_angle(14.5, 274, longitude_west_deg=16.25, zone_longitude_west_deg=15.0)
    clear = radiation.clear_sky_radiation(8.0, hourly.extraterrestrial_radiation_of_hour(16.22, 274, angle))
    vapour = atmosphere.saturation_vapour_pressure(38.0) * 0.52
    kept = hourly.net_radiation_of_hour(38.0, vapour, radiation_mj_m2=2.450, clearness=2.450 / clear)
    return float(
        hourly.reference_evapotranspiration_of_hour(
            38.0, vapour, net_radiation_mj_m2=kept, wind_2m_m_s=3.3, elevation_m=8.0
        )
    )


def lyon() -> float:
    """Example 20, from temperatures alone."""
    record = DailyRecord(np.array([196]), np.array([26.6]), np.array([14.8]), wind_m_s=np.array([2.0]))
    return float(reference_et_of_days(record, Place(45.72, 200.0)).et0_mm[0])


def rio(clearness: float = 14.5 / 18.8) -> float:
    """Examples 11 and 12."""
    longwave = radiation.net_longwave(25.1, 19.1, vapour_kpa=2.1, clearness=clearness)
    return float(radiation.net_radiation(radiation.net_shortwave(14.5), longwave))


def spa_zenith() -> float:
    """Apparent zenith of the sun in the worked example of SPA."""
    moment = np.array([days_since_2000(date(2003, 10, 17)) + (12.5 + 30.0 / 3600.0 + 7.0) / 24.0])
    sun = sun_position(moment, SunPlace(39.742476, -105.1786))
    return float(90.0 - apparent_elevation_deg(sun.elevation_deg, 82.0, 11.0)[0])


ROWS = (
    Row("air pressure at 1800 m, kPa", fao("2", "32"), "read", "81.8", lambda: atmosphere.air_pressure(1800.0), 0.05),
    Row("psychrometric constant there, kPa/°C", fao("2", "32"), "read", "0.054",
        lambda: atmosphere.psychrometric_constant(atmosphere.air_pressure(1800.0)), 5e-4),
    Row("saturation vapour pressure at 24.5 °C, kPa", fao("3", "36"), "read", "3.075",
        lambda: atmosphere.saturation_vapour_pressure(24.5), 5e-4),
    Row("the same, mean of a day of 24.5 and 15 °C", fao("3", "36"), "read", "2.39",
        lambda: atmosphere.mean_saturation_vapour_pressure(24.5, 15.0), 5e-3),
    Row("extraterrestrial radiation, 20° S, 3 September, MJ/m²", fao("8", "47"), "read", "32.2",
        lambda: radiation.extraterrestrial_radiation(-20.0, 246), 0.05),
    Row("daylight there, h", fao("9", "49"), "read", "11.7", lambda: radiation.day_length(-20.0, 246), 0.05),
    Row("net radiation, Rio in May, MJ/m²", fao("11 and 12", "52"), "read", "7.6", rio, 0.05),
    Row("wind at 2 m for 3.2 m/s at 10 m, m/s", fao("14", "56"), "read", "2.4",
        lambda: atmosphere.wind_at_2m(3.2, 10.0), 0.05),
    Row("ET0, Bangkok, April, mm/day", fao("17", "70"), "read", "5.72", bangkok, 5e-3),
    Row("ET0, Uccle, 6 July, mm/day", fao("18", "72"), "read", "3.88", uccle, 5e-3),
    Row("ET0, N'Diaye, 14 to 15 h, mm/h", fao("19", "75"), "read", "0.63", ndiaye, 5e-3),
    Row("ET0, Lyon, July, temperatures alone, mm/day", fao("20", "77"), "read", "4.56", lyon, 5e-3),
    Row("the same by Hargreaves, equation 52", fao("20", "78"), "read", "5.0",
        lambda: evapotranspiration.hargreaves_evapotranspiration(
            26.6, 14.8, extraterrestrial_mj_m2=radiation.extraterrestrial_radiation(45.72, 196)), 0.05),
    Row("ET0 of the whole year 2015 at Fallon, Nevada, mm", "US Bureau of Reclamation network, ETOS", "read", "1322.3",
        lambda: float(fallon()[0].sum()), 6.6),
    Row("mean difference of a day there, all 365 days, mm", "the same, two decimals of an inch", "read", "0.0",
        lambda: float(np.abs(fallon()[0] - fallon()[1]).mean()), 0.1),
    Row("days of 5,816 off by more than the last digit; on each the light passes a cloudless day's, where we cap it",
        "data set of the Python package eto", "read", "0", days_off, 7.0),
    Row("degree days above 50 °F of a day of 65 and 40 °F", "Nugent, Michigan State University Extension", "read",
        "2.5", lambda: degree_days(65.0, 40.0, base=50.0), 0.05),
    Row("zenith of the sun, 17 Oct 2003 near Golden, °", "Reda & Andreas 2003, NREL/TP-560-34302", "memory",
        "50.11162", spa_zenith, 5e-3),
    Row("cloudless light with the sun at the zenith 30°, W/m²", "Haurwitz 1945", "memory", "888.27",
        lambda: float(haurwitz_w_m2(np.array([60.0]))[0]), 5e-3),
)  # fmt: skip
