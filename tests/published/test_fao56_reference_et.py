"""Worked examples of the reference evapotranspiration.

Allen, Pereira, Raes and Smith (1998), Crop evapotranspiration, FAO Irrigation and Drainage Paper 56. Page beside each
value (read); examples 4 and 5 as quoted in the tests of pyet 1.5.0 (read). Tolerance: half the last printed digit,
or one of the last digit where the paper itself goes on with rounded values.
"""

import numpy as np
import pytest

from brimful.domains.climate import atmosphere, evapotranspiration, hourly, radiation
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.record import DailyRecord, Place


def test_example_2_pressure() -> None:
    """P.32: at 1800 m the air presses 81.8 kPa and the psychrometric constant is 0.054 kPa/°C."""
    assert atmosphere.air_pressure(1800.0) == pytest.approx(81.8, abs=0.05)
    assert atmosphere.psychrometric_constant(atmosphere.air_pressure(1800.0)) == pytest.approx(0.054, abs=0.0005)


def test_example_3_saturation() -> None:
    """P.36: 24.5 and 15 °C hold 3.075 and 1.705 kPa, the day 2.39 kPa."""
    assert atmosphere.saturation_vapour_pressure(24.5) == pytest.approx(3.075, abs=0.0005)
    assert atmosphere.saturation_vapour_pressure(15.0) == pytest.approx(1.705, abs=0.0005)
    assert atmosphere.mean_saturation_vapour_pressure(24.5, 15.0) == pytest.approx(2.39, abs=0.005)


def test_example_4_pressure() -> None:
    """P.38: at 1200 m the air presses 87.9 kPa."""
    assert atmosphere.air_pressure(1200.0) == pytest.approx(87.9, abs=0.05)


def test_example_5_vapour_from_humidity() -> None:
    """P.39: 25 and 18 °C with humidity 54 and 82 % hold 1.70 kPa by equation 17, and 1.78 kPa by equation 19."""
    by_extremes = atmosphere.vapour_from_humidity_extremes(25.0, 18.0, rh_max_pct=82.0, rh_min_pct=54.0)
    by_mean = atmosphere.vapour_from_mean_humidity(25.0, 18.0, rh_mean_pct=68.0)
    assert by_extremes == pytest.approx(1.70, abs=0.005)
    assert by_mean == pytest.approx(1.78, abs=0.005)


def test_example_8_extraterrestrial_radiation() -> None:
    """P.47: 20° S on 3 September: d_r 0.985, δ 0.120, ω_s 1.527, R_a 32.2 MJ/m²."""
    assert radiation.earth_sun_distance(246) == pytest.approx(0.985, abs=0.0005)
    assert radiation.solar_declination(246) == pytest.approx(0.120, abs=0.0005)
    assert radiation.sunset_hour_angle(-20.0, radiation.solar_declination(246)) == pytest.approx(1.527, abs=0.0005)
    assert radiation.extraterrestrial_radiation(-20.0, 246) == pytest.approx(32.2, abs=0.05)


def test_example_9_day_length() -> None:
    """P.49: 20° S on 3 September has 11.7 hours of daylight."""
    assert radiation.day_length(-20.0, 246) == pytest.approx(11.7, abs=0.05)


def test_example_10_radiation_from_sunshine() -> None:
    """P.50: Rio de Janeiro (22.9° S) in May, 220 hours of sun: R_a 25.1, N 10.9, R_s 14.5."""
    above, hours = radiation.extraterrestrial_radiation(-22.9, 135), radiation.day_length(-22.9, 135)
    assert above == pytest.approx(25.1, abs=0.05)
    assert hours == pytest.approx(10.9, abs=0.05)
    sunlight = radiation.radiation_from_sunshine(220 / 31, hours, extraterrestrial_mj_m2=above)
    assert sunlight == pytest.approx(14.5, abs=0.05)


def test_examples_11_and_12_net_radiation() -> None:
    """P.52–53: Rio in May, 25.1 and 19.1 °C, e_a 2.1 kPa, R_s/R_so 14.5/18.8: R_nl 3.5, R_n 7.6 MJ/m²."""
    longwave = radiation.net_longwave(25.1, 19.1, vapour_kpa=2.1, clearness=14.5 / 18.8)
    assert longwave == pytest.approx(3.5, abs=0.05)
    assert radiation.net_radiation(radiation.net_shortwave(14.5), longwave) == pytest.approx(7.6, abs=0.05)


def test_example_14_wind() -> None:
    """P.56: 3.2 m/s at 10 m are 2.4 m/s at 2 m."""
    assert atmosphere.wind_at_2m(3.2, 10.0) == pytest.approx(2.4, abs=0.05)


def test_example_15_radiation_from_temperatures() -> None:
    """P.61: Lyon (45.72° N) in July, 26.6 and 14.8 °C: R_a 40.6, R_s 22.3 MJ/m²."""
    above = radiation.extraterrestrial_radiation(45.72, 196)
    sunlight = radiation.radiation_from_temperatures(
        26.6,
        14.8,
        extraterrestrial_mj_m2=above,
        clear_sky_mj_m2=radiation.clear_sky_radiation(200.0, above),
        coefficient=radiation.ANGSTROM_INLAND,
    )
    assert above == pytest.approx(40.6, abs=0.05)
    assert sunlight == pytest.approx(22.3, abs=0.05)


