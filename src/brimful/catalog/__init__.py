"""Reference tables, one CSV each, every row with its source and certainty; files beside the plan extend them."""

from brimful.catalog.catalog import PREFIX, Catalog, load
from brimful.catalog.reading import TableError
from brimful.catalog.rows import (
    CERTAINTIES,
    TABLES,
    Colour,
    ContainerType,
    Device,
    Dripline,
    Emitter,
    Feed,
    Fitting,
    Material,
    Microclimate,
    Mix,
    Plant,
    PlantFactor,
    Price,
    RootBall,
    Row,
    Tube,
)
from brimful.catalog.table import Table

__all__ = [
    "CERTAINTIES",
    "PREFIX",
    "TABLES",
    "Catalog",
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
    "Table",
    "TableError",
    "Tube",
    "load",
]
