"""Where the sun stands: a whole year on a regular grid, or any moment.

The sun's apparent place is computed once a day and turned with the Earth by plain rotation, which is thirty times
faster than computing it for every minute. Times are days since 2000-01-01 00:00 UT; azimuth counts from north over
east; elevations are geometric unless called apparent.
"""

import math
from datetime import date

import numpy as np
from numpy.typing import NDArray

from brimful.domains.climate.values import FloatArray
from brimful.records import record

_J2000_OFFSET_DAYS = -0.5  # the epoch of the formulas is noon
RISING_ELEVATION_DEG = -0.8333  # half the sun's disc and 34′ of refraction, the almanacs' convention (memory)
_STANDARD_PRESSURE_KPA = 101.0
_STANDARD_TEMPERATURE_C = 10.0


@record
class SunPlace:
    """Where on Earth: north and east positive [°], and the clock's fixed offset from UT [h]."""

    latitude_deg: float
    longitude_deg: float
    utc_offset_h: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a place off the globe."""
        if not (abs(self.latitude_deg) <= 90.0 and abs(self.longitude_deg) <= 360.0 and abs(self.utc_offset_h) <= 15.0):
            raise ValueError(
                f"place is latitude {self.latitude_deg}, longitude {self.longitude_deg}, offset {self.utc_offset_h} h: "
                "expected latitude −90…90, longitude −360…360, offset −15…15"
            )


@record
class SunPosition:
    """Direction to the sun's centre, both arrays of one shape [°]; elevation without refraction."""

    elevation_deg: FloatArray
    azimuth_deg: FloatArray


@record
class SunEvents:
    """Clock hours of each day; nan where the sun does not rise or set that day."""

    sunrise_h: FloatArray
    noon_h: FloatArray
    sunset_h: FloatArray
    day_length_h: FloatArray


def days_since_2000(day: date) -> int:
    """Number of a calendar day as this module counts them.

    >>> days_since_2000(date(2000, 1, 2))
    1
    """
    return day.toordinal() - date(2000, 1, 1).toordinal()


