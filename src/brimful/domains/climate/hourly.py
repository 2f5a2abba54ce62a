"""Reference evapotranspiration of an hour: FAO-56 equations 28–33 and 53.

Longitudes here are positive to the west, as FAO-56 counts them. Every function takes numbers or arrays of one shape.
"""

import math

import numpy as np

from brimful.domains.climate import atmosphere, radiation
from brimful.domains.climate.evapotranspiration import WATER_MM_PER_MJ_M2
from brimful.domains.climate.values import Values

STEFAN_BOLTZMANN_MJ_M2_HOUR = 2.043e-10  # FAO-56 p.74 (read)


def seasonal_correction(day_of_year: Values) -> Values:
    """How far the sundial runs before the clock on this day, in hours (FAO-56, equations 32 and 33).

    Formula: S_c = 0.1645·sin 2b − 0.1255·cos b − 0.025·sin b, with b = 2π(J − 81)/364.

    Args:
        day_of_year: day of the year [-]
    Returns: seasonal correction [h]
    Valid: 1 to 366
    Source: FAO-56, p.48

    >>> round(float(seasonal_correction(274)), 4)
    0.1889
    """
    b = 2.0 * math.pi * (day_of_year - 81) / 364.0
    result: Values = 0.1645 * np.sin(2.0 * b) - 0.1255 * np.cos(b) - 0.025 * np.sin(b)
    return result


def solar_hour_angle(
    clock_h: Values, day_of_year: Values, *, longitude_west_deg: float, zone_longitude_west_deg: float
) -> Values:
    """How far the sun has turned past noon at the middle of an hour, in radians (FAO-56, equation 31).

    Formula: ω = π/12·[(t + 0.06667·(L_z − L_m) + S_c) − 12].

    Args:
        clock_h: clock time at the middle of the hour, 14.5 for 14 to 15 h [h]
        day_of_year: day of the year [-]
        longitude_west_deg: of the place, west positive [°]
        zone_longitude_west_deg: of the middle of the time zone, west positive: 120 for US Pacific [°]
    Returns: solar time angle [rad]
    Valid: all places; standard time
    Source: FAO-56, p.48

    >>> round(float(solar_hour_angle(14.5, 274, longitude_west_deg=16.25, zone_longitude_west_deg=15.0)), 3)
    0.682
    """
    solar_h = clock_h + 0.06667 * (zone_longitude_west_deg - longitude_west_deg) + seasonal_correction(day_of_year)
    return math.pi / 12.0 * (solar_h - 12.0)


def extraterrestrial_radiation_of_hour(
    latitude_deg: Values, day_of_year: Values, hour_angle_rad: Values, *, length_h: float = 1.0
) -> Values:
    """The sun's energy above the air in one hour, in MJ/m² (FAO-56, equations 28 to 30).

    Formula: R_a = (12·60/π)·0.0820·d_r·[(ω₂ − ω₁)·sin φ·sin δ + cos φ·cos δ·(sin ω₂ − sin ω₁)]; only the part of the
    hour between sunrise and sunset counts.

    Args:
        latitude_deg: latitude, north positive [°]
        day_of_year: day of the year [-]
        hour_angle_rad: solar time angle at the middle of the hour [rad]
        length_h: length of the period [h]
    Returns: extraterrestrial radiation of the period [MJ/m²]
    Valid: all latitudes
    Source: FAO-56, p.47–48

    >>> round(float(extraterrestrial_radiation_of_hour(16.22, 274, 0.6821)), 3)
    3.543
    """
    declination = radiation.solar_declination(day_of_year)
    sunset = radiation.sunset_hour_angle(latitude_deg, declination)
    half = math.pi * length_h / 24.0
    wrapped = (hour_angle_rad + math.pi) % (2.0 * math.pi) - math.pi
    start, end = (np.clip(wrapped + side, -sunset, sunset) for side in (-half, half))
    latitude_rad = np.radians(latitude_deg)
    height = (end - start) * np.sin(latitude_rad) * np.sin(declination)
    height = height + np.cos(latitude_rad) * np.cos(declination) * (np.sin(end) - np.sin(start))
    per_hour = 12.0 * 60.0 / math.pi * radiation.SOLAR_CONSTANT_MJ_M2_MIN * radiation.earth_sun_distance(day_of_year)
    result: Values = np.maximum(per_hour * height, 0.0)
    return result


