"""What a gardener asks of a zone: who gets how much, who gets least, where the pressure went, and what to mind."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from brimful.domains.hydraulics.assembly import Assembly, emitter_flows, emitter_heads
from brimful.domains.hydraulics.budget import PressureBudget, pressure_budget
from brimful.domains.hydraulics.cautions import cautions
from brimful.domains.hydraulics.friction import FRICTION_LAWS, regime, reynolds
from brimful.domains.hydraulics.inlet import Inlet, InletState, rest_at
from brimful.domains.hydraulics.network import Problem
from brimful.domains.hydraulics.pipe import Water, velocity_m_s
from brimful.domains.hydraulics.trunk import TrunkAnswer
from brimful.domains.hydraulics.uniformity import (
    christiansen_uniformity,
    emission_uniformity,
    low_quarter_uniformity,
)
from brimful.domains.hydraulics.zone import Branch, Zone
from brimful.domains.hydraulics.zone_solve import ReducedZone
from brimful.records import record

FASTEST_M_S = 1.5  # 5 ft/s: common practice, no source
EMITTER_CV = 0.05  # a good emitter (ASABE EP405.1 class limit, from memory)


@record
class TubeWater:
    """What runs through one length of tube."""

    id: str
    part: str  # "main", "lateral" or "feeder"
    length_m: float
    inner_diameter_m: float
    flow_l_h: float
    velocity_m_s: float
    reynolds: float
    regime: str
    head_loss_m: float


@record
class ContainerWater:
    """What one container gets."""

    container: str
    node: str  # of the lateral, where its feeder leaves
    emitters: int
    flow_l_h: float
    lateral_m: float  # pressure head at the node
    last_m: float  # pressure head at its last emitter
    least_l_h: float  # flow of its weakest emitter
    most_l_h: float  # and of its strongest
    feeder: TubeWater | None


@record
class Uniformity:
    """How evenly the zone waters, in percent; over containers the flow counts by emitter."""

    eu_percent: float
    cu_percent: float
    du_lq_percent: float


@record
class ZoneReport:
    """All figures of one zone at rest on its supply."""

    zone: str
    containers: tuple[ContainerWater, ...]
    tubes: tuple[TubeWater, ...]
    worst: str  # the container with the least pressure at its last emitter
    total_l_h: float
    source_head_m: float  # above datum, where the main begins
    inlet: InletState
    budget: PressureBudget
    uniformity: Uniformity | None  # none where nothing flows
    capacity_l_h: float | None  # of the tap at the pressure the zone needs; none where no test says
    share_of_supply: float | None
    warnings: tuple[Problem, ...]


def work_out_zone(zone: Zone, inlet: Inlet, *, cv: float = EMITTER_CV) -> ZoneReport:
    """Every figure of a zone on its supply: flow of each container in L/h, the worst one by name, where each metre
    went.

    Formula: supply and zone at rest, Q = zone(h(Q)); then heads and flows the short way, every container marched
    exactly.

    Args:
        zone: main, laterals, containers; inlet: supply, devices, regulator; cv: making of the emitters, a fraction [-]
    Returns: containers, tubes, pressure budget, uniformity, share of supply and warnings
    Valid: as `solve_zone`
    Source: model of the drip zone in this package; EU after Keller & Karmeli (1974)
    """
    if not zone.containers:
        raise ValueError(f"zone {zone.name} has no container; expected at least one")
    reduced = ReducedZone(zone)
    state = rest_at(inlet, lambda h: reduced.response.at(h)[0], zone.source_elevation_m)
    answer = reduced.solve(zone.source_elevation_m + state.outlet_m)
    return _report(reduced, inlet, state, answer, cv)


def _report(reduced: ReducedZone, inlet: Inlet, state: InletState, answer: TrunkAnswer, cv: float) -> ZoneReport:
    zone, total = reduced.zone, answer.flow_l_h[0]
    containers = tuple(_containers(reduced, answer))
    tubes = tuple(_tubes(reduced, answer))
    worst = min(containers, key=lambda c: (c.last_m, c.flow_l_h))
    capacity = _capacity(inlet, state)
    return ZoneReport(
        zone.name,
        containers,
        tubes,
        worst.container,
        total,
        zone.source_elevation_m + state.outlet_m,
        state,
        pressure_budget(reduced, answer, inlet=inlet, state=state, node=worst.node, last_m=worst.last_m),
        _uniformity(containers, cv) if total > 0 else None,
        capacity,
        None if capacity is None else total / capacity if capacity > 0 else math.inf,
        tuple(cautions(reduced, containers, tubes, state=state, fastest_m_s=FASTEST_M_S)),
    )


def _containers(reduced: ReducedZone, answer: TrunkAnswer) -> Iterator[ContainerWater]:
    for row, head, flow in zip(reduced.rows, answer.heads_m, answer.inflow_l_h, strict=True):
        if row.station is not None:
            yield _container(reduced, row, head - row.elevation_m, max(flow, 0.0))


def _container(reduced: ReducedZone, row: Branch, pressure_m: float, flow_l_h: float) -> ContainerWater:
    """One container, marched exactly from the pressure at its feeder."""
    assert row.station is not None
    assembly = row.station.assembly
    if pressure_m <= assembly.rise_m:
        last, flows = pressure_m - assembly.rise_m, [0.0]
    else:
        point = reduced.curves[assembly].point(pressure_m)
        last, flows = emitter_heads(assembly, point)[0], [q for q, _ in emitter_flows(assembly, point)]
    return ContainerWater(
        row.station.container,
        row.node,
        assembly.emitters,
        flow_l_h,
        pressure_m,
        last,
        min(flows),
        max(flows),
        _feeder(reduced, row, assembly, flow_l_h),
    )


def _feeder(reduced: ReducedZone, row: Branch, assembly: Assembly, flow_l_h: float) -> TubeWater | None:
    if assembly.feeder is None:
        return None
    feeder, water = assembly.feeder, reduced.zone.water
    lost = feeder.pipe(water).loss(flow_l_h)[0]
    size = feeder.length_m, feeder.tube.inner_diameter_m
    return _tube(f"{row.node}/feeder", "feeder", size, flow_l_h=flow_l_h, lost_m=lost, water=water)


def _tubes(reduced: ReducedZone, answer: TrunkAnswer) -> Iterator[TubeWater]:
    """Main and laterals, each length by the node at its end."""
    rows, water = reduced.rows, reduced.zone.water
    for i, row in enumerate(rows[1:], 1):
        part = "main" if row.station is None else "lateral"
        lost = answer.heads_m[row.parent] - answer.heads_m[i]
        size = row.length_m, row.tube.inner_diameter_m
        yield _tube(row.node, part, size, flow_l_h=answer.flow_l_h[i], lost_m=lost, water=water)


def _tube(
    name: str, part: str, size_m: tuple[float, float], *, flow_l_h: float, lost_m: float, water: Water
) -> TubeWater:
    length, bore = size_m
    re = reynolds(flow_l_h, bore, water.viscosity_m2_s)
    kind = regime(re) if re > 0 else "at rest"
    return TubeWater(name, part, length, bore, flow_l_h, velocity_m_s(flow_l_h, bore), re, kind, lost_m)


def _uniformity(containers: Sequence[ContainerWater], cv: float) -> Uniformity:
    each = [c.flow_l_h / c.emitters for c in containers]
    mean = math.fsum(c.flow_l_h for c in containers) / sum(c.emitters for c in containers)
    least, sharing = min(c.least_l_h for c in containers), min(c.emitters for c in containers)
    return Uniformity(
        emission_uniformity(least, mean, cv=cv, per_plant=sharing),
        christiansen_uniformity(each),
        low_quarter_uniformity(each),
    )


def _capacity(inlet: Inlet, state: InletState) -> float | None:
    """What the tap gives at the pressure the zone needs there; without a regulator, the greatest flow tested."""
    if inlet.supply.tested_l_h == 0:
        return None
    if inlet.regulator is None:
        return inlet.supply.tested_l_h
    before = math.fsum(lost for part, lost in state.parts if part not in ("supply pipe", "regulator"))
    return inlet.supply.capacity_l_h(inlet.regulator.setting_m + inlet.regulator.margin_m + before)


def transition_spread(zone: Zone, source_head_m: float) -> dict[str, tuple[float, float]]:
    """What each container may get in L/h, least and most, if friction between Re 2000 and 4000 is as uncertain as
    measured.

    Formula: the zone solved with laminar friction up to Re 4000, and with turbulent friction from Re 2000 on.

    Args:
        zone: the zone; source_head_m: head above datum where the main begins [m]
    Returns: by container (least, most) [L/h]
    Valid: as `solve_zone`
    Source: scatter of smooth-pipe friction in McKeon et al. (2004) data (read)
    """
    found: dict[str, list[float]] = {name: [] for name in zone.containers}
    for name in ("early", "standard", "late"):
        water = replace(zone.water, law=FRICTION_LAWS[name])
        reduced = ReducedZone(replace(zone, water=water))
        answer = reduced.solve(source_head_m)
        for row, flow in zip(reduced.rows, answer.inflow_l_h, strict=True):
            if row.station is not None:
                found[row.station.container].append(flow)
    return {name: (min(flows), max(flows)) for name, flows in found.items()}
