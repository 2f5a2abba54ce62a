"""What a clear sky sends, and how much of the light comes straight from the sun."""

import numpy as np

from brimful.domains.climate.values import FloatArray, Values

SOLAR_CONSTANT_W_M2 = 1361.0  # total irradiance at the mean distance (memory)
_LEAST_COS_ZENITH = 1e-3


def haurwitz_w_m2(elevation_deg: Values) -> FloatArray:
    """Light of a cloudless sky on level ground, in W/m² (Haurwitz 1945).

    Formula: 1098 cos Z · exp(−0.059 / cos Z); nothing when the sun is down.

    Args:
        elevation_deg: elevation of the sun [°], any shape
    Returns: global horizontal irradiance [W/m²], same shape
    Valid: clean air below about 2,000 m
    Source: Haurwitz 1945, J. Meteorology 2:154 (memory; equal to an independent library)

    >>> round(float(haurwitz_w_m2(60.0)), 2)
    888.27
    """
    cos_zenith = np.maximum(np.sin(np.radians(elevation_deg)), _LEAST_COS_ZENITH)
    lit = np.sin(np.radians(elevation_deg)) > 0.0
    result: FloatArray = np.where(lit, 1098.0 * cos_zenith * np.exp(-0.059 / cos_zenith), 0.0)
    return result


def air_mass(elevation_deg: Values) -> FloatArray:
    """How many times the straight-up thickness of air the light passes (Kasten & Young 1989).

    Formula: 1 / [sin h + 0.50572 (h + 6.07995)^−1.6364], h in degrees.

    Args:
        elevation_deg: elevation of the sun [°], any shape; taken as 0 below the horizon
    Returns: relative air mass [-], 1 at the zenith, about 38 at the horizon
    Valid: 0 to 90°
    Source: Kasten & Young 1989, Applied Optics 28:4735 (memory)
    """
    above = np.clip(elevation_deg, 0.0, 90.0)
    result: FloatArray = 1.0 / (np.sin(np.radians(above)) + 0.50572 * (above + 6.07995) ** -1.6364)
    return result


def distance_factor(day_of_year: Values) -> FloatArray:
    """How much stronger than its mean the sun is, because it is nearer (Spencer 1971).

    Formula: 1.00011 + 0.034221 cos B + 0.00128 sin B + 0.000719 cos 2B + 0.000077 sin 2B, B = 2π (J − 1)/365.

    Args:
        day_of_year: day of the year, 1 January = 1 [-]
    Returns: (mean distance / distance)² [-]
    Valid: 1 to 366
    Source: Spencer 1971 (memory)
    """
    turn = 2.0 * np.pi * (np.asarray(day_of_year, dtype=np.float64) - 1.0) / 365.0
    result: FloatArray = 1.00011 + 0.034221 * np.cos(turn) + 0.00128 * np.sin(turn)
    return result + 0.000719 * np.cos(2.0 * turn) + 0.000077 * np.sin(2.0 * turn)


def erbs_diffuse_share(clearness: Values) -> FloatArray:
    """Share of the light that comes from the sky and not straight from the sun, hourly (Erbs 1982).

    Formula: 1 − 0.09 kt up to 0.22; 0.9511 − 0.1604 kt + 4.388 kt² − 16.638 kt³ + 12.336 kt⁴ up to 0.80; else 0.165.

    Args:
        clearness: kt, light on level ground over light above the air [-]
    Returns: diffuse share [-]
    Valid: 0 to 1
    Source: Erbs, Klein & Duffie 1982, Solar Energy 28:293 (memory; equal to an independent library)
    """
    kt = np.asarray(clearness, dtype=np.float64)
    middle = 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)))
    result: FloatArray = np.where(kt <= 0.22, 1.0 - 0.09 * kt, np.where(kt <= 0.80, middle, 0.165))
    return result


def daily_diffuse_share(clearness: Values, sunset_hour_angle_deg: Values) -> FloatArray:
    """Share of a day's light that comes from the sky and not straight from the sun (Erbs 1982, daily).

    Formula: short days (ω_s ≤ 81.4°) 1 − 0.2727 K + 2.4495 K² − 11.9514 K³ + 9.3879 K⁴, 0.143 from K 0.715;
    long days 1 + 0.2832 K − 2.5557 K² + 0.8448 K³, 0.175 from K 0.722.

    Args:
        clearness: K, the day's light on level ground over that above the air [-]
        sunset_hour_angle_deg: ω_s [°]
    Returns: diffuse share [-]
    Valid: 0 to 1
    Source: Erbs, Klein & Duffie 1982, Solar Energy 28:293 (memory)
    """
    k = np.clip(clearness, 0.0, 1.0)
    short = 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879)))
    long = 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448))
    short, long = np.where(k >= 0.715, 0.143, short), np.where(k >= 0.722, 0.175, long)
    result: FloatArray = np.where(np.asarray(sunset_hour_angle_deg) <= 81.4, short, long)
    return result


def split_light(
    global_w_m2: Values, elevation_deg: Values, distance: Values, solar_constant_w_m2: float = SOLAR_CONSTANT_W_M2
) -> tuple[FloatArray, FloatArray]:
    """Light straight from the sun and light from the sky, both on level ground, in W/m² (Erbs 1982).

    Formula: kt = global / (constant × distance factor × cos Z); sky light = Erbs share × global; the rest is
    the beam.

    Args:
        global_w_m2: light on level ground [W/m²]
        elevation_deg: elevation of the sun [°]
        distance: (mean distance / distance)², see distance_factor [-]
        solar_constant_w_m2: irradiance above the air at the mean distance [W/m²]
    Returns: (beam, diffuse) on level ground [W/m²]
    Valid: hours; all light is diffuse when the sun is down
    Source: as erbs_diffuse_share
    """
    cos_zenith = np.maximum(np.sin(np.radians(elevation_deg)), _LEAST_COS_ZENITH)
    above_air = solar_constant_w_m2 * distance * cos_zenith
    share = np.where(np.asarray(elevation_deg) > 0.0, erbs_diffuse_share(global_w_m2 / above_air), 1.0)
    diffuse: FloatArray = np.asarray(global_w_m2 * share)
    return np.asarray(global_w_m2 - diffuse), diffuse


def radiation_at_container(
    radiation_mj_m2: Values, diffuse_share: Values, *, lit_beam_share: Values, sky_view: Values
) -> FloatArray:
    """The day's light that reaches a container between its walls and trees, in MJ/m².

    Formula: radiation × [(1 − diffuse share) × lit beam share + diffuse share × sky view].

    Args:
        radiation_mj_m2: light on open ground [MJ/m²/day]
        diffuse_share: share that comes from the sky [-]
        lit_beam_share: share of the sun's own light that gets past the obstacles [-]
        sky_view: share of the sky's light that gets past them [-]
    Returns: [MJ/m²/day]
    Valid: shares 0 to 1; light thrown back by walls is left out
    Source: even-sky (isotropic) diffuse model
    """
    beam = (1.0 - np.asarray(diffuse_share)) * lit_beam_share
    result: FloatArray = radiation_mj_m2 * (beam + np.asarray(diffuse_share) * sky_view)
    return result