def net_radiation_of_hour(
    temperature_c: Values, vapour_kpa: Values, *, radiation_mj_m2: Values, clearness: Values
) -> Values:
    """The energy that is left in one hour to dry the ground and warm the air, in MJ/m² (FAO-56, equations 38 to 40).

    Formula: R_n = 0.77·R_s − σ_h·T⁴·(0.34 − 0.14·√e_a)·(1.35·R_s/R_so − 0.35), T in K.

    Args:
        temperature_c: mean temperature of the hour [°C]
        vapour_kpa: actual vapour pressure [kPa]
        radiation_mj_m2: solar radiation of the hour [MJ/m²]
        clearness: R_s/R_so, 0 to 1; at night that of two to three hours before sunset [-]
    Returns: net radiation of the hour [MJ/m²]
    Valid: hours
    Source: FAO-56, p.74–75
    """
    emitted = STEFAN_BOLTZMANN_MJ_M2_HOUR * (temperature_c + 273.16) ** 4
    longwave = emitted * (0.34 - 0.14 * np.sqrt(vapour_kpa)) * (1.35 * clearness - 0.35)
    result: Values = radiation.net_shortwave(radiation_mj_m2) - longwave
    return result


def soil_heat_of_hour(net_radiation_mj_m2: Values) -> Values:
    """Heat that goes into the ground in one hour, in MJ/m² (FAO-56, equations 45 and 46).

    Formula: G = 0.1·R_n by day, 0.5·R_n by night.

    Args:
        net_radiation_mj_m2: net radiation of the hour; negative at night [MJ/m²]
    Returns: soil heat flux of the hour, into the ground positive [MJ/m²]
    Valid: under a lawn
    Source: FAO-56, p.55
    """
    result: Values = np.where(np.asarray(net_radiation_mj_m2) > 0.0, 0.1, 0.5)[()] * net_radiation_mj_m2
    return result


def reference_evapotranspiration_of_hour(
    temperature_c: Values, vapour_kpa: Values, *, net_radiation_mj_m2: Values, wind_2m_m_s: Values, elevation_m: Values
) -> Values:
    """Water that a well-watered lawn gives to the air in one hour, in mm = L/m² (FAO-56, equation 53).

    Formula: ET0 = [0.408·Δ·(R_n − G) + γ·37/(T + 273)·u₂·(e° − e_a)] / [Δ + γ·(1 + 0.34·u₂)]; never below 0.

    Args:
        temperature_c: mean temperature of the hour [°C]
        vapour_kpa: actual vapour pressure [kPa]
        net_radiation_mj_m2: net radiation of the hour [MJ/m²]
        wind_2m_m_s: mean wind at 2 m; still air counts as 0.5 m/s [m/s]
        elevation_m: height above the sea [m]
    Returns: reference evapotranspiration of the hour [mm/h]
    Valid: hours
    Source: FAO-56, p.74
    """
    slope = atmosphere.vapour_pressure_slope(temperature_c)
    gamma = atmosphere.psychrometric_constant(atmosphere.air_pressure(elevation_m))
    wind = np.maximum(wind_2m_m_s, atmosphere.LEAST_WIND_2M_M_S)
    dryness_kpa = atmosphere.saturation_vapour_pressure(temperature_c) - vapour_kpa
    kept = net_radiation_mj_m2 - soil_heat_of_hour(net_radiation_mj_m2)
    by_wind = gamma * 37.0 / (temperature_c + 273.0) * wind * dryness_kpa
    drawn = WATER_MM_PER_MJ_M2 * slope * kept + by_wind
    result: Values = np.maximum(drawn / (slope + gamma * (1.0 + 0.34 * wind)), 0.0)
    return result
