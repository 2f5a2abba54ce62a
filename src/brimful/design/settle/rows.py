"""Settle the rows: container, mix, plants, where each container stands, how water gets into it."""

from collections.abc import Iterator

from brimful.design.settle.delivery import settle_delivery
from brimful.design.settle.notes import Desk, Notes, Path
from brimful.design.settle.planting import settle_plants, settle_recipe
from brimful.design.settle.settled import RowSpec
from brimful.design.settle.vessels import settle_vessel
from brimful.plan.schema import Containers, Plan, Zone

HEADSPACE_M = 0.038  # 1 1/2 in: 1 to 1.5 in below the rim in medium pots (extension page, read)
APART_M = 2.0


def settle_rows(desk: Desk) -> Iterator[RowSpec]:
    """Each row of the plan that can be settled; what cannot stands in the notes."""
    seen: set[str] = set()
    notes = desk.notes
    for index, row in enumerate(desk.plan.containers):
        path: Path = ("containers", index)
        if row.name in seen:
            notes.wrong("name-twice", (*path, "name"), f'two rows are called "{row.name}"', "Give each its own name.")
        seen.add(row.name)
        settled = _row(desk, row, index)
        if settled is not None:
            yield settled


def _row(desk: Desk, row: Containers, index: int) -> RowSpec | None:
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    path: Path = ("containers", index)
    zone = _zone(plan, row, path, notes)
    made = settle_vessel(row.container, (*path, "container"), row.name, desk)
    mix = (
        notes.pick(catalog.mixes, row.mix, (*path, "mix"), "mix")
        if row.mix
        else notes.usual(catalog.mixes, "peat-perlite", "containers.mix", "potting mix")
    )
    around = row.surroundings or plan.site.surroundings
    microclimate = (
        notes.pick(catalog.microclimates, around, (*path, "surroundings"), "surroundings")
        if around
        else notes.usual(
            catalog.microclimates, "row-on-paving", "site.surroundings", "what stands around the containers"
        )
    )
    headspace = row.headspace
    if headspace is None:
        headspace = HEADSPACE_M
        notes.assume(
            "containers.headspace",
            "mix ends below the rim by",
            "38 mm (1 1/2 in)",
            "extension page, 1 to 1.5 in (read)",
        )
    plants = tuple(settle_plants(desk, row, path))
    if zone is None or made is None or mix is None or microclimate is None:
        return None
    vessel, material, words, weight = made
    if headspace >= vessel.inside.depth_m - vessel.floor_m - 0.02:
        said = f"headspace {headspace:.3g} m was given; {vessel.inside.depth_m:.3g} m is the whole depth inside"
        notes.wrong("no-room-for-mix", (*path, "headspace"), said, "Leave room for mix.")
        return None
    lift = (row.raised or 0.0) + vessel.outside.depth_m - headspace
    mouth = vessel.fill(headspace)
    delivery = settle_delivery(desk, row, index, zone=zone, lift_m=lift, width_m=mouth.width_m(mouth.depth_m))
    if delivery is None:
        return None
    stations, elevations = _stations(row, notes)
    plants, recipe = settle_recipe(desk, row, path, plants=plants, vessel=vessel)
    return RowSpec(
        index, row.name, zone.name, row.count, words, vessel, material, weight, headspace, mix, plants, microclimate,
        delivery, row.leaves_main_at, stations, elevations, recipe,
    )  # fmt: skip


def _zone(plan: Plan, row: Containers, path: Path, notes: Notes) -> Zone | None:
    """The zone of a row: the one it names, or the only one there is."""
    zones = plan.zone or (Zone(name="zone 1"),)
    if row.zone is None and len(zones) == 1:
        return zones[0]
    if row.zone is None:
        notes.wrong(
            "zone-missing", path, f'row "{row.name}" names no zone, and there are {len(zones)}', 'Add zone = "...".'
        )
        return None
    found = next((zone for zone in zones if zone.name == row.zone), None)
    if found is None:
        known = " or ".join(f'"{zone.name}"' for zone in zones) if plan.zone else "none yet: add a [[zone]] table"
        notes.wrong("unknown-zone", (*path, "zone"), f'no zone is called "{row.zone}"', f"Zones: {known}.")
    return found


def _stations(row: Containers, notes: Notes) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where each container stands along the lateral, and how high its ground lies above the tap."""
    apart = row.apart
    if apart is None:
        apart = APART_M
        if row.count > 1:
            notes.assume("containers.apart", "containers stand apart by", "2.0 m")
    approach = row.approach
    if approach is None:
        approach = apart / 2
        notes.assume("containers.approach", "the first container stands from the end of the main", "half a spacing")
    stations = tuple(approach + i * apart for i in range(row.count))
    if row.levels:
        return stations, row.levels
    first = row.rise or 0.0
    last = row.rise_last if row.rise_last is not None else first
    steps = max(row.count - 1, 1)
    return stations, tuple(first + (last - first) * i / steps for i in range(row.count))
