"""How warm the mix is on each day of the season, which sets how fast coated feed lets go."""

import math
from datetime import timedelta
from pathlib import Path

from brimful.design.care.desk import CareDesk
from brimful.design.climate import read_weather_of
from brimful.design.settle.notes import Notes
from brimful.plan.read import Places

WALL_C = 3.0  # mix over the air's daily mean, light walls; dark ones 5 to 10: common practice, no source
MILD_C = 18.0  # season's mean where there is no weather: assumed
SWING_C = 4.0


def mix_temperatures_c(desk: CareDesk, folder: Path) -> tuple[float, ...]:
    """Mean temperature of the mix on each day of a year from planting: air of all years, and the walls' warmth."""
    start = desk.settled.season.planting_day
    days = [(start - 1 + i) % 366 + 1 for i in range(366)]
    desk.notes.assume("feed.mix_temperature", "mix warmer than the air by", f"{WALL_C:g} °C (5 °F)")
    means = _air_means_c(desk, folder)
    if means is None:
        middle = (desk.frost - desk.planted) / timedelta(days=2)
        return tuple(MILD_C + WALL_C + SWING_C * math.cos(2 * math.pi * (i - middle) / 366) for i in range(366))
    return tuple(means[day] + WALL_C for day in days)


def _air_means_c(desk: CareDesk, folder: Path) -> dict[int, float] | None:
    site = desk.plan.site
    if site.weather is None and site.normals is None:
        return None
    weather = read_weather_of(site, folder, Notes(Places()))
    if weather is None:
        return None
    import numpy as np

    mean = (weather.tmax_c + weather.tmin_c) / 2
    found: dict[int, float] = {}
    for day in range(1, 367):
        near = mean[np.abs((weather.day_of_year - day + 183) % 366 - 183) <= 7]
        near = near[np.isfinite(near)]
        found[day] = float(near.mean()) if near.size else MILD_C
    return found
