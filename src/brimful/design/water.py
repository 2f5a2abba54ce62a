"""Stage: each zone solved on its supply: who gets how much, where the pressure went, and the whole network."""

from brimful.design.ledger import Ledger
from brimful.design.model import (
    ContainerWater,
    HeadStep,
    NetworkEmitter,
    NetworkLink,
    NetworkNode,
    NetworkSource,
    NetworkWorked,
    ZoneWarning,
    ZoneWorked,
)
from brimful.design.settle import ZoneSpec
from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, PowerEmitter
from brimful.domains.hydraulics.network import Outlet
from brimful.domains.hydraulics.report import ZoneReport, transition_spread, work_out_zone
from brimful.domains.hydraulics.solve import Solution, solve
from brimful.domains.hydraulics.zone_network import network_of


def water_of(zones: tuple[ZoneSpec, ...], ledger: Ledger) -> tuple[ZoneWorked, ...]:
    """Every zone solved; run times follow in their own stage."""
    return tuple(_zone(spec, _report(spec, ledger.at("zones", spec.name))) for spec in zones)


def _report(spec: ZoneSpec, ledger: Ledger) -> ZoneReport:
    return ledger.work("flow_l_h", work_out_zone, zone=spec.zone, inlet=spec.inlet)


def _zone(spec: ZoneSpec, report: ZoneReport) -> ZoneWorked:
    even = report.uniformity
    mean = report.total_l_h / sum(c.emitters for c in report.containers)
    fastest = max(report.tubes, key=lambda tube: tube.velocity_m_s)
    budget, left = [], report.budget.static_m
    for where, lost in report.budget.parts:
        left -= lost
        budget.append(HeadStep(where, lost, left))
    row_of = {station.container: lateral.name for lateral in spec.zone.laterals for station in lateral.stations}
    unsure = _unsure(spec, report)
    containers = tuple(
        ContainerWater(
            c.container,
            row_of[c.container],
            c.flow_l_h,
            c.last_m,
            _share(c.flow_l_h / c.emitters, mean),
            *unsure.get(c.container, ()),
        )
        for c in report.containers
    )
    return ZoneWorked(
        name=spec.name,
        containers_count=len(containers),
        emitters_count=spec.zone.emitters,
        flow_l_h=report.total_l_h,
        supply_l_h=report.capacity_l_h,
        supply_share=report.share_of_supply,
        supply_share_limit=None,
        static_head_m=report.budget.static_m,
        head_after_regulator_m=report.inlet.outlet_m,
        regulator=f"{spec.regulator}: {report.inlet.regulator}",
        emission_uniformity_percent=even.eu_percent if even else 0.0,
        distribution_uniformity_percent=even.du_lq_percent if even else 0.0,
        christiansen_uniformity_percent=even.cu_percent if even else 0.0,
        most_velocity_m_s=fastest.velocity_m_s,
        most_velocity_where=fastest.id,
        least_head_m=report.budget.left_m,
        worst_container=report.worst,
        pressure_budget=tuple(budget),
        containers=containers,
        run_times=(),
        warnings=tuple(ZoneWarning(p.code, p.where, p.message) for p in report.warnings),
        network=_network(spec, report),
    )


def _unsure(spec: ZoneSpec, report: ZoneReport) -> dict[str, tuple[float, float]]:
    """What containers may get where a feeder runs between laminar and turbulent flow; empty where none does."""
    if not any(problem.code == "feeder-in-transition" for problem in report.warnings):
        return {}
    return transition_spread(spec.zone, report.source_head_m)


def _share(value: float, mean: float) -> float:
    return value / mean if mean > 0 else 0.0


def _network(spec: ZoneSpec, report: ZoneReport) -> NetworkWorked:
    """The full network, solved whole: the check on the short way, and what another engine can solve again."""
    network = network_of(spec.zone, report.source_head_m)
    solution: Solution = solve(network)
    nodes = tuple(NetworkNode(n.id, n.elevation_m, solution.head_m[n.id]) for n in network.nodes)
    links = tuple(
        NetworkLink(
            k.id, k.start, k.end, k.length_m, k.inner_diameter_m, k.roughness_m, k.loss_k, solution.flow_l_h[k.id]
        )
        for k in network.links
    )
    flows = zip(network.outlets, solution.outlet_flow_l_h, strict=True)
    emitters = tuple(_emitter(outlet, flow) for outlet, flow in flows)
    source = NetworkSource(network.source.node, network.source.head_m)
    return NetworkWorked(nodes, links, emitters, source, network.viscosity_m2_s)


def _emitter(outlet: Outlet, flow_l_h: float) -> NetworkEmitter:
    coefficient, exponent, start = _power(outlet.law)
    compensating = isinstance(outlet.law, CompensatingEmitter)
    count = round(outlet.count)
    return NetworkEmitter(outlet.node, outlet.container, coefficient, exponent, compensating, start, count, flow_l_h)


def _power(law: EmitterLaw) -> tuple[float, float, float | None]:
    """Coefficient and exponent; a microtube is given by the power law that touches it at 10 m."""
    if isinstance(law, CompensatingEmitter):
        return law.coefficient_l_h, law.exponent, law.start_m
    if isinstance(law, PowerEmitter):
        return law.coefficient_l_h, law.exponent, None
    flow, slope = law.at(10.0)
    exponent = 10.0 * slope / flow
    return flow / 10.0**exponent, exponent, None
