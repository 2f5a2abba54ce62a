"""Stage: canopy and daily demand of one container of each row, on each occasion."""

import math
from collections.abc import Sequence

from brimful.catalog import Catalog
from brimful.design.ledger import Ledger
from brimful.design.model import ContainerDemand, OccasionClimate
from brimful.design.settle import RowSpec
from brimful.domains.planting.canopy import Circle, union_area_m2
from brimful.domains.planting.rings import grown_radius_m, new_plant_radius_m, ring_positions
from brimful.domains.watering.demand import canopy_demand_l_day, demand_l_day, wetted_surface_l_day

Demands = tuple[tuple[ContainerDemand, ...], ...]
MIDDLE, FULL = 0.5, 1.0  # share of the way from least to greatest mature spread


def demands_of(
    rows: tuple[RowSpec, ...], occasions: tuple[OccasionClimate, ...], catalog: Catalog, ledger: Ledger
) -> Demands:
    """The demand of one container of each row on each occasion."""
    return tuple(tuple(_demand(row, occasion, catalog, ledger) for occasion in occasions) for row in rows)


def _demand(row: RowSpec, climate: OccasionClimate, catalog: Catalog, ledger: Ledger) -> ContainerDemand:
    at = ledger.at("rows", row.name, climate.occasion)
    mouth = row.vessel.inside.mouth_area_m2
    circles = _circles(row, climate.occasion, math.sqrt(mouth / math.pi))
    canopy = at.work("canopy_area_m2", union_area_m2, circles=circles) if circles else 0.0
    factor = max((catalog.plant_factors[spec.plant.water_use].factor for spec in row.plants), default=0.0)
    leaves = at.work(
        "canopy_demand_l_day",
        canopy_demand_l_day,
        et0_mm=climate.et0_mm_day,
        plant_factor=factor,
        microclimate_factor=row.microclimate.factor,
        canopy_area_m2=canopy,
    )
    bare = at.work("wetted_surface_l_day", wetted_surface_l_day, et0_mm=climate.et0_mm_day, wetted_area_m2=mouth)
    demand = at.work("demand_l_day", demand_l_day, canopy_l_day=leaves, wetted_l_day=bare)
    return ContainerDemand(climate.occasion, canopy, leaves, bare, demand)


def _circles(row: RowSpec, occasion: str, mouth_radius_m: float) -> tuple[Circle, ...]:
    """Each plant's leaves from above: new on planting day, of middling spread at mid-season, full at the peak."""
    specs = [spec for spec in row.plants for _ in range(spec.count)]
    places = ring_positions([spec.plant.habit for spec in specs], mouth_radius_m)
    radii: Sequence[float]
    if occasion == "planting_day":
        radii = [new_plant_radius_m(spec.root_ball.width_m) for spec in specs]
    else:
        share = MIDDLE if occasion == "mid_season" else FULL
        spreads = [s.plant.spread_min_m + share * (s.plant.spread_max_m - s.plant.spread_min_m) for s in specs]
        radii = [
            grown_radius_m(spread, math.hypot(*place), mouth_radius_m)
            for spread, place in zip(spreads, places, strict=True)
        ]
    return tuple((x, y, radius) for (x, y), radius in zip(places, radii, strict=True))
