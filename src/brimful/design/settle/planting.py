"""Settle what is planted in a row: taxa, trade sizes, colours; the recipe fitted to the container; its front."""

from collections.abc import Iterator
from dataclasses import fields, replace

from brimful.design.settle.notes import Desk, Path
from brimful.design.settle.settled import PlantSpec, RecipeSpec
from brimful.design.settle.vessels import settle_vessel
from brimful.domains.container import Vessel
from brimful.domains.planting.density import INSTANT_FACTOR
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.scale import scale_recipe
from brimful.domains.planting.taxon import Taxon
from brimful.findings import did_you_mean
from brimful.plan.schema import Containers, Planted
from brimful.quantities import Dimension, System, show

MOST_PLANTS = 200
FACTORS = {"grow-in": 1.0, "instant": INSTANT_FACTOR}
"""Plants over those of a recipe, which is taken as written to grow in."""


def taxon_of(spec: PlantSpec) -> Taxon:
    """A row of the plant table, as the planting takes it."""
    return Taxon(**{one.name: getattr(spec.plant, one.name) for one in fields(Taxon)})


def settle_plants(desk: Desk, row: Containers, path: Path) -> Iterator[PlantSpec]:
    """The plants of one container as the plan writes them."""
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    entries: tuple[Planted, ...] = row.plants
    here: Path = (*path, "plants")
    if row.recipe is not None:
        recipe = plan.recipe.get(row.recipe)
        if recipe is None:
            known = ", ".join(plan.recipe) or "none yet"
            notes.wrong(
                "unknown-recipe", (*path, "recipe"), f'no recipe is called "{row.recipe}"', f"Recipes: {known}."
            )
            return
        entries, here = recipe.plants, ("recipe", row.recipe, "plants")
    if row.recipe is None and not entries:
        said = f'row "{row.name}" has neither recipe nor plants; only wet mix is counted for water'
        notes.warn("nothing-planted", path, said, 'Add plants = ["4 zonal geranium"], or recipe = "...".')
    if sum(entry.count for entry in entries) > MOST_PLANTS:
        notes.wrong(
            "too-many-plants",
            here,
            f"more than {MOST_PLANTS} plants in one container",
            "Give the count of one container.",
        )
    for at, entry in enumerate(entries):
        plant = notes.pick(catalog.plants, entry.plant, (*here, at), "plant")
        size = (
            notes.pick(catalog.root_balls, entry.size, (*here, at, "size"), "trade size")
            if entry.size
            else notes.usual(catalog.root_balls, "4in", "recipe.plants.size", "trade size of the plants")
        )
        if plant is not None and size is not None:
            southern = (plan.site.latitude or 0.0) < 0
            plant = plant.in_south() if southern else plant
            yield _coloured(desk, PlantSpec(plant, entry.count, size), entry.colour, (*here, at, "colour"))


def _coloured(desk: Desk, spec: PlantSpec, given: str | None, path: Path) -> PlantSpec:
    """The plants in the colour the plan names; a colour the table of this plant lacks is taken, an unknown one told."""
    if given is None:
        return spec
    colour, plant = given.strip().lower().replace(" ", "-"), spec.plant
    flowers = {row.name for row in desk.catalog.colours.values() if row.use == "flower"}
    if colour in plant.foliage_colour and colour not in plant.flower_colours:
        return replace(spec, plant=replace(plant, foliage_colour=(colour,)), colour=colour)
    listed = tuple(word for word in (*plant.flower_colours, *plant.foliage_colour) if word != "none")
    if colour not in flowers:
        hint = did_you_mean(colour, [*flowers, *listed]) or f"It comes in {', '.join(listed)}."
        desk.notes.warn("unknown-colour", path, f'no colour of flowers or leaves is called "{given[:60]}"', hint)
        return spec
    if colour not in plant.flower_colours:
        said = f"{plant.common_name} in {colour} is not in the plant table"
        desk.notes.note("rare-colour", path, said, f"Ask the grower; listed are {', '.join(listed)}.")
    return replace(spec, plant=replace(plant, flower_colours=(colour,)), colour=colour)


