"""What would mend a zone, and by how much: each remedy is tried on the zone, and only what works is offered."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from brimful.domains.hydraulics.assembly import Assembly, Dripline, SingleEmitters, Tube
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.inlet import Inlet
from brimful.domains.hydraulics.report import ZoneReport, work_out_zone
from brimful.domains.hydraulics.zone import Lateral, Zone
from brimful.records import record

MOST_ZONES = 6


@record
class Remedy:
    """A change that mends the zone, as little of it as will do, and what the zone is like with it."""

    kind: str  # "main", "lateral", "emitters", "compensating" or "split"
    words: str
    report: ZoneReport  # of the mended zone; of a split, of its thirstiest part


def remedies(
    zone: Zone,
    inlet: Inlet,
    *,
    passes: Callable[[ZoneReport], bool],
    tubes: Sequence[Tube] = (),
    compensating: EmitterLaw | None = None,
) -> tuple[Remedy, ...]:
    """Every single change that makes a zone pass, each the least that will do: larger main or lateral, fewer emitters,
    …

    Args:
        zone, inlet: as it is; passes: what a good report is
        tubes: tube that can be had for main and laterals; compensating: law of emitters that compensate, if any can be
        had
    Returns: remedies that were tried and work; none where the zone passes already
    Valid: one change at a time
    Source: each remedy computed by solving the changed zone
    """
    if passes(work_out_zone(zone, inlet)):
        return ()
    found = []
    for kind, options in (
        ("main", _mains(zone, tubes)),
        ("lateral", _laterals(zone, tubes)),
        ("compensating", _compensating(zone, compensating)),
        ("split", _splits(zone)),
    ):
        found.extend(_first_that_passes(kind, options, inlet, passes))
    return (*found, *_most_emitters(zone, inlet, passes))


Option = tuple[str, tuple[Zone, ...]]
Body = Dripline | SingleEmitters


def _first_that_passes(
    kind: str, options: Iterator[Option], inlet: Inlet, passes: Callable[[ZoneReport], bool]
) -> list[Remedy]:
    """The mildest option all of whose zones pass."""
    for words, zones in options:
        reports = [work_out_zone(part, inlet) for part in zones]
        if all(passes(report) for report in reports):
            return [Remedy(kind, words, max(reports, key=lambda report: report.total_l_h))]
    return []


def _wider(tubes: Sequence[Tube], than: Tube) -> list[Tube]:
    wide = [tube for tube in tubes if tube.inner_diameter_m > than.inner_diameter_m]
    return sorted(wide, key=lambda tube: tube.inner_diameter_m)


def _mains(zone: Zone, tubes: Sequence[Tube]) -> Iterator[Option]:
    for tube in _wider(tubes, zone.main.tube):
        words = f"a main of {tube.name or 'tube'}, {1e3 * tube.inner_diameter_m:.1f} mm inside"
        yield words, (replace(zone, main=replace(zone.main, tube=tube)),)


def _laterals(zone: Zone, tubes: Sequence[Tube]) -> Iterator[Option]:
    thinnest = min((lateral.tube for lateral in zone.laterals), key=lambda tube: tube.inner_diameter_m)
    for tube in _wider(tubes, thinnest):
        changed = tuple(replace(k, tube=max(k.tube, tube, key=lambda t: t.inner_diameter_m)) for k in zone.laterals)
        words = f"laterals of {tube.name or 'tube'}, {1e3 * tube.inner_diameter_m:.1f} mm inside"
        yield words, (replace(zone, laterals=changed),)


def _most_emitters(zone: Zone, inlet: Inlet, passes: Callable[[ZoneReport], bool]) -> list[Remedy]:
    """The most emitters a container with which the zone passes, by halving: fewer draw less and are never worse off."""
    most = max(s.assembly.body.count for lateral in zone.laterals for s in lateral.stations)
    low, high, best = 1, most - 1, None
    while low <= high:
        count = (low + high) // 2
        report = work_out_zone(_with_at_most(zone, count), inlet)
        if passes(report):
            words = f"{count} emitter{'s' if count > 1 else ''} in each container where there are {most} now"
            low, best = count + 1, Remedy("emitters", words, report)
        else:
            high = count - 1
    return [] if best is None else [best]


def _with_at_most(zone: Zone, count: int) -> Zone:
    return _with_bodies(zone, lambda a: replace(a.body, count=min(a.body.count, count)))


def _compensating(zone: Zone, law: EmitterLaw | None) -> Iterator[Option]:
    if law is not None:
        yield "compensating emitters", (_with_bodies(zone, lambda a: replace(a.body, law=law)),)


def _with_bodies(zone: Zone, change: Callable[[Assembly], Body]) -> Zone:
    """The zone with the dripline or emitters of every container changed."""

    def lateral(old: Lateral) -> Lateral:
        fresh = tuple(replace(s, assembly=replace(s.assembly, body=change(s.assembly))) for s in old.stations)
        return replace(old, stations=fresh)

    return replace(zone, laterals=tuple(lateral(old) for old in zone.laterals))


def _splits(zone: Zone) -> Iterator[Option]:
    for parts in range(2, min(MOST_ZONES, len(zone.containers)) + 1):
        yield f"{parts} zones, run one after the other", split_zone(zone, parts)


def split_zone(zone: Zone, parts: int) -> tuple[Zone, ...]:
    """A zone cut into so many, each with as nearly equal a number of neighbouring containers as can be.

    Args:
        zone: the zone; parts: how many zones to make of it
    Returns: zones named "name 1", "name 2", …; each keeps its own main, as a gardener would lay one to each
    """
    names = zone.containers
    if not 1 <= parts <= len(names):
        raise ValueError(f"{parts} zones were asked of {len(names)} containers; expected 1 to {len(names)}")
    cuts = [round(i * len(names) / parts) for i in range(parts + 1)]
    groups = [set(names[a:b]) for a, b in pairwise(cuts)]
    return tuple(_part(zone, f"{zone.name} {i + 1}", group) for i, group in enumerate(groups))


def _part(zone: Zone, name: str, kept: set[str]) -> Zone:
    """The zone with only some of its containers."""
    rows = (replace(k, stations=tuple(s for s in k.stations if s.container in kept)) for k in zone.laterals)
    return replace(zone, name=name, laterals=tuple(row for row in rows if row.stations))
