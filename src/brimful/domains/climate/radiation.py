"""The sun's daily energy by latitude and date, and what the ground keeps of it: FAO-56 chapter 3.

Every function takes plain numbers or numpy arrays of one shape and gives the same back. Angles go in as degrees and
stay radians inside. Beyond the polar circles the day is clamped to 0 or 24 hours.
"""

import math

import numpy as np

from brimful.domains.climate.values import Values

SOLAR_CONSTANT_MJ_M2_MIN = 0.0820  # FAO-56 eq. 21 (read)
ALBEDO = 0.23  # of the reference grass, FAO-56 eq. 38 (read)
STEFAN_BOLTZMANN_MJ_M2_DAY = 4.903e-9  # FAO-56 eq. 39 (read)
CLOUDY_SHARE = 0.25  # a_s: share of the sun's energy that passes a closed cover of cloud, FAO-56 p.50 (read)
CLEAR_EXTRA_SHARE = 0.50  # b_s: what a clear day adds to it, FAO-56 p.50 (read)
ANGSTROM_INLAND = 0.16  # k_Rs, FAO-56 p.60 (read)
ANGSTROM_COASTAL = 0.19  # k_Rs, FAO-56 p.60 (read)


def earth_sun_distance(day_of_year: Values) -> Values:
    """How much stronger than its mean the sun is on this day, because it is nearer (FAO-56, equation 23).

    Formula: d_r = 1 + 0.033·cos(2π·J/365).

    Args:
        day_of_year: day of the year, 1 January = 1 [-]
    Returns: inverse relative distance Earth to sun [-]
    Valid: 1 to 366
    Source: FAO-56, p.46

    >>> round(float(earth_sun_distance(246)), 3)
    0.985
    """
    result: Values = 1.0 + 0.033 * np.cos(2.0 * math.pi / 365.0 * day_of_year)
    return result


def solar_declination(day_of_year: Values) -> Values:
    """How far north of the equator the sun stands on this day, in radians (FAO-56, equation 24).

    Formula: δ = 0.409·sin(2π·J/365 − 1.39).

    Args:
        day_of_year: day of the year [-]
    Returns: solar declination [rad]
    Valid: 1 to 366; within half a degree
    Source: FAO-56, p.46

    >>> round(float(solar_declination(246)), 3)
    0.12
    """
    result: Values = 0.409 * np.sin(2.0 * math.pi / 365.0 * day_of_year - 1.39)
    return result


def sunset_hour_angle(latitude_deg: Values, declination_rad: Values) -> Values:
    """How far the sun turns from noon to sunset, in radians (FAO-56, equation 25).

    Formula: ω_s = acos(−tan φ · tan δ); 0 in the polar night and π under the midnight sun.

    Args:
        latitude_deg: latitude, north positive [°]
        declination_rad: solar declination [rad]
    Returns: sunset hour angle [rad]
    Valid: −90 to 90°
    Source: FAO-56, p.46

    >>> round(float(sunset_hour_angle(-20.0, 0.120)), 3)
    1.527
    """
    latitude_rad = _radians(latitude_deg)
    result: Values = np.arccos(np.clip(-np.tan(latitude_rad) * np.tan(declination_rad), -1.0, 1.0))
    return result


def extraterrestrial_radiation(latitude_deg: Values, day_of_year: Values) -> Values:
    """The sun's energy above the air in one day, in MJ/m² (FAO-56, equation 21).

    Formula: R_a = (24·60/π)·0.0820·d_r·(ω_s·sin φ·sin δ + cos φ·cos δ·sin ω_s).

    Args:
        latitude_deg: latitude, north positive [°]
        day_of_year: day of the year [-]
    Returns: extraterrestrial radiation [MJ/m²/day]
    Valid: all latitudes
    Source: FAO-56, p.46

    >>> round(float(extraterrestrial_radiation(-20.0, 246)), 1)
    32.2
    """
    latitude_rad, declination = _radians(latitude_deg), solar_declination(day_of_year)
    sunset = sunset_hour_angle(latitude_deg, declination)
    height = sunset * np.sin(latitude_rad) * np.sin(declination)
    height = height + np.cos(latitude_rad) * np.cos(declination) * np.sin(sunset)
    per_day = 24.0 * 60.0 / math.pi * SOLAR_CONSTANT_MJ_M2_MIN * earth_sun_distance(day_of_year)
    result: Values = np.maximum(per_day * height, 0.0)
    return result


def day_length(latitude_deg: Values, day_of_year: Values) -> Values:
    """Hours from sunrise to sunset on open ground (FAO-56, equation 34).

    Formula: N = 24·ω_s/π.

    Args:
        latitude_deg: latitude, north positive [°]
        day_of_year: day of the year [-]
    Returns: daylight hours [h]
    Valid: all latitudes; without the few minutes by which the air lifts the sun
    Source: FAO-56, p.48

    >>> round(float(day_length(-20.0, 246)), 1)
    11.7
    """
    return 24.0 / math.pi * sunset_hour_angle(latitude_deg, solar_declination(day_of_year))


def clear_sky_radiation(elevation_m: Values, extraterrestrial_mj_m2: Values) -> Values:
    """The sun's energy at the ground on a cloudless day, in MJ/m² (FAO-56, equation 37).

    Formula: R_so = (0.75 + 0.00002·z)·R_a.

    Args:
        elevation_m: height above the sea [m]
        extraterrestrial_mj_m2: extraterrestrial radiation [MJ/m²/day]
    Returns: clear-sky solar radiation [MJ/m²/day]
    Valid: below 6,000 m
    Source: FAO-56, p.51
    """
    return (0.75 + 2e-5 * elevation_m) * extraterrestrial_mj_m2


