"""The rows of the tables: one frozen class a table, SI inside. Adding a column is one line in its class."""

from brimful.catalog.rows.containers import ContainerType, Material, Mix
from brimful.catalog.rows.drip import Device, Dripline, Emitter, Fitting, Tube
from brimful.catalog.rows.feeds import Feed
from brimful.catalog.rows.plants import Colour, Microclimate, Plant, PlantFactor, RootBall
from brimful.catalog.rows.prices import Price
from brimful.catalog.rows.row import CERTAINTIES, Row

TABLES: dict[str, type[Row]] = {
    row.table: row
    for row in (
        ContainerType,
        Material,
        Mix,
        Tube,
        Emitter,
        Dripline,
        Fitting,
        Device,
        Plant,
        RootBall,
        Colour,
        PlantFactor,
        Microclimate,
        Price,
        Feed,
    )
}
"""Every table by its name; each stands in `tables/<name>.csv`."""

__all__ = [
    "CERTAINTIES",
    "TABLES",
    "Colour",
    "ContainerType",
    "Device",
    "Dripline",
    "Emitter",
    "Feed",
    "Fitting",
    "Material",
    "Microclimate",
    "Mix",
    "Plant",
    "PlantFactor",
    "Price",
    "RootBall",
    "Row",
    "Tube",
]