def _apparent_sun(ut_days: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Right ascension, declination and Greenwich sidereal angle [rad] (Meeus, Astronomical Algorithms, ch. 12, 25)."""
    days = ut_days + _J2000_OFFSET_DAYS
    century = days / 36525.0
    node = np.radians(125.04 - 1934.136 * century)
    anomaly = np.radians(357.52911 + 35999.05029 * century - 0.0001537 * century**2)
    center = (1.914602 - 0.004817 * century) * np.sin(anomaly) + 0.019993 * np.sin(2.0 * anomaly)
    mean_longitude = 280.46646 + 36000.76983 * century + 0.0003032 * century**2
    nutation = -0.00478 * np.sin(node)
    longitude = np.radians(mean_longitude + center + 0.000289 * np.sin(3.0 * anomaly) - 0.00569 + nutation)
    obliquity = np.radians(23.4392911 - 0.0130042 * century + 0.00256 * np.cos(node))
    ascension = np.arctan2(np.cos(obliquity) * np.sin(longitude), np.cos(longitude))
    declination = np.arcsin(np.sin(obliquity) * np.sin(longitude))
    sidereal = np.radians((280.46061837 + 360.98564736629 * days) % 360.0 + nutation * np.cos(obliquity))
    return ascension, declination, sidereal


def sun_position(ut_days: FloatArray, place: SunPlace) -> SunPosition:
    """Elevation and azimuth of the sun at any moments, in degrees (Meeus, low-accuracy sun).

    Formula: sin h = sin φ sin δ + cos φ cos δ cos H; tan A = −cos δ sin H / (cos φ sin δ − sin φ cos δ cos H).

    Args:
        ut_days: moments, days since 2000-01-01 00:00 UT [d], any shape
        place: latitude and longitude [°]
    Returns: geometric elevation and azimuth [°], same shape
    Valid: 1950 to 2050, error up to 0.01°
    Source: Meeus, Astronomical Algorithms, ch. 25 (constants from memory, checked against NREL SPA)
    """
    ascension, declination, sidereal = _apparent_sun(np.asarray(ut_days, dtype=np.float64))
    hour_angle = sidereal + math.radians(place.longitude_deg) - ascension
    across = np.cos(declination) * np.cos(hour_angle)
    return _to_angles(across, np.cos(declination) * np.sin(hour_angle), np.sin(declination), place)


def sun_grid(days: NDArray[np.int64], place: SunPlace, step_minutes: int = 10) -> SunPosition:
    """Elevation and azimuth of the sun through whole days at the middle of every step, in degrees.

    Formula: the sun's place at midnight, carried linearly to the next midnight and rotated by 15° an hour.

    Args:
        days: clock days since 2000-01-01 [d], shape (D)
        place: latitude, longitude [°] and the clock's offset [h]
        step_minutes: step, a divisor of 1440 [min]
    Returns: geometric elevation and azimuth [°], shape (D, 1440 / step)
    Valid: 1950 to 2050, error up to 0.01°
    Source: as sun_position
    """
    if step_minutes < 1 or 1440 % step_minutes:
        raise ValueError(f"step_minutes is {step_minutes}: expected a whole divisor of 1440")
    midnight = np.asarray(days, dtype=np.float64) - place.utc_offset_h / 24.0
    share = (np.arange(1440 // step_minutes) + 0.5) * (step_minutes / 1440.0)
    start, change = _day_frame(midnight, place)
    turn = 2.0 * np.pi * share
    cos_turn, sin_turn = np.cos(turn), np.sin(turn)
    cos_part, sin_part, axis = (
        first[:, None] + slope[:, None] * share for first, slope in zip(start, change, strict=True)
    )
    across = cos_part * cos_turn - sin_part * sin_turn
    side = sin_part * cos_turn + cos_part * sin_turn
    # a chord is shorter than its arc: near the zenith the arcsine would feel it
    moved = change[0] ** 2 + change[1] ** 2 + change[2] ** 2
    stretch = 1.0 + 0.5 * moved[:, None] * (share * (1.0 - share))
    return _to_angles(across, side, axis, place, stretch)


def _day_frame(midnight: FloatArray, place: SunPlace) -> tuple[list[FloatArray], list[FloatArray]]:
    """The sun's equatorial direction at each midnight, and its change to the next one in the turning frame."""
    both = []
    for moment in (midnight, midnight + 1.0):
        ascension, declination, sidereal = _apparent_sun(moment)
        hour_angle = sidereal + math.radians(place.longitude_deg) - ascension
        flat = np.cos(declination)
        both.append([flat * np.cos(hour_angle), flat * np.sin(hour_angle), np.sin(declination)])
    return both[0], [after - before for before, after in zip(*both, strict=True)]


def _to_angles(
    across: FloatArray, side: FloatArray, axis: FloatArray, place: SunPlace, stretch: FloatArray | float = 1.0
) -> SunPosition:
    """From the equatorial direction (towards meridian, west, pole) to elevation and azimuth."""
    sin_lat, cos_lat = math.sin(math.radians(place.latitude_deg)), math.cos(math.radians(place.latitude_deg))
    up = sin_lat * axis + cos_lat * across
    north = cos_lat * axis - sin_lat * across
    azimuth = np.arctan2(-side, north)
    np.degrees(azimuth, out=azimuth)
    azimuth %= 360.0
    return SunPosition(np.degrees(np.arcsin(np.clip(up * stretch, -1.0, 1.0))), azimuth)


def equation_of_time_min(ut_days: FloatArray) -> FloatArray:
    """Minutes by which the sun is ahead of an even clock (Meeus, ch. 28).

    Formula: 4 × (mean longitude − 0.0057183° − right ascension + nutation in right ascension).

    Args:
        ut_days: moments, days since 2000-01-01 00:00 UT [d], any shape
    Returns: sundial minus clock [min], same shape
    Valid: 1950 to 2050
    Source: Meeus, Astronomical Algorithms, ch. 28 (memory)
    """
    moments = np.asarray(ut_days, dtype=np.float64)
    ascension, _, sidereal = _apparent_sun(moments)
    mean_sun = np.radians(360.0 * (moments % 1.0) + 180.0)  # the angle an even clock turns
    difference = sidereal - ascension - mean_sun
    result: FloatArray = np.degrees((difference + np.pi) % (2.0 * np.pi) - np.pi) * 4.0
    return result


def sun_events(days: NDArray[np.int64], place: SunPlace) -> SunEvents:
    """Sunrise, solar noon and sunset in clock hours of each day.

    Formula: noon from the equation of time; cos H = (sin h₀ − sin φ sin δ) / (cos φ cos δ) with h₀ = −0.833°, repeated
    with the sun's place at the moment found.

    Args:
        days: clock days since 2000-01-01 [d], shape (D)
        place: latitude, longitude [°] and the clock's offset [h]
    Returns: clock hours, nan where there is no sunrise or sunset; day length 0 or 24 there [h]
    Valid: 1950 to 2050; level horizon at the observer's height
    Source: as sun_position; h₀ is the almanacs' convention (memory)
    """
    midnight = np.asarray(days, dtype=np.float64) - place.utc_offset_h / 24.0
    base_h = 12.0 - place.longitude_deg / 15.0 + place.utc_offset_h

    def settle(sign: float) -> tuple[FloatArray, FloatArray]:
        hours, cosine = np.full_like(midnight, base_h), np.zeros_like(midnight)
        for _ in range(4):
            moment = midnight + hours / 24.0
            cosine = _rising_cosine(_apparent_sun(moment)[1], place)
            half_h = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))) / 15.0
            hours = base_h - equation_of_time_min(moment) / 60.0 + sign * half_h
        return hours, cosine

    (rise, rise_cosine), (noon, _), (setting, set_cosine) = settle(-1.0), settle(0.0), settle(1.0)
    none = (np.abs(rise_cosine) > 1.0) | (np.abs(set_cosine) > 1.0)
    whole = np.where(rise_cosine < 0.0, 24.0, 0.0)
    length = np.where(none, whole, setting - rise)
    return SunEvents(np.where(none, np.nan, rise), noon, np.where(none, np.nan, setting), length)