def radiation_from_sunshine(sunshine_h: Values, day_length_h: Values, *, extraterrestrial_mj_m2: Values) -> Values:
    """The sun's energy at the ground from hours of sunshine, in MJ/m² (FAO-56, equation 35).

    Formula: R_s = (0.25 + 0.50·n/N)·R_a, with n/N no more than 1.

    Args:
        sunshine_h: hours of bright sunshine [h]
        day_length_h: hours from sunrise to sunset [h]
        extraterrestrial_mj_m2: extraterrestrial radiation [MJ/m²/day]
    Returns: solar radiation [MJ/m²/day]
    Valid: all latitudes
    Source: FAO-56, p.50

    >>> round(float(radiation_from_sunshine(220 / 31, 10.9, extraterrestrial_mj_m2=25.11)), 1)
    14.5
    """
    possible = np.maximum(day_length_h, 1e-9)
    result: Values = CLOUDY_SHARE + CLEAR_EXTRA_SHARE * np.minimum(sunshine_h / possible, 1.0)
    return result * extraterrestrial_mj_m2


def radiation_from_temperatures(
    tmax_c: Values, tmin_c: Values, *, extraterrestrial_mj_m2: Values, clear_sky_mj_m2: Values, coefficient: float
) -> Values:
    """The sun's energy at the ground judged by how far day and night differ, in MJ/m² (FAO-56, equation 50).

    Formula: R_s = k·√(Tmax − Tmin)·R_a, no more than a cloudless day; k = 0.16 inland, 0.19 by the coast.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        extraterrestrial_mj_m2: extraterrestrial radiation [MJ/m²/day]
        clear_sky_mj_m2: clear-sky radiation [MJ/m²/day]
        coefficient: k [1/√°C]
    Returns: solar radiation [MJ/m²/day]
    Valid: as the mean of several days; not on islands
    Source: FAO-56, p.60
    """
    swing = np.sqrt(np.maximum(tmax_c - tmin_c, 0.0))
    result: Values = np.minimum(coefficient * swing * extraterrestrial_mj_m2, clear_sky_mj_m2)
    return result


def net_shortwave(radiation_mj_m2: Values) -> Values:
    """What the plants keep of the sun's energy after reflecting 23 %, in MJ/m² (FAO-56, equation 38).

    Formula: R_ns = (1 − 0.23)·R_s.

    Args:
        radiation_mj_m2: solar radiation [MJ/m²/day]
    Returns: net shortwave radiation [MJ/m²/day]
    Valid: the reference grass
    Source: FAO-56, p.51
    """
    return (1.0 - ALBEDO) * radiation_mj_m2


def relative_clearness(radiation_mj_m2: Values, clear_sky_mj_m2: Values) -> Values:
    """The day's sun as a share of a cloudless day, 0 to 1 (FAO-56, p.52, R_s/R_so).

    Formula: R_s/R_so, no more than 1; in the polar night there is no sun to judge by, and the sky is taken as clear.

    Args:
        radiation_mj_m2: solar radiation [MJ/m²]
        clear_sky_mj_m2: clear-sky radiation [MJ/m²]
    Returns: relative shortwave radiation [-]
    Valid: all latitudes
    Source: FAO-56, p.52
    """
    lit = np.asarray(clear_sky_mj_m2) > 1e-9
    ratio = np.minimum(radiation_mj_m2 / np.where(lit, clear_sky_mj_m2, 1.0), 1.0)
    result: Values = np.where(lit, np.maximum(ratio, 0.0), 1.0)[()]
    return result


def net_longwave(tmax_c: Values, tmin_c: Values, *, vapour_kpa: Values, clearness: Values) -> Values:
    """The warmth that plants and ground radiate away to the sky, in MJ/m² (FAO-56, equation 39).

    Formula: R_nl = σ·½(Tmax⁴ + Tmin⁴)·(0.34 − 0.14·√e_a)·(1.35·R_s/R_so − 0.35), temperatures in K.

    Args:
        tmax_c: highest temperature of the day [°C]
        tmin_c: lowest temperature of the day [°C]
        vapour_kpa: actual vapour pressure [kPa]
        clearness: R_s/R_so, 0 to 1 [-]
    Returns: net longwave radiation, outward positive [MJ/m²/day]
    Valid: days; hours have their own constant
    Source: FAO-56, p.52
    """
    warm, cold = (tmax_c + 273.16) ** 2, (tmin_c + 273.16) ** 2
    emitted = STEFAN_BOLTZMANN_MJ_M2_DAY * 0.5 * (warm * warm + cold * cold)
    result: Values = emitted * (0.34 - 0.14 * np.sqrt(vapour_kpa)) * (1.35 * clearness - 0.35)
    return result


def net_radiation(net_shortwave_mj_m2: Values, net_longwave_mj_m2: Values) -> Values:
    """The energy that is left to dry the ground and warm the air, in MJ/m² (FAO-56, equation 40).

    Formula: R_n = R_ns − R_nl.

    Args:
        net_shortwave_mj_m2: net shortwave radiation [MJ/m²/day]
        net_longwave_mj_m2: net longwave radiation, outward positive [MJ/m²/day]
    Returns: net radiation [MJ/m²/day]
    Valid: the reference grass
    Source: FAO-56, p.53
    """
    return net_shortwave_mj_m2 - net_longwave_mj_m2


def _radians(latitude_deg: Values) -> Values:
    if not np.all(np.abs(latitude_deg) <= 90.0):
        raise ValueError(f"latitude {latitude_deg}° was given; expected -90 to 90°")
    result: Values = np.radians(latitude_deg)
    return result