def settle_recipe(
    desk: Desk, row: Containers, path: Path, *, plants: tuple[PlantSpec, ...], vessel: Vessel
) -> tuple[tuple[PlantSpec, ...], RecipeSpec]:
    """The plants fitted to this container, and how the plan wants them."""
    view, front = _front(desk, row, path, plants)
    area, density = _written_area_m2(desk, row, vessel), row.density or "grow-in"
    spec = RecipeSpec(view, front, row.faces if view == "one-sided" else None, density, plants, area)
    fitted, reasons = fitted_plants(spec, vessel)
    if reasons:
        inside = vessel.inside
        width = show(min(inside.spans_m(inside.depth_m)), Dimension.LENGTH, _system(desk))
        said = f'row "{row.name}": the recipe is fitted to {width} across: {"; ".join(reasons)}'
        desk.notes.note("recipe-fitted", (*path, "recipe" if row.recipe else "plants"), said)
    return fitted, replace(spec, reasons=reasons)


def fitted_plants(spec: RecipeSpec, vessel: Vessel) -> tuple[tuple[PlantSpec, ...], tuple[str, ...]]:
    """The recipe's plants for a container by area and density, with reasons; as written where neither differs."""
    inside, factor = vessel.inside, FACTORS[spec.density]
    if not spec.written or (factor == 1.0 and abs(spec.written_area_m2 / inside.mouth_area_m2 - 1.0) < 1e-9):
        return spec.written, ()
    names = _names(spec.written)
    parts = tuple(
        Part(name, taxon_of(one).role, one.count, one.root_ball.width_m, one.root_ball.depth_m)
        for name, one in zip(names, spec.written, strict=True)
    )
    front = next((n for n, one in zip(names, spec.written, strict=True) if one.plant.key == spec.front), None)
    scaled = scale_recipe(
        Recipe(parts, spec.view, front),
        spec.written_area_m2,
        inside.mouth_area_m2,
        to_width_m=min(inside.spans_m(inside.depth_m)),
        density=factor,
    )
    counts = {part.key: part.count for part in scaled.recipe.parts}
    kept = [replace(one, count=counts[name]) for name, one in zip(names, spec.written, strict=True) if name in counts]
    return tuple(kept), scaled.reasons


def _names(plants: tuple[PlantSpec, ...]) -> list[str]:
    """A name for each entry of a recipe, its colour and size added where the taxon stands twice."""
    keys = [one.plant.key for one in plants]
    names: list[str] = []
    for one in plants:
        name = one.plant.key
        if keys.count(name) > 1:
            name = f"{name} ({' '.join(filter(None, (one.colour, one.root_ball.key)))})"
        names.append(name if name not in names else f"{name}, again {len(names)}")
    return names


def _written_area_m2(desk: Desk, row: Containers, vessel: Vessel) -> float:
    """The mouth the recipe was written for; this container's own where the plan does not say."""
    recipe = desk.plan.recipe.get(row.recipe) if row.recipe is not None else None
    if recipe is None or recipe.written_for is None:
        return vessel.inside.mouth_area_m2
    made = settle_vessel(recipe.written_for, ("recipe", row.recipe or "", "written_for"), f"recipe {row.recipe}", desk)
    return vessel.inside.mouth_area_m2 if made is None else made[0].inside.mouth_area_m2


def _front(desk: Desk, row: Containers, path: Path, plants: tuple[PlantSpec, ...]) -> tuple[str, str | None]:
    """From where the row is seen, and the taxon at its front; what contradicts itself is told and left out."""
    marked = [field for field in ("front", "faces") if getattr(row, field) is not None]
    if row.view == "all-round" and marked:
        said = f'row "{row.name}" is seen all round, and {" and ".join(marked)} is given; all round has no front'
        mend = f'Write view = "one-sided", or take {" and ".join(marked)} out.'
        desk.notes.warn("front-contradiction", (*path, marked[0]), said, mend)
        return "all-round", None
    view = row.view or ("one-sided" if marked else "all-round")
    plant = desk.notes.pick(desk.catalog.plants, row.front, (*path, "front"), "plant") if row.front else None
    if plant is None:
        return view, None
    if plant.key not in {one.plant.key for one in plants}:
        planted = ", ".join(dict.fromkeys(one.plant.common_name for one in plants)) or "nothing"
        said = f'{plant.common_name} is to stand at the front of row "{row.name}", but is not among its plants'
        desk.notes.warn("front-contradiction", (*path, "front"), said, f"Planted there: {planted}.")
        return view, None
    return view, plant.key


def _system(desk: Desk) -> System:
    return System.METRIC if desk.plan.units == "metric" else System.US
