"""Reference evapotranspiration: how much water a well-watered lawn gives to the air. FAO-56 equations 6, 42–44, 52."""

import numpy as np

from brimful.domains.climate.atmosphere import (
    LEAST_WIND_2M_M_S,
    air_pressure,
    mean_saturation_vapour_pressure,
    psychrometric_constant,
    vapour_pressure_slope,
)
from brimful.domains.climate.values import Values

WATER_MM_PER_MJ_M2 = 0.408  # 1/2.45: what 1 MJ/m² can evaporate, FAO-56 p.4 table 1 (read)


def reference_evapotranspiration(
    tmax_c: Values,
    tmin_c: Values,
    *,
    vapour_kpa: Values,
    net_energy_mj_m2: Values,
    wind_2m_m_s: Values,
    elevation_m: Values,
) -> Values:
    """Water that a well-watered lawn gives to the air in a day, in mm = L/m² (FAO-56, equation 6).

    Formula: ET0 = [0.408·Δ·(R_n − G) + γ·900/(T + 273)·u₂·(e_s − e_a)] / [Δ + γ·(1 + 0.34·u₂)];
    the first part is the sun's doing, the second that of wind and dry air. Never below 0.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        vapour_kpa: actual vapour pressure [kPa]
        net_energy_mj_m2: net radiation less the heat that goes into the ground [MJ/m²/day]
        wind_2m_m_s: mean wind at 2 m; still air counts as 0.5 m/s [m/s]
        elevation_m: height above the sea [m]
    Returns: reference evapotranspiration ET0 [mm/day]
    Valid: days, and the means of weeks and months
    Source: Allen et al. (1998), FAO-56, p.24; still air p.63

    >>> bangkok = reference_evapotranspiration(34.8, 25.6, vapour_kpa=2.85, net_energy_mj_m2=14.33 - 0.14,
    ...                                        wind_2m_m_s=2.0, elevation_m=2.0)
    >>> round(float(bangkok), 2)
    5.72
    """
    mean_c = (tmax_c + tmin_c) / 2.0
    wind = np.maximum(wind_2m_m_s, LEAST_WIND_2M_M_S)
    slope, gamma = vapour_pressure_slope(mean_c), psychrometric_constant(air_pressure(elevation_m))
    dryness_kpa = mean_saturation_vapour_pressure(tmax_c, tmin_c) - vapour_kpa
    by_sun = WATER_MM_PER_MJ_M2 * slope * net_energy_mj_m2
    by_wind = gamma * 900.0 / (mean_c + 273.0) * wind * dryness_kpa
    result: Values = np.maximum((by_sun + by_wind) / (slope + gamma * (1.0 + 0.34 * wind)), 0.0)
    return result


def hargreaves_evapotranspiration(tmax_c: Values, tmin_c: Values, *, extraterrestrial_mj_m2: Values) -> Values:
    """Water that a lawn gives to the air in a day, from temperatures alone, in mm: a cross-check (FAO-56, equation 52).

    Formula: ET0 = 0.0023·(T + 17.8)·√(Tmax − Tmin)·0.408·R_a.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        extraterrestrial_mj_m2: extraterrestrial radiation [MJ/m²/day]
    Returns: reference evapotranspiration [mm/day]
    Valid: means of a week or more; low in wind above 3 m/s, high in humid air
    Source: FAO-56, p.64
    """
    mean_c = (tmax_c + tmin_c) / 2.0
    swing = np.sqrt(np.maximum(tmax_c - tmin_c, 0.0))
    energy_mm = WATER_MM_PER_MJ_M2 * extraterrestrial_mj_m2
    result: Values = np.maximum(0.0023 * (mean_c + 17.8) * swing * energy_mm, 0.0)
    return result


def soil_heat_of_month(before_c: Values, after_c: Values) -> Values:
    """Heat that goes into the ground in a month, in MJ/m² a day (FAO-56, equation 43).

    Formula: G = 0.07·(T of the month after − T of the month before); for one day it is 0 (equation 42).

    Args:
        before_c: mean temperature of the month before [°C]
        after_c: mean temperature of the month after [°C]
    Returns: soil heat flux, into the ground positive [MJ/m²/day]
    Valid: months
    Source: FAO-56, p.54
    """
    return 0.07 * (after_c - before_c)


def soil_heat_of_month_so_far(before_c: Values, this_c: Values) -> Values:
    """Heat that goes into the ground in a month whose follower is not known, in MJ/m² a day (FAO-56, equation 44).

    Formula: G = 0.14·(T of the month − T of the month before).

    Args:
        before_c: mean temperature of the month before [°C]
        this_c: mean temperature of the month [°C]
    Returns: soil heat flux, into the ground positive [MJ/m²/day]
    Valid: months
    Source: FAO-56, p.54

    >>> round(float(soil_heat_of_month_so_far(29.2, 30.2)), 2)
    0.14
    """
    return 0.14 * (this_c - before_c)
