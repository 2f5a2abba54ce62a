"""The plant table's rows as taxa of the domain."""

from dataclasses import fields
from functools import cache

from brimful.catalog import load
from brimful.domains.planting.taxon import Taxon


@cache
def taxa() -> dict[str, Taxon]:
    """Every row of the plant table, by key."""
    names = [field.name for field in fields(Taxon)]
    return {p.key: Taxon(**{name: getattr(p, name) for name in names}) for p in load().plants.values()}