def _rising_cosine(declination: FloatArray, place: SunPlace) -> FloatArray:
    """Cosine of the hour angle at which the sun's upper edge touches the horizon; beyond ±1 it never does."""
    latitude = math.radians(min(max(place.latitude_deg, -89.9999), 89.9999))
    low = math.sin(math.radians(RISING_ELEVATION_DEG))
    result: FloatArray = (low - math.sin(latitude) * np.sin(declination)) / (math.cos(latitude) * np.cos(declination))
    return result


def refraction_deg(
    apparent_deg: FloatArray,
    pressure_kpa: float = _STANDARD_PRESSURE_KPA,
    temperature_c: float = _STANDARD_TEMPERATURE_C,
) -> FloatArray:
    """How much the air lifts a body seen at this apparent elevation, in degrees (Bennett 1982).

    Formula: R′ = cot(h + 7.31/(h + 4.4)) arc minutes, × P/101 × 283/(273 + T).

    Args:
        apparent_deg: apparent elevation [°], any shape
        pressure_kpa: air pressure [kPa]
        temperature_c: air temperature [°C]
    Returns: lift, 0 or more [°]
    Valid: apparent elevation −1 to 90°
    Source: Bennett 1982, J. Navigation 35:255 (memory)
    """
    seen = np.clip(apparent_deg, -1.0, 90.0)
    minutes = 1.0 / np.tan(np.radians(seen + 7.31 / (seen + 4.4)))
    air = pressure_kpa / _STANDARD_PRESSURE_KPA * 283.0 / (273.0 + temperature_c)
    result: FloatArray = np.maximum(minutes, 0.0) / 60.0 * air
    return result


def apparent_elevation_deg(
    elevation_deg: FloatArray,
    pressure_kpa: float = _STANDARD_PRESSURE_KPA,
    temperature_c: float = _STANDARD_TEMPERATURE_C,
) -> FloatArray:
    """Where a body seems to stand, lifted by the air, in degrees (Sæmundsson form used by NREL SPA).

    Formula: h + 1.02 / (60 tan(h + 10.3/(h + 5.11))) × P/101 × 283/(273 + T); unchanged below −0.8333°.

    Args:
        elevation_deg: geometric elevation [°], any shape
        pressure_kpa: air pressure [kPa]
        temperature_c: air temperature [°C]
    Returns: apparent elevation [°]
    Valid: −90 to 90°
    Source: Reda & Andreas 2003, NREL/TP-560-34302, eq. 42 (memory; value checked)
    """
    above = np.maximum(elevation_deg, RISING_ELEVATION_DEG)
    air = pressure_kpa / _STANDARD_PRESSURE_KPA * 283.0 / (273.0 + temperature_c)
    lift = air * 1.02 / (60.0 * np.tan(np.radians(above + 10.3 / (above + 5.11))))
    result: FloatArray = elevation_deg + np.where(elevation_deg >= RISING_ELEVATION_DEG, lift, 0.0)
    return result
