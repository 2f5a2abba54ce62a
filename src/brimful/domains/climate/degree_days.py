"""Warmth that plants can use, added up: degree days.

Every function takes numbers or arrays and works in any degree, °C or °F, as long as all of them are the same.
"""

import math

import numpy as np

from brimful.domains.climate.values import Values

MAIZE_BASE_F = 50.0  # the 86/50 method, Iowa State University, Agronomy 541 (read)
MAIZE_CEILING_F = 86.0


def degree_days(tmax: Values, tmin: Values, *, base: float) -> Values:
    """Warmth above a base on each day, by the mean temperature, in degree days (simple average method).

    Formula: max(0, (Tmax + Tmin)/2 − base).

    Args:
        tmax: highest temperature of the day [°]
        tmin: lowest temperature of the day [°]
        base: below it the plant does not grow [°]
    Returns: degree days [°·day]
    Valid: low in spring, when only the afternoon is warm
    Source: Nugent, Michigan State University Extension (worked examples 65/40 and 60/35 °F, base 50 °F)

    >>> float(degree_days(65.0, 40.0, base=50.0))
    2.5
    """
    result: Values = np.maximum((tmax + tmin) / 2.0 - base, 0.0)
    return result


def degree_days_between(
    tmax: Values, tmin: Values, *, base: float = MAIZE_BASE_F, ceiling: float = MAIZE_CEILING_F
) -> Values:
    """Warmth between a base and a ceiling on each day, in degree days (the 86/50 method).

    Formula: Tmax and Tmin are first brought between base and ceiling; then their mean less the base.

    Args:
        tmax: highest temperature of the day [°]
        tmin: lowest temperature of the day [°]
        base: below it the plant does not grow [°]
        ceiling: above it the plant grows no faster [°]
    Returns: degree days, no more than ceiling − base a day [°·day]
    Valid: °F with the limits as they stand; 10 and 30 °C
    Source: Iowa State University, Agronomy 541 (worked example 70/50 °F)

    >>> float(degree_days_between(70.0, 50.0))
    10.0
    """
    if not ceiling > base:
        raise ValueError(f"ceiling {ceiling}° and base {base}° were given; expected the ceiling above the base")
    result: Values = (np.clip(tmax, base, ceiling) + np.clip(tmin, base, ceiling)) / 2.0 - base
    return result


def degree_days_by_sine(tmax: Values, tmin: Values, *, base: float) -> Values:
    """Warmth above a base on each day, with the day's course taken as a sine, in degree days (Baskerville and Emin).

    Formula: with M = (Tmax + Tmin)/2, W = (Tmax − Tmin)/2 and θ = asin((base − M)/W):
    [W·cos θ − (base − M)·(π/2 − θ)]/π where the day crosses the base; M − base above it; 0 below.

    Args:
        tmax: highest temperature of the day [°]
        tmin: lowest temperature of the day [°]
        base: below it the plant does not grow [°]
    Returns: degree days [°·day]
    Valid: all days with Tmax not below Tmin
    Source: Baskerville and Emin (1969), Ecology 50:514

    >>> round(float(degree_days_by_sine(65.0, 40.0, base=50.0)), 3)
    5.309
    """
    middle, swing = (tmax + tmin) / 2.0, np.maximum((tmax - tmin) / 2.0, 0.0)
    short = base - middle
    angle = np.arcsin(np.clip(short / np.maximum(swing, 1e-12), -1.0, 1.0))
    crossing = (swing * np.cos(angle) - short * (math.pi / 2.0 - angle)) / math.pi
    result: Values = np.where(np.abs(short) >= swing, np.maximum(-short, 0.0), crossing)[()]
    return result
