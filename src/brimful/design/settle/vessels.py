"""Settle a container: a type from the catalogue, or its own sizes with walls by its material."""

from brimful.catalog import Material
from brimful.design.settle.notes import Desk, Notes, Path
from brimful.domains.container import Sizes, Vessel, vessel
from brimful.plan.schema import Container
from brimful.quantities import Dimension, System, show

MATERIAL = "fibre-cement"
TAPER = 0.85  # bottom over top of an ordinary tapered pot: common practice, no source

Made = tuple[Vessel, Material, str, float | None]


def settle_vessel(given: Container, path: Path, row: str, desk: Desk) -> Made | None:
    """The vessel, its material, what to call it, and its weight where that is known."""
    catalog, notes = desk.catalog, desk.notes
    if given.type is not None:
        return _of_type(given, path, desk)
    word = given.material
    material = (
        notes.pick(catalog.materials, word, (*path, "material"), "material")
        if word
        else notes.usual(
            catalog.materials, MATERIAL, "containers.container.material", "what the containers are made of"
        )
    )
    if material is None:
        return None
    wall, base = given.wall or material.wall_m, given.base or material.base_m
    if given.wall is None or given.base is None:
        said = f"wall {1000 * wall:.0f} mm, base {1000 * base:.0f} mm"
        notes.assume("containers.container.wall", f"wall and base of {material.name}", said, material.source)
    words = f"{given.shape}, {_across(given, desk.plan.units)}, {material.name}"
    try:
        made = vessel(
            given.shape or "round", _sizes(given, notes), wall_m=wall, base_m=base, floor_m=given.reservoir or 0.0
        )
    except ValueError as error:
        notes.wrong("impossible-container", path, f'container of "{row}": {error}', "Check its sizes, wall and base.")
        return None
    return made, material, words, given.weight


def _of_type(given: Container, path: Path, desk: Desk) -> Made | None:
    catalog, notes = desk.catalog, desk.notes
    kind = notes.pick(catalog.containers, given.type or "", path, "container type")
    fixed = [key for key in type(given).model_fields if key != "type" and getattr(given, key) not in (None, ())]
    if fixed:
        said = f"type and {', '.join(fixed)} were given; expected a type alone, or shape and sizes without a type"
        notes.wrong("container-twice", path, said, "A type beside the plan can hold your own sizes.")
        return None
    if kind is None:
        return None
    made = vessel(kind.shape, kind.sizes, wall_m=kind.wall_m, base_m=kind.base_m, floor_m=kind.reservoir_m or 0.0)
    return made, catalog.materials[kind.material], kind.name, kind.weight_kg


def _across(given: Container, units: str) -> str:
    """The sizes that tell one container from another, as the plan's reader measures them."""

    def length(value_m: float) -> str:
        if units == "metric":
            return f"{100 * value_m:.0f} cm"
        return show(value_m, Dimension.LENGTH, System.US, small=True)

    tall = given.height or max((height for height, _ in given.diameters), default=0.0)
    wide = given.top or max((width for _, width in given.diameters), default=0.0)
    short = f" by {length(given.top_width)}" if given.top_width is not None else ""
    return f"{length(wide)}{short} across, {length(tall)} tall"


def _sizes(given: Container, notes: Notes) -> Sizes:
    top, height = given.top or 0.0, given.height or 0.0
    bottom = given.bottom
    if bottom is None and given.shape != "urn":
        bottom = 0.0 if given.shape == "bowl" else TAPER * top
        if bottom:
            notes.assume("containers.container.bottom", "bottom width", f"{TAPER} of the top")
    wide = given.top_width or top
    narrow = given.bottom_width or (
        TAPER * wide if given.bottom is None else given.bottom * wide / top if top else wide
    )
    return Sizes(height, top, bottom or 0.0, wide, narrow, given.diameters)
