"""Air pressure, vapour and wind: FAO-56 chapter 3, the parts that need no sun.

Every function takes plain numbers or numpy arrays of one shape and gives the same back.
"""

import math

import numpy as np

from brimful.domains.climate.values import Values

SEA_LEVEL_PRESSURE_KPA = 101.3  # FAO-56 eq. 7 (read)
DEFAULT_WIND_2M_M_S = 2.0  # FAO-56 p.63: world mean of 2,000 stations, taken where no wind is known (read)
LEAST_WIND_2M_M_S = 0.5  # FAO-56 p.63: below it warm surfaces stir the air anyway (read)


def air_pressure(elevation_m: Values) -> Values:
    """How much the air presses at this height, in kPa (FAO-56, equation 7).

    Formula: P = 101.3 · ((293 − 0.0065·z) / 293)^5.26.

    Args:
        elevation_m: height of the place above the sea [m]
    Returns: mean air pressure [kPa]
    Valid: −500 to 9,000 m
    Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, p.31

    >>> round(float(air_pressure(1800.0)), 1)
    81.8
    """
    if np.any((np.asarray(elevation_m) < -500.0) | (np.asarray(elevation_m) > 9000.0)):
        raise ValueError(f"elevation {elevation_m} m was given; expected -500 to 9000 m")
    return SEA_LEVEL_PRESSURE_KPA * ((293.0 - 0.0065 * elevation_m) / 293.0) ** 5.26


def psychrometric_constant(pressure_kpa: Values) -> Values:
    """How strongly dry air draws water at this pressure: γ in kPa/°C (FAO-56, equation 8).

    Formula: γ = 0.000665 · P.

    Args:
        pressure_kpa: air pressure [kPa]
    Returns: psychrometric constant [kPa/°C]
    Valid: 30 to 110 kPa
    Source: FAO-56, p.32

    >>> round(float(psychrometric_constant(81.8)), 3)
    0.054
    """
    return 0.665e-3 * pressure_kpa


def saturation_vapour_pressure(temperature_c: Values) -> Values:
    """The most vapour that air of this temperature can hold, as a pressure in kPa (FAO-56, equation 11).

    Formula: e°(T) = 0.6108 · exp(17.27·T / (T + 237.3)). With the dew point as T it is the vapour that
    the air does hold (equation 14).

    Args:
        temperature_c: air temperature, or dew point [°C]
    Returns: saturation vapour pressure [kPa]
    Valid: −60 to 60 °C
    Source: FAO-56, p.36

    >>> round(float(saturation_vapour_pressure(24.5)), 3)
    3.075
    """
    result: Values = 0.6108 * np.exp(17.27 * temperature_c / (temperature_c + 237.3))
    return result


def mean_saturation_vapour_pressure(tmax_c: Values, tmin_c: Values) -> Values:
    """The most vapour the air of a whole day can hold, in kPa (FAO-56, equation 12).

    Formula: e_s = (e°(Tmax) + e°(Tmin)) / 2; the curve is bent, so the mean temperature would give too little.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
    Returns: mean saturation vapour pressure [kPa]
    Valid: −60 to 60 °C
    Source: FAO-56, p.36

    >>> round(float(mean_saturation_vapour_pressure(24.5, 15.0)), 2)
    2.39
    """
    return (saturation_vapour_pressure(tmax_c) + saturation_vapour_pressure(tmin_c)) / 2.0


def vapour_pressure_slope(temperature_c: Values) -> Values:
    """How fast the air's thirst grows with each degree: Δ in kPa/°C (FAO-56, equation 13).

    Formula: Δ = 4098 · e°(T) / (T + 237.3)², with T the mean of the day's highest and lowest.

    Args:
        temperature_c: mean air temperature [°C]
    Returns: slope of the saturation vapour pressure curve [kPa/°C]
    Valid: −60 to 60 °C
    Source: FAO-56, p.37

    >>> round(float(vapour_pressure_slope(30.2)), 3)
    0.246
    """
    warmth = temperature_c + 237.3
    return 4098.0 * saturation_vapour_pressure(temperature_c) / (warmth * warmth)


def vapour_from_humidity_extremes(tmax_c: Values, tmin_c: Values, *, rh_max_pct: Values, rh_min_pct: Values) -> Values:
    """The vapour in the air from the day's highest and lowest humidity, in kPa (FAO-56, equation 17).

    Formula: e_a = (e°(Tmin)·RHmax/100 + e°(Tmax)·RHmin/100) / 2.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        rh_max_pct: highest relative humidity of the day [%]
        rh_min_pct: lowest relative humidity of the day [%]
    Returns: actual vapour pressure [kPa]
    Valid: humidity 0 to 100 %
    Source: FAO-56, p.38

    >>> round(float(vapour_from_humidity_extremes(25.0, 18.0, rh_max_pct=82.0, rh_min_pct=54.0)), 2)
    1.7
    """
    at_dawn = saturation_vapour_pressure(tmin_c) * rh_max_pct
    return (at_dawn + saturation_vapour_pressure(tmax_c) * rh_min_pct) / 200.0


def vapour_from_highest_humidity(tmin_c: Values, rh_max_pct: Values) -> Values:
    """The vapour in the air from the highest humidity alone, in kPa (FAO-56, equation 18).

    Formula: e_a = e°(Tmin) · RHmax/100; for where the lowest humidity is missing or doubtful.

    Args:
        tmin_c: lowest temperature of the day [°C]
        rh_max_pct: highest relative humidity of the day [%]
    Returns: actual vapour pressure [kPa]
    Valid: humidity 0 to 100 %
    Source: FAO-56, p.39
    """
    return saturation_vapour_pressure(tmin_c) * rh_max_pct / 100.0


def vapour_from_mean_humidity(tmax_c: Values, tmin_c: Values, *, rh_mean_pct: Values) -> Values:
    """The vapour in the air from the day's mean humidity, in kPa (FAO-56, equation 19).

    Formula: e_a = e_s · RHmean/100; less good than equations 17 and 18.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        rh_mean_pct: mean relative humidity of the day [%]
    Returns: actual vapour pressure [kPa]
    Valid: humidity 0 to 100 %
    Source: FAO-56, p.39

    >>> round(float(vapour_from_mean_humidity(25.0, 18.0, rh_mean_pct=68.0)), 2)
    1.78
    """
    return mean_saturation_vapour_pressure(tmax_c, tmin_c) * rh_mean_pct / 100.0


def wind_at_2m(wind_m_s: Values, height_m: float) -> Values:
    """The wind near plants, 2 m above the ground, from wind measured higher up, in m/s (FAO-56, equation 47).

    Formula: u₂ = u_z · 4.87 / ln(67.8·z − 5.42).

    Args:
        wind_m_s: mean wind speed of the day [m/s]
        height_m: height of the instrument above the ground [m]
    Returns: wind speed at 2 m [m/s]
    Valid: instrument 0.5 to 200 m above open ground
    Source: FAO-56, p.56

    >>> round(float(wind_at_2m(3.2, 10.0)), 1)
    2.4
    """
    if not 0.5 <= height_m <= 200.0:
        raise ValueError(f"wind height {height_m} m was given; expected 0.5 to 200 m above the ground")
    return wind_m_s * (4.87 / math.log(67.8 * height_m - 5.42))
