"""Sun at each row of containers behind what stands around it: hours of direct sun, and what is left of ET0."""

import math

import numpy as np
from numpy.typing import NDArray

from brimful.design.season.model import SunWorked
from brimful.design.season.years import Years, month_of
from brimful.design.settle import RowSpec
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.horizon import Block, Crown, Obstacle, SkyView, Wall, sky_view
from brimful.domains.climate.radiation import solar_declination, sunset_hour_angle
from brimful.domains.climate.record import DailyRecord, Place
from brimful.domains.climate.shade import direct_sun, light_class, season_hours, sun_path
from brimful.domains.climate.sky import daily_diffuse_share, radiation_at_container
from brimful.domains.climate.sun import SunPlace
from brimful.plan.schema import Containers, Plan, Shade

FloatArray = NDArray[np.float64]
LETS_THROUGH = {"wall": 0.0, "fence": 0.0, "building": 0.0, "hedge": 0.2, "tree": 0.2}
"""Share of light that passes (common practice, no source)."""
CANOPY_OVER_RIM_M = 0.3
TREE_CLEAR_SHARE = 0.3


def sun_of(plan: Plan, rows: tuple[RowSpec, ...], years: Years) -> tuple[tuple[SunWorked, ...], dict[str, FloatArray]]:
    """The sun on each row, and by row its ET0 over that of the open (days,); ones where nothing shades."""
    open_light = {row.name: np.ones(years.day_of_year.size) for row in rows}
    if not plan.shade or plan.site.latitude is None:
        return (), open_light
    obstacles = [obstacle_of(shade) for shade in plan.shade]
    clock = round((plan.site.longitude or 0.0) / 15.0)
    path = sun_path(SunPlace(plan.site.latitude, plan.site.longitude or 0.0, clock), 2026)
    months = month_of(years.day_of_year)
    found, light = [], {}
    for row in rows:
        view = sky_view(obstacles, receptors(plan.containers[row.index], row))
        sun = direct_sun(path, view)
        hours = float(season_hours(sun, int(months[0]), int(months[-1])).mean())
        by_month = tuple(float(v) for v in sun.hours.mean(axis=0))
        seen = float(view.sky_view.mean())
        found.append(SunWorked(row.name, by_month, hours, light_class(hours).value, seen))
        light[row.name] = _share_left(plan, years, view, sun.lit_beam_share, months)
    return tuple(found), light


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


def _share_left(
    plan: Plan, years: Years, view: SkyView, lit_by_month: FloatArray, months: NDArray[np.int64]
) -> FloatArray:
    """ET0 at the row's brightest container over ET0 in the open, mean of the years, by day."""
    brightest = int(lit_by_month.mean(axis=1).argmax())
    clearness = years.radiation_mj_m2 / np.maximum(years.extraterrestrial_mj_m2, 1e-6)
    angle = np.degrees(
        sunset_hour_angle(plan.site.latitude or 0.0, solar_declination(years.day_of_year.astype(np.float64)))
    )
    diffuse = daily_diffuse_share(clearness, np.asarray(angle)[:, None])
    lit = lit_by_month[brightest][months - 1][:, None]
    local = radiation_at_container(
        years.radiation_mj_m2, diffuse, lit_beam_share=lit, sky_view=float(view.sky_view[brightest])
    )
    place = Place(plan.site.latitude or 0.0, plan.site.elevation or 0.0, 2.0, plan.site.coastal)
    doy = np.broadcast_to(years.day_of_year[:, None], local.shape)

    def et0(radiation: FloatArray) -> FloatArray:
        record = DailyRecord(doy, years.tmax_c, years.tmin_c, radiation_mj_m2=radiation)
        return reference_et_of_days(record, place).et0_mm

    return np.asarray(et0(local).mean(axis=1) / et0(years.radiation_mj_m2).mean(axis=1))
