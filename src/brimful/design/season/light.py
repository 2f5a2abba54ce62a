"""Sun at each row of containers behind what stands around it: hours of direct sun, and what is left of ET0."""

import math

import numpy as np
from numpy.typing import NDArray

from brimful.design.season.model import SunWorked
from brimful.design.season.years import Years, month_of
from brimful.design.settle import RowSpec
from brimful.design.settle.notes import Notes
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.horizon import Block, Crown, Obstacle, SkyView, Wall, sky_view
from brimful.domains.climate.radiation import solar_declination, sunset_hour_angle
from brimful.domains.climate.record import DailyRecord
from brimful.domains.climate.shade import direct_sun, light_class, season_hours, sun_path
from brimful.domains.climate.sky import daily_diffuse_share, radiation_at_container
from brimful.domains.climate.sun import SunPlace
from brimful.plan.schema import Containers, Plan, Shade

FloatArray = NDArray[np.float64]
LETS_THROUGH = {"wall": 0.0, "fence": 0.0, "building": 0.0, "hedge": 0.2, "tree": 0.2}
"""Share of light that passes (common practice, no source)."""
CANOPY_OVER_RIM_M = 0.3
TREE_CLEAR_SHARE = 0.3
YEAR = 2026
"""Any year: the sun's path differs by minutes from one to the next."""


def sun_of(
    plan: Plan, rows: tuple[RowSpec, ...], years: Years, notes: Notes
) -> tuple[tuple[SunWorked, ...], dict[str, FloatArray]]:
    """The sun on each row, and by row its ET0 over that of the open, (days, containers); ones where nothing shades."""
    if not plan.shade:
        return (), {row.name: np.ones((years.day_of_year.size, row.count)) for row in rows}
    if any(given.start is None for given in plan.containers):
        said = "at the site plan's origin, and runs east where no heading is given"
        notes.assume("containers.start", "where the first container of a row stands", said)
    obstacles = [obstacle_of(shade) for shade in plan.shade]
    longitude = plan.site.longitude or 0.0
    path = sun_path(SunPlace(years.place.latitude_deg, longitude, round(longitude / 15.0)), YEAR)
    months = month_of(years.day_of_year)
    found, light = [], {}
    for row in rows:
        view = sky_view(obstacles, receptors(plan.containers[row.index], row))
        sun = direct_sun(path, view)
        hours = np.maximum(season_hours(sun, int(months[0]), int(months[-1])), 0.0)
        found.append(_worked(row.name, np.maximum(sun.hours, 0.0), hours, view))
        light[row.name] = _share_left(years, view, sun.lit_beam_share, months)
    return tuple(found), light


def _worked(row: str, by_month: FloatArray, hours: FloatArray, view: SkyView) -> SunWorked:
    return SunWorked(
        row,
        tuple(float(v) for v in by_month.mean(axis=0)),
        float(hours.mean()),
        tuple(float(v) for v in hours),
        light_class(float(hours.mean())).value,
        light_class(float(hours.min())).value,
        float(view.sky_view.mean()),
    )


def obstacle_of(shade: Shade) -> Obstacle:
    """What stands on the site plan, as the horizon takes it."""
    through = LETS_THROUGH[shade.kind] if shade.lets_through is None else shade.lets_through
    if shade.kind == "tree":
        radius = (shade.width or 0.0) / 2
        base = TREE_CLEAR_SHARE * shade.height if shade.clear is None else shade.clear
        return Crown(shade.at or (0.0, 0.0), radius, base, shade.height, through)
    if shade.corners:
        return Block(shade.corners, shade.height, through)
    return Wall(shade.start or (0.0, 0.0), shade.end or (0.0, 0.0), shade.height, through)


def receptors(given: Containers, row: RowSpec) -> FloatArray:
    """East, north and height of each container's canopy [m]; a row without a start begins at the plan's origin."""
    east, north = given.start or (0.0, 0.0)
    heading = math.radians(90.0 if given.heading is None else given.heading)
    rim = (given.raised or 0.0) + row.vessel.outside.depth_m
    first = row.stations_m[0]
    return np.array(
        [
            (east + (s - first) * math.sin(heading), north + (s - first) * math.cos(heading), rim + CANOPY_OVER_RIM_M)
            for s in row.stations_m
        ]
    )


def _share_left(years: Years, view: SkyView, lit_by_month: FloatArray, months: NDArray[np.int64]) -> FloatArray:
    """ET0 at each container over ET0 in the open, by day of the mean year, (days, containers)."""
    clearness = years.radiation_mj_m2 / np.maximum(years.extraterrestrial_mj_m2, 1e-6)
    angle = np.degrees(
        sunset_hour_angle(years.place.latitude_deg, solar_declination(years.day_of_year.astype(np.float64)))
    )
    diffuse_mj = (daily_diffuse_share(clearness, np.asarray(angle)[:, None]) * years.radiation_mj_m2).mean(axis=1)
    whole_mj = years.radiation_mj_m2.mean(axis=1)
    share = diffuse_mj / np.maximum(whole_mj, 1e-6)
    lit, sky = lit_by_month[:, months - 1].T, view.sky_view[None, :]
    local = radiation_at_container(whole_mj[:, None], share[:, None], lit_beam_share=lit, sky_view=sky)
    return _et0(years, local) / np.maximum(_et0(years, whole_mj[:, None]), 1e-9)


def _et0(years: Years, radiation_mj_m2: FloatArray) -> FloatArray:
    """ET0 of the mean year under another light, (days, containers) [mm/day]."""
    shape = radiation_mj_m2.shape
    doy, tmax, tmin = (
        np.broadcast_to(values[:, None], shape)
        for values in (years.day_of_year, years.tmax_c.mean(axis=1), years.tmin_c.mean(axis=1))
    )
    return reference_et_of_days(DailyRecord(doy, tmax, tmin, radiation_mj_m2=radiation_mj_m2), years.place).et0_mm
