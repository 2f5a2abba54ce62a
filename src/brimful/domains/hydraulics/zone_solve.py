"""Solve a zone the short way: one curve a kind of container, the main and laterals alone, then every emitter."""

from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from brimful.domains.hydraulics.assembly import Assembly
from brimful.domains.hydraulics.curve import Point, ResponseCurve
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.pipe import Pipe, Water
from brimful.domains.hydraulics.trunk import Trunk, TrunkAnswer, solve_trunk
from brimful.domains.hydraulics.zone import Branch, Zone, branches, curve_of, feeds_of
from brimful.domains.hydraulics.zone_network import network_of
from brimful.records import record

if TYPE_CHECKING:
    from brimful.domains.hydraulics.arrays import Array
    from brimful.domains.hydraulics.trunk_arrays import TrunkArrays

SMALL = 80  # nodes up to which plain Python is quicker than numpy


class ReducedZone:
    """A zone made ready: solve it at as many source heads as wanted."""

    def __init__(self, zone: Zone) -> None:
        self.zone = zone
        self.rows: list[Branch] = branches(zone)
        self.feeds = feeds_of(self.rows)
        self.curves: dict[Assembly, ResponseCurve] = {kind: curve_of(kind, zone.water) for kind in self.feeds}

    def solve(self, source_head_m: float, *, sloped: bool = False) -> TrunkAnswer:
        """Heads and flows of mains, laterals and containers at a head above datum at the source [m]; `sloped` asks for
        the slope of the whole flow against that head as well."""
        if len(self.rows) <= SMALL:
            answer = solve_trunk(self._trunk, source_head_m)
        else:
            from brimful.domains.hydraulics.trunk_arrays import solve_trunk_arrays

            answer = solve_trunk_arrays(self._trunk_arrays, source_head_m, sloped=sloped)
        return answer if answer.settled else self._the_long_way(source_head_m)

    @cached_property
    def response(self) -> ResponseCurve:
        """The whole zone as one curve: inflow [L/h] against pressure head at the source [m]."""
        datum = self.zone.source_elevation_m
        threshold = min((self._starts(row) for row in self.rows if row.station is not None), default=datum) - datum

        def march(end: float) -> Point:
            answer = self.solve(end * end + threshold + datum, sloped=True)
            return Point(end, end * end, answer.flow_l_h[0], answer.slope)

        return ResponseCurve(march, threshold_m=threshold)

    def _starts(self, row: Branch) -> float:
        """Head above datum at which a container begins to get water."""
        assert row.station is not None
        return row.elevation_m + row.station.assembly.rise_m

    @cached_property
    def _trunk(self) -> Trunk:
        made: dict[tuple[float, float, object], Pipe] = {}
        curves: list[EmitterLaw | None] = [None] * len(self.rows)
        for kind, nodes in self.feeds.items():
            for i in nodes:
                curves[i] = self.curves[kind]
        return Trunk(
            tuple(row.parent for row in self.rows),
            tuple(_pipe(row, self.zone.water, made) for row in self.rows),
            tuple(row.elevation_m for row in self.rows),
            tuple(curves),
        )

    @cached_property
    def _trunk_arrays(self) -> "TrunkArrays":
        import numpy as np

        from brimful.domains.hydraulics.trunk_arrays import trunk_arrays

        feeds = [(self.curves[kind], np.array(nodes)) for kind, nodes in self.feeds.items()]
        return trunk_arrays(self.rows, self.zone.water, feeds)

    def _the_long_way(self, source_head_m: float) -> TrunkAnswer:
        """A zone so nearly dry that the short way does not settle: the whole network, with the curves as outlets."""
        from brimful.domains.hydraulics.solve import solve

        network = network_of(self.zone, source_head_m, curves=self.curves)
        found = solve(network, law=self.zone.water.law, gravity_m_s2=self.zone.water.gravity_m_s2)
        at = {outlet.node: flow for outlet, flow in zip(network.outlets, found.outlet_flow_l_h, strict=True)}
        heads = [found.head_m[row.node] for row in self.rows]
        flows = [found.total_l_h, *(found.flow_l_h[row.node] for row in self.rows[1:])]
        return TrunkAnswer(heads, [at.get(row.node, 0.0) for row in self.rows], flows, 0.0, True)


def _pipe(row: Branch, water: Water, made: dict[tuple[float, float, object], Pipe]) -> Pipe:
    """The pipe of a row; equal ones are made once."""
    key = (row.length_m, row.loss_k, row.tube)
    if key not in made:
        made[key] = row.tube.pipe(max(row.length_m, 1e-9), row.loss_k, water)
    return made[key]


@record
class ZoneFlows:
    """What a reduced zone gives at one source head."""

    rows: Sequence[Branch]
    trunk: TrunkAnswer
    total_l_h: float


def solve_zone(zone: Zone, source_head_m: float) -> ZoneFlows:
    """Flow into every container in L/h, and every head and flow of main and laterals, the short way.

    Formula: containers built alike share one curve q(h); Newton on the tree of main and laterals alone.

    Args:
        zone: the zone; source_head_m: head above datum where the main begins, downstream of the regulator [m]
    Returns: rows of the reduced zone with heads, inflows and flows
    Valid: as `solve`; equal to the full solution within 1e-6 of the flow
    Raises: ValueError for a zone with nothing in it
    Source: own derivation, checked against the full solution and against EPANET
    """
    if not zone.containers:
        raise ValueError(f"zone {zone.name} has no container; expected at least one")
    reduced = ReducedZone(zone)
    answer = reduced.solve(source_head_m)
    return ZoneFlows(reduced.rows, answer, answer.flow_l_h[0])


def emitter_heads_along(reduced: ReducedZone, answer: TrunkAnswer) -> "dict[Assembly, Array]":
    """Pressure heads at every emitter [m]: for each kind of assembly one row a container, the farthest emitter
    first."""
    import numpy as np

    pressure = np.array(answer.heads_m) - np.array([row.elevation_m for row in reduced.rows])
    return {kind: reduced.curves[kind].heads_along(pressure[nodes]) for kind, nodes in reduced.feeds.items()}
