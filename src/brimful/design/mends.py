"""Stage: what chance does to each zone, what would mend one that fails, emitters that let one run time serve all."""

from dataclasses import replace

from brimful.catalog import Catalog
from brimful.design.choose.candidates import local
from brimful.design.choose.judge import EVEN_PERCENT, Need
from brimful.design.ledger import Ledger
from brimful.design.model import MatchWorked, MendWorked, SpreadWorked, ZoneWorked
from brimful.design.settle import RowSpec, ZoneSpec
from brimful.design.settle.delivery import law_of
from brimful.domains.hydraulics.assembly import Tube
from brimful.domains.hydraulics.match import matched_emitters
from brimful.domains.hydraulics.mend import Remedy, remedies
from brimful.domains.hydraulics.report import ZoneReport
from brimful.domains.hydraulics.spread import Spread, flow_spread
from brimful.domains.hydraulics.zone import Zone
from brimful.domains.hydraulics.zone_solve import ReducedZone

PLUGGED_SHARE = 0.01
"""Emitters that do not run on any one day, with a filter kept clean (common practice, no source)."""
DRAWS = 200_000  # numbers drawn for a zone: many trials for a few containers, fewer for many
HARMLESS = ("feeder-in-transition", "regulator-flow-too-low", "above-greatest-pressure")
COMPENSATING = "quarter-6in-0.5gph-pc"


def spread_of(spec: ZoneSpec, zone: ZoneWorked, rows: dict[str, RowSpec], ledger: Ledger) -> SpreadWorked:
    """The chance that a container of a zone is starved."""
    counts = [rows[c.row].delivery.assembly.emitters for c in zone.containers]
    spread: Spread = ledger.at("zones", spec.name).work(
        "chance_any_share",
        flow_spread,
        flow_l_h=tuple(c.flow_l_h for c in zone.containers),
        emitters=tuple(counts),
        cv=max(row.delivery.variation for row in rows.values() if row.name in spec.rows),
        plugged=PLUGGED_SHARE,
        seed=0,
        trials=max(1000, DRAWS // len(counts)),
    )
    likeliest = max(range(len(counts)), key=lambda i: spread.chance[i])
    name = zone.containers[likeliest].container
    return SpreadWorked(spread.chance_any, name, spread.chance[likeliest], spread.driver, spread.trials)


def mends_of(
    spec: ZoneSpec, zone: ZoneWorked, share: float, catalog: Catalog, units: str
) -> tuple[MendWorked, ...] | None:
    """Every single change that makes a zone pass all limits at once; None where it passes already."""
    if _passes(zone.emission_uniformity_percent, zone.supply_share, [w.code for w in zone.warnings], share):
        return None
    tubes = [t for t in catalog.tubing.values() if "feeder" not in t.kinds and local(t.name, units)]

    def passes(report: ZoneReport) -> bool:
        even = report.uniformity.eu_percent if report.uniformity else 0.0
        return _passes(even, report.share_of_supply, [p.code for p in report.warnings], share)

    found: tuple[Remedy, ...] = remedies(
        spec.zone,
        spec.inlet,
        passes=passes,
        tubes=[Tube(t.inner_diameter_m, t.roughness_m, t.name) for t in tubes],
        compensating=law_of(catalog.driplines[COMPENSATING]),
    )
    return tuple(_mend(remedy) for remedy in found)


def _passes(even_percent: float, supply_share: float | None, codes: list[str], limit: float) -> bool:
    carried = supply_share is None or supply_share <= limit
    return carried and even_percent >= EVEN_PERCENT and all(code in HARMLESS for code in codes)


def _mend(remedy: Remedy) -> MendWorked:
    report = remedy.report
    even = report.uniformity.eu_percent if report.uniformity else 0.0
    return MendWorked(remedy.words, even, report.total_l_h, report.budget.left_m)


def matches_of(
    spec: ZoneSpec, zone: ZoneWorked, rows: dict[str, RowSpec], needs: dict[str, Need]
) -> tuple[MatchWorked, ...]:
    """Emitters by row that let one run time serve the zone, tried by solving the zone with them."""
    names = [name for name in spec.rows if needs[name].gross_l_day > 0]
    weakest = _weakest(zone, names)
    if len(names) < 2 or min(weakest.values()) <= 0:
        return ()
    now = {name: rows[name].delivery.assembly.emitters for name in names}
    wanted = [needs[name].gross_l_day for name in names]
    match = matched_emitters(wanted, [weakest[name] / now[name] for name in names], near=sum(now.values()))
    counts = dict(zip(names, match.counts, strict=True))
    changed = _with_counts(spec.zone, counts)
    answer = ReducedZone(changed).solve(zone.network.source.head_m)
    then: dict[str, float] = {}
    row_of = {c.container: c.row for c in zone.containers}
    for branch, flow in zip(ReducedZone(changed).rows, answer.inflow_l_h, strict=True):
        if branch.station is not None:
            row = row_of[branch.station.container]
            then[row] = min(flow, then.get(row, flow))
    before, after = _surplus(weakest, needs, names), _surplus(then, needs, names)
    return tuple(MatchWorked(name, now[name], counts[name], before[name], after[name]) for name in names)


def _weakest(zone: ZoneWorked, names: list[str]) -> dict[str, float]:
    return {name: min((c.flow_l_h for c in zone.containers if c.row == name), default=0.0) for name in names}


def _surplus(flows: dict[str, float], needs: dict[str, Need], names: list[str]) -> dict[str, float]:
    """What each row gets beyond its wish when the zone runs until the last has enough."""
    hours = {name: needs[name].gross_l_day / flows[name] for name in names}
    longest = max(hours.values())
    return {name: longest / hours[name] - 1.0 for name in names}


def _with_counts(zone: Zone, counts: dict[str, int]) -> Zone:
    """The zone with so many emitters in each container of a row."""
    laterals = []
    for lateral in zone.laterals:
        fresh = []
        for station in lateral.stations:
            body = replace(station.assembly.body, count=counts.get(lateral.name, station.assembly.body.count))
            fresh.append(replace(station, assembly=replace(station.assembly, body=body)))
        laterals.append(replace(lateral, stations=tuple(fresh)))
    return replace(zone, laterals=tuple(laterals))


def refined(
    spec: ZoneSpec,
    zone: ZoneWorked,
    rows: tuple[RowSpec, ...],
    needs: tuple[tuple[str, Need], ...],
    market: tuple[Catalog, str, float],
    ledger: Ledger,
) -> ZoneWorked:
    """A zone with chance, remedies and matching emitters added.

    Args:
        rows: the rows of the zone.
        needs: what one container of each of them must get.
        market: the catalogue, the plan's units, and the share of the supply that one zone may use.
    """
    catalog, units, share = market
    own = {row.name: row for row in rows}
    mends = mends_of(spec, zone, share, catalog, units)
    return replace(
        zone,
        spread=spread_of(spec, zone, own, ledger),
        mends=mends or (),
        mends_tried=mends is not None,
        matches=matches_of(spec, zone, own, dict(needs)),
    )