def test_example_17_bangkok_month() -> None:
    """P.70: April, e_a 2.85 kPa, 8.5 h of sun, G 0.14: R_a 38.06, N 12.31, R_s 22.65, R_n 14.33, ET0 5.72 mm."""
    latitude = 13 + 44 / 60
    above, hours = radiation.extraterrestrial_radiation(latitude, 105), radiation.day_length(latitude, 105)
    sunlight = radiation.radiation_from_sunshine(8.5, hours, extraterrestrial_mj_m2=above)
    clearness = radiation.relative_clearness(sunlight, radiation.clear_sky_radiation(2.0, above))
    longwave = radiation.net_longwave(34.8, 25.6, vapour_kpa=2.85, clearness=clearness)
    kept = radiation.net_radiation(radiation.net_shortwave(sunlight), longwave)
    ground = evapotranspiration.soil_heat_of_month_so_far(29.2, 30.2)
    assert (above, hours, sunlight) == pytest.approx((38.06, 12.31, 22.65), abs=0.005)
    assert (kept, ground) == pytest.approx((14.33, 0.14), abs=0.005)
    et0 = evapotranspiration.reference_evapotranspiration(
        34.8, 25.6, vapour_kpa=2.85, net_energy_mj_m2=kept - ground, wind_2m_m_s=2.0, elevation_m=2.0
    )
    assert et0 == pytest.approx(5.72, abs=0.005)


def test_example_18_uccle_day() -> None:
    """P.72: 6 July at 50.80° N, humidity 84/63 %, 10 km/h at 10 m, 9.25 h of sun: u₂ 2.078, e_a 1.409, ET0 3.88 mm."""
    record = DailyRecord(
        np.array([187]),
        np.array([21.5]),
        np.array([12.3]),
        rh_max_pct=np.array([84.0]),
        rh_min_pct=np.array([63.0]),
        sunshine_h=np.array([9.25]),
        wind_m_s=np.array([10 / 3.6]),
    )
    day = reference_et_of_days(record, Place(50.80, 100.0, wind_height_m=10.0))
    assert day.wind_2m_m_s[0] == pytest.approx(2.078, abs=0.001)
    assert day.vapour_kpa[0] == pytest.approx(1.409, abs=0.0005)
    assert day.extraterrestrial_mj_m2[0] == pytest.approx(41.09, abs=0.005)
    assert day.radiation_mj_m2[0] == pytest.approx(22.07, abs=0.005)
    assert day.et0_mm[0] == pytest.approx(3.88, abs=0.005)


def test_example_19_ndiaye_afternoon() -> None:
    """P.75: 1 October, 14–15 h, 38 °C, 52 %: S_c 0.1889, ω 0.682, R_a 3.543, R_so 2.658, R_n 1.749, ET0 0.63 mm."""
    angle = hourly.solar_hour_angle(14.5, 274, longitude_west_deg=16.25, zone_longitude_west_deg=15.0)
    above = hourly.extraterrestrial_radiation_of_hour(16.22, 274, angle)
    clear = radiation.clear_sky_radiation(8.0, above)
    vapour = atmosphere.saturation_vapour_pressure(38.0) * 0.52
    kept = hourly.net_radiation_of_hour(38.0, vapour, radiation_mj_m2=2.450, clearness=2.450 / clear)
    assert hourly.seasonal_correction(274) == pytest.approx(0.1889, abs=0.00005)
    assert (angle, above, clear, kept) == pytest.approx((0.682, 3.543, 2.658, 1.749), abs=0.0006)
    et0 = hourly.reference_evapotranspiration_of_hour(
        38.0, vapour, net_radiation_mj_m2=kept, wind_2m_m_s=3.3, elevation_m=8.0
    )
    assert et0 == pytest.approx(0.63, abs=0.005)


def test_example_19_ndiaye_night() -> None:
    """P.75: the same day, 2–3 h, 28 °C, 90 %, R_s/R_so 0.8: R_n −0.100, ET0 0.00 mm."""
    vapour = atmosphere.saturation_vapour_pressure(28.0) * 0.90
    kept = hourly.net_radiation_of_hour(28.0, vapour, radiation_mj_m2=0.0, clearness=0.8)
    assert kept == pytest.approx(-0.100, abs=0.0005)
    et0 = hourly.reference_evapotranspiration_of_hour(
        28.0, vapour, net_radiation_mj_m2=kept, wind_2m_m_s=1.9, elevation_m=8.0
    )
    assert et0 == pytest.approx(0.00, abs=0.005)


@pytest.mark.parametrize(("wind_m_s", "printed", "tolerance"), [(2.0, 4.56, 0.005), (1.0, 4.2, 0.05), (3.0, 4.8, 0.05)])
def test_example_20_lyon_from_temperatures(wind_m_s: float, printed: float, tolerance: float) -> None:
    """P.77–78: July in Lyon from temperatures alone: ET0 4.56 mm at 2 m/s, 4.2 at 1 and 4.8 at 3."""
    record = DailyRecord(np.array([196]), np.array([26.6]), np.array([14.8]), wind_m_s=np.array([wind_m_s]))
    day = reference_et_of_days(record, Place(45.72, 200.0))
    assert day.et0_mm[0] == pytest.approx(printed, abs=tolerance)


def test_example_20_hargreaves() -> None:
    """P.78: the same month by equation 52: 5.0 mm."""
    above = radiation.extraterrestrial_radiation(45.72, 196)
    et0 = evapotranspiration.hargreaves_evapotranspiration(26.6, 14.8, extraterrestrial_mj_m2=above)
    assert et0 == pytest.approx(5.0, abs=0.05)
