"""What one container of each row wants by month, factor by factor, and how long it lasts without water."""

from collections.abc import Iterator
from datetime import date

import numpy as np

from brimful.design.season.model import SurvivalWorked, ThirstWorked
from brimful.design.season.telling import Inputs, Telling
from brimful.design.season.years import month_of
from brimful.domains.watering.demand import canopy_demand_l_day, demand_l_day, wetted_surface_l_day
from brimful.domains.watering.season import Season, Store
from brimful.domains.watering.survival import days_without_water


def thirst_of(telling: list[Telling], season: Season, inputs: Inputs) -> Iterator[ThirstWorked]:
    """By row and month, what the sunniest of its telling containers wants and what rain brings, on a mean day."""
    months = month_of(inputs.years.day_of_year)
    et0, rain = inputs.years.et0_mm.mean(axis=1), season.rain_mm.mean(axis=1)
    for at in _sunniest(telling):
        columns = (
            et0,
            telling[at].light,
            telling[at].canopy_m2,
            rain * season.rain_litres_per_mm[:, at],
        )
        for month in dict.fromkeys(months.tolist()):
            means = [float(column[months == month].mean()) for column in columns]
            yield _of_month(telling[at], month, inputs, *means)


def _of_month(one: Telling, month: int, inputs: Inputs, *means: float) -> ThirstWorked:
    open_mm, light, canopy, rain = means
    at = inputs.ledger.at("season", one.row.name, f"{date(2001, month, 1):%B}")
    plants, place = one.plant_factor, one.spec.microclimate.factor
    here = at.work("et0_mm_day", et0_behind_shade, et0_open_mm_day=open_mm, light_share=light)
    leaves = at.work(
        "canopy_demand_l_day",
        canopy_demand_l_day,
        et0_mm=here,
        plant_factor=plants,
        microclimate_factor=place,
        canopy_area_m2=canopy,
    )
    bare = at.work("wetted_surface_l_day", wetted_surface_l_day, et0_mm=here, wetted_area_m2=one.row.mouth_area_m2)
    wants = at.work("demand_l_day", demand_l_day, canopy_l_day=leaves, wetted_l_day=bare)
    return ThirstWorked(one.row.name, month, open_mm, light, plants, place, canopy, leaves, bare, wants, rain)


def et0_behind_shade(et0_open_mm_day: float, light_share: float) -> float:
    """Reference evapotranspiration at a container behind what shades it, in mm a day.

    Formula: ET0 in the open × ET0 by the light that is left over ET0 by all of it, each by FAO-56 equation 6.
    Args: et0_open_mm_day [mm/day]; light_share [0 to 1]
    Returns: [mm/day]
    Valid: walls throw no light back and take no wind away
    Source: FAO-56 equation 6 (read); even-sky diffuse model
    """
    return et0_open_mm_day * light_share


def survival_of(telling: list[Telling], store: Store, season: Season, inputs: Inputs) -> Iterator[SurvivalWorked]:
    """Days without water by month, of the sunniest telling container of each row."""
    months = month_of(inputs.years.day_of_year)
    wanted = season.et0_mm * season.litres_per_mm[:, None, :]
    lasts = days_without_water(store, wanted, months.astype(np.float64))
    for at in _sunniest(telling):
        for month in dict.fromkeys(months.tolist()):
            yield SurvivalWorked(telling[at].row.name, month, int(lasts[month - 1, at]))


def _sunniest(telling: list[Telling]) -> list[int]:
    """Of each row the telling container with the most light."""
    best: dict[str, int] = {}
    for at, one in enumerate(telling):
        known = best.setdefault(one.row.name, at)
        if one.light.mean() > telling[known].light.mean():
            best[one.row.name] = at
    return list(best.values())
