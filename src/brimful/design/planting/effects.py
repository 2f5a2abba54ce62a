"""What a swap changes: the container planted anew and worked out as the design does, and the bill of plants."""

from collections.abc import Iterator
from dataclasses import replace

from brimful.catalog import Plant
from brimful.design.demand import demands_of
from brimful.design.growing import grown_of
from brimful.design.ledger import Ledger
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.model import EffectWorked
from brimful.design.planting.orders import needed_of, order_cost
from brimful.design.planting.words import in_units
from brimful.design.settle import PlantSpec, RowSpec
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.bloom import bloom_calendar
from brimful.domains.planting.taxon import Taxon
from brimful.records import record

MIDDLE = 1
"""Mid-season among the occasions of demand."""


@record
class Change:
    """One plant of a row to be replaced, in so many containers; and by what: each taxon and how many of it."""

    row: RowSpec
    spec: PlantSpec
    containers_count: int
    by: tuple[tuple[Taxon, int], ...]


def effects_of(desk: PlantingDesk, change: Change) -> tuple[EffectWorked, ...]:
    """How it is now, then how it is with each stand-in: water, bill, bloom, feed, upkeep, and what does not fit."""
    old = taxon_of(change.spec)
    plants = desk.plants
    rows = [with_plant(change.row, change.spec, plants[taxon.key], count) for taxon, count in change.by]
    found: list[EffectWorked] = []
    for (taxon, count), (water, problems) in zip(
        ((old, change.spec.count), *change.by), _worked(desk, (change.row, *rows)), strict=True
    ):
        before = found[0].water_l_day if found else water
        bill = _bill_change(desk, change, plants[taxon.key], count) if found else 0.0
        bloom = bloom_calendar([taxon], desk.planted, desk.removed)[taxon.key]
        months = tuple(month for month, share in bloom.items() if share)
        effect = EffectWorked(water, water - before, bill, months, taxon.feed, taxon.deadhead, taxon.trim, problems)
        found.append(effect)
    return tuple(found)


def _worked(desk: PlantingDesk, rows: tuple[RowSpec, ...]) -> Iterator[tuple[float, tuple[str, ...]]]:
    """Water of one container of each row at mid-season [L/day], and what does not fit, as the design works it out."""
    middle = desk.climate.occasions[MIDDLE]
    warmth = replace(desk.climate.warmth, mean_c=desk.climate.warmth.mean_c[: middle.days_grown_count + 1])
    grown = grown_of(rows, warmth, Ledger())
    demands = demands_of(rows, grown, (middle,), desk.catalog, Ledger())
    for one, (demand,) in zip(grown, demands, strict=True):
        problems = (in_units(p.message, desk.plan.units) for p in one.layout.problems if p.code != "loop-room")
        yield demand.demand_l_day, tuple(problems)


def with_plant(row: RowSpec, spec: PlantSpec, new: Plant, count: int) -> RowSpec:
    """The row with one of its plants replaced, at the front too; where it has the new one already, both counts are
    one."""
    plants: dict[str, PlantSpec] = {}
    for one in row.plants:
        taken = PlantSpec(new, count, spec.root_ball) if one is spec else one
        same = plants.get(taken.plant.key)
        plants[taken.plant.key] = taken if same is None else replace(same, count=same.count + taken.count)
    moved = row.recipe.front == spec.plant.key and spec.plant.key not in plants
    recipe = replace(row.recipe, front=new.key) if moved else row.recipe
    return replace(row, plants=tuple(plants.values()), recipe=recipe)


def _bill_change(desk: PlantingDesk, change: Change, new: Plant, count: int) -> float | None:
    """The bill of both taxa after the swap less that before, in whole trays."""
    needed, ball, old = needed_of(desk), change.spec.root_ball, change.spec.plant.key
    was = (needed[old, ball], needed.get((new.key, ball), 0))
    then = (was[0] - change.containers_count * change.spec.count, was[1] + change.containers_count * count)
    before = [order_cost(desk, plant, ball, n) for plant, n in zip((old, new.key), was, strict=True)]
    after = [order_cost(desk, plant, ball, n) for plant, n in zip((old, new.key), then, strict=True)]
    known = [bill for bill in (*before, *after) if bill is not None]
    return sum(known[2:]) - sum(known[:2]) if len(known) == 4 else None
