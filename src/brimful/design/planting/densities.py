"""Each row planted to grow in and for a full look at once: plants, cost and water of one container, side by side."""

from collections.abc import Iterator
from dataclasses import replace

from brimful.design.demand import demands_of
from brimful.design.growing import grown_of
from brimful.design.ledger import Ledger
from brimful.design.plant_goods import item_of, plant_price
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.model import DensityWorked
from brimful.design.planting.words import in_units
from brimful.design.settle import RowSpec
from brimful.design.settle.planting import FACTORS, fitted_plants
from brimful.domains.planting.recipe import Problem

OCCASIONS = 2
"""Planting day and mid-season: the first of the occasions of demand."""


def densities_of(desk: PlantingDesk) -> tuple[tuple[DensityWorked, ...], ...]:
    """For each row one entry a density, worked out as the design does; nothing where nothing is planted."""
    rows = desk.settled.rows
    tried = tuple(as_dense(row, density) for row in rows for density in FACTORS)
    occasions = desk.climate.occasions[:OCCASIONS]
    warmth = desk.climate.warmth
    warmth = replace(warmth, mean_c=warmth.mean_c[: occasions[-1].days_grown_count + 1])
    grown = grown_of(tried, warmth, Ledger())
    demands = demands_of(tried, grown, occasions, desk.catalog, Ledger())
    found = [
        DensityWorked(
            row.recipe.density,
            row.recipe.density == rows[i // len(FACTORS)].recipe.density,
            sum(spec.count for spec in row.plants),
            _cost(desk, row),
            wants[0].demand_l_day,
            wants[1].demand_l_day,
            tuple(_unfit(desk, one.layout.problems)),
        )
        for i, (row, one, wants) in enumerate(zip(tried, grown, demands, strict=True))
    ]
    each = [tuple(found[i : i + len(FACTORS)]) for i in range(0, len(found), len(FACTORS))]
    return tuple(one if row.plants else () for one, row in zip(each, rows, strict=True))


def as_dense(row: RowSpec, density: str) -> RowSpec:
    """The row with its recipe fitted at a density; as it is where that is its own."""
    if density == row.recipe.density:
        return row
    recipe = replace(row.recipe, density=density)
    return replace(row, recipe=recipe, plants=fitted_plants(recipe, row.vessel)[0])


def _cost(desk: PlantingDesk, row: RowSpec) -> float | None:
    """What the plants of one container cost, spares and whole trays aside."""
    prices = [plant_price(desk.catalog, item_of(spec.plant.key, spec.root_ball)) for spec in row.plants]
    if any(price is None or price.currency not in ("", desk.plan.currency) for price in prices):
        return None
    return sum(price.price * spec.count for price, spec in zip(prices, row.plants, strict=True) if price is not None)


def _unfit(desk: PlantingDesk, problems: tuple[Problem, ...]) -> Iterator[str]:
    return (in_units(problem.message, desk.plan.units) for problem in problems)
