"""The places of a plan that an entry of its journal can name: containers, rows, zones, and the whole."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from brimful.errors import EntryRefused
from brimful.findings import nearest
from brimful.plan.names import container_names, zone_words
from brimful.records import record

if TYPE_CHECKING:
    from brimful.journal import Kind
    from brimful.journal.kinds import Scope
    from brimful.plan.schema import Plan


@record
class Spot:
    """A place: its name as entries keep it ("water side 3", "zone steps"; "" for the whole) and its containers."""

    name: str
    scope: "Scope"
    containers: tuple[str, ...]
    said: tuple[str, ...] = ()
    """Other ways to name it."""


def spots_of(plan: "Plan") -> tuple[Spot, ...]:
    """Every place of a plan: containers as their labels name them, rows, zones, and the whole last."""
    rows = {row.name: container_names(row.name, row.count) for row in plan.containers}
    only = plan.zone[0].name if plan.zone else "zone 1"
    zone_of = {row.name: row.zone or only for row in plan.containers}
    zones = {zone: tuple(c for row, names in rows.items() if zone_of[row] == zone for c in names) for zone in (
        [zone.name for zone in plan.zone] or [only]
    )}  # fmt: skip
    return (
        *(Spot(name, "container", (name,)) for names in rows.values() for name in names),
        *(Spot(row, "row", names) for row, names in rows.items() if names != (row,)),
        *(Spot(zone_words(zone), "zone", names, (zone,)) for zone, names in zones.items()),
        Spot("", "whole", tuple(name for names in rows.values() for name in names), ("all",)),
    )


def spot_named(spots: Sequence[Spot], given: str, kind: "Kind") -> Spot:
    """The place that was named and where entries of this kind belong; a row goes before a zone of the same name.

    Raises:
        EntryRefused: no place is called so, or such entries belong elsewhere; says what there is.
    """
    wanted = " ".join(given.split()).casefold()
    named = [spot for spot in spots if wanted in (name.casefold() for name in (spot.name, *spot.said))]
    if not named:
        raise EntryRefused(_unknown(spots, given))
    fitting = next((spot for spot in named if spot.scope in kind.at), None)
    if fitting is None:
        raise EntryRefused(_elsewhere(spots, named[0], kind))
    return fitting


def _unknown(spots: Sequence[Spot], given: str) -> str:
    names = {name.casefold(): name for spot in spots for name in (spot.name, *spot.said) if name}
    near = [names[word] for word in nearest(" ".join(given.split()).casefold(), tuple(names))]
    others = [spot.name for spot in spots if spot.scope in ("row", "zone")] or [spots[0].name]
    known = " or ".join(f'"{name}"' for name in near)
    hint = f"Did you mean {known}?" if near else f'There are {_some(others)}, their containers, and "all".'
    return f'no place of the plan is called "{given[:60]}". {hint}'


def _elsewhere(spots: Sequence[Spot], spot: Spot, kind: "Kind") -> str:
    here = spot.containers if "container" in kind.at else [one.name or "all" for one in spots if one.scope in kind.at]
    belongs = " or ".join("the whole place" if scope == "whole" else f"a {scope}" for scope in kind.at)
    said = f'{kind.name} was given for "{spot.name or "all"}"; it belongs to {belongs}'
    return f"{said}, for example {_some(here)}"


def _some(names: Sequence[str]) -> str:
    return ", ".join(f'"{name}"' for name in names[:4]) + (" …" if len(names) > 4 else "")
