"""Hours of direct sun and lit beam share, month by month, for many containers at once.

The sun's path of a year is sorted once by azimuth and elevation and summed up; what a container sees of it is then a
look-up for each degree of azimuth, whatever stands around it.
"""

from datetime import date
from enum import StrEnum

import numpy as np

from brimful.domains.climate.horizon import AZIMUTH_DEG, SkyView
from brimful.domains.climate.sky import distance_factor, haurwitz_w_m2, split_light
from brimful.domains.climate.sun import SunPlace, apparent_elevation_deg, days_since_2000, sun_grid
from brimful.domains.climate.values import FloatArray
from brimful.records import record

_MONTHS = 12
_KEY_STEP = 1000.0  # more than any elevation, so that azimuths never mix
_BLOCK = 64  # containers looked up together, for memory's sake
_OPEN = SkyView(np.zeros((1, 360, 1)), np.ones((1, 360, 1)))


class LightClass(StrEnum):
    """How gardeners name a place by its hours of direct sun."""

    FULL_SUN = "full sun"
    PART_SUN = "part sun"
    PART_SHADE = "part shade"
    FULL_SHADE = "full shade"


LIGHT_BREAKS_H = (6.0, 4.0, 2.0)
"""Least hours of full sun, part sun, part shade: 6 K-State Extension (read); 4 and 2 a garden column (read), where
sources disagree (others 3–5 and 3–6)."""


@record
class SunPath:
    """A year of the sun at a place, sorted by azimuth and elevation and summed from the start."""

    keys: FloatArray
    sums: FloatArray
    """(samples + 1, 24): hours of sun by month, then clear-sky beam energy by month."""
    days_in_month: FloatArray


@record
class DirectSun:
    """What reaches each container of the sun itself, (containers, 12)."""

    hours: FloatArray
    """Hours of direct sun on a mean day of the month, crowns counted by what they let through."""
    morning_hours: FloatArray
    """The part of it before the sun has crossed north or south."""
    lit_beam_share: FloatArray
    """Share of a clear sky's beam energy that arrives; 1 where the month has no sun at all."""


def sun_path(place: SunPlace, year: int, step_minutes: int = 10) -> SunPath:
    """The sun's year at a place, ready to be looked up (Haurwitz sky, Erbs split).

    Args:
        place: latitude, longitude [°] and clock offset [h]
        year: calendar year
        step_minutes: step of the count [min]
    Returns: SunPath
    Valid: 1950 to 2050; apparent elevation, so that the refracted sun counts
    Source: as sun_grid, haurwitz_w_m2, split_light
    """
    first = days_since_2000(date(year, 1, 1))
    days = np.arange(first, days_since_2000(date(year + 1, 1, 1)))
    months = np.array([date.fromordinal(day + date(2000, 1, 1).toordinal()).month for day in days.tolist()])
    sun = sun_grid(days, place, step_minutes)
    up = sun.elevation_deg > -1.0
    elevation = apparent_elevation_deg(sun.elevation_deg[up])
    distance = np.broadcast_to(distance_factor(np.arange(1.0, days.size + 1.0))[:, None], up.shape)[up]
    beam, _ = split_light(haurwitz_w_m2(elevation), elevation, distance)
    keys = (np.rint(sun.azimuth_deg[up]) % 360.0) * _KEY_STEP + elevation
    order = np.argsort(keys)
    sums, row = np.zeros((order.size + 1, 2 * _MONTHS)), np.arange(1, order.size + 1)
    month = np.broadcast_to(months[:, None], up.shape)[up][order] - 1
    sums[row, month] = step_minutes / 60.0
    sums[row, month + _MONTHS] = beam[order]
    return SunPath(
        keys[order], np.cumsum(sums, axis=0, out=sums), np.bincount(months, minlength=13)[1:].astype(np.float64)
    )


def direct_sun(path: SunPath, view: SkyView) -> DirectSun:
    """Hours of direct sun and lit beam share of each container by month.

    Formula: for each degree of azimuth the sun's sums above each edge of the view × the change of what passes there.

    Args:
        path: the sun's year
        view: what each container sees
    Returns: DirectSun, (containers, 12)
    Valid: azimuth to half a degree
    Source: counting
    """
    blocks = range(0, view.edges_deg.shape[0], _BLOCK)
    east, west = (
        np.concatenate([_passed(path, view, azimuths, slice(first, first + _BLOCK)) for first in blocks])
        for azimuths in (slice(0, 180), slice(180, 360))
    )
    whole = _passed(path, _OPEN, slice(0, 360), slice(0, 1))[0, _MONTHS:]
    lit = east[:, _MONTHS:] + west[:, _MONTHS:]
    share = np.where(whole > 0.0, lit / np.where(whole > 0.0, whole, 1.0), 1.0)
    hours = (east[:, :_MONTHS] + west[:, :_MONTHS]) / path.days_in_month
    return DirectSun(hours, east[:, :_MONTHS] / path.days_in_month, share)


def _passed(path: SunPath, view: SkyView, azimuths: slice, containers: slice) -> FloatArray:
    """Sums of the year that pass the view within these azimuths, (containers, 24)."""
    edges, passing = view.edges_deg[containers, azimuths], view.passing[containers, azimuths]
    start = AZIMUTH_DEG[azimuths] * _KEY_STEP
    change = np.diff(passing, axis=-1, prepend=0.0)
    below = path.sums[np.searchsorted(path.keys, start[:, None] + edges, side="right")]
    ends = path.sums[np.searchsorted(path.keys, start + _KEY_STEP / 2.0)]
    result: FloatArray = passing[..., -1] @ ends - np.einsum("nak,nakm->nm", change, below)
    return result


def season_hours(sun: DirectSun, first_month: int = 5, last_month: int = 9) -> FloatArray:
    """Mean hours of direct sun over the planting season, by container.

    Formula: mean of the months' hours, from the first through the last month, over the turn of the year if need be.

    Args:
        sun: hours by month
        first_month: 1–12; May in the north, November in the south
        last_month: 1–12
    Returns: [h], (containers,)
    Valid: any months
    Source: arithmetic
    """
    if not (1 <= first_month <= 12 and 1 <= last_month <= 12):
        raise ValueError(f"months are {first_month} and {last_month}: expected 1 to 12")
    months = [(first_month - 1 + step) % 12 for step in range((last_month - first_month) % 12 + 1)]
    result: FloatArray = sun.hours[:, months].mean(axis=1)
    return result


def light_class(hours: float, breaks_h: tuple[float, float, float] = LIGHT_BREAKS_H) -> LightClass:
    """What gardeners call a place with so many hours of direct sun.

    Formula: full sun from 6 h, part sun from 4 h, part shade from 2 h, full shade below.

    Args:
        hours: direct sun on a mean day of the season [h]
        breaks_h: the three limits [h], falling
    Returns: LightClass
    Valid: 0 to 24 h
    Source: K-State Extension (6 h, read); 4 and 2 h a garden column (read); sources disagree below 6 h

    >>> light_class(6.0).value, light_class(1.9).value
    ('full sun', 'full shade')
    """
    if not breaks_h[0] >= breaks_h[1] >= breaks_h[2] >= 0.0:
        raise ValueError(f"breaks_h is {breaks_h}: expected three falling limits")
    for least, name in zip(breaks_h, LightClass, strict=False):
        if hours >= least:
            return name
    return LightClass.FULL_SHADE
