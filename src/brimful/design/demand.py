"""Stage: canopy and daily demand of one container of each row, on each occasion."""

from brimful.catalog import Catalog
from brimful.design.growing import RowGrown
from brimful.design.ledger import Ledger
from brimful.design.model import ContainerDemand, OccasionClimate
from brimful.design.settle import RowSpec
from brimful.domains.planting.canopy import union_area_m2
from brimful.domains.watering.demand import canopy_demand_l_day, demand_l_day, wetted_surface_l_day

Demands = tuple[tuple[ContainerDemand, ...], ...]


def demands_of(
    rows: tuple[RowSpec, ...],
    grown: tuple[RowGrown, ...],
    occasions: tuple[OccasionClimate, ...],
    catalog: Catalog,
    ledger: Ledger,
) -> Demands:
    """The demand of one container of each row on each occasion."""
    return tuple(
        tuple(_demand(row, one, occasion, catalog, ledger) for occasion in occasions)
        for row, one in zip(rows, grown, strict=True)
    )


def _demand(
    row: RowSpec, grown: RowGrown, climate: OccasionClimate, catalog: Catalog, ledger: Ledger
) -> ContainerDemand:
    at = ledger.at("rows", row.name, climate.occasion)
    mouth = row.vessel.inside.mouth_area_m2
    circles = grown.circles(climate.days_grown_count)
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
