"""The equations of a network as arrays, and the steps of their solution."""

import numpy as np
from numpy.typing import NDArray

from brimful.domains.hydraulics.arrays import Array, PipeArrays
from brimful.domains.hydraulics.elimination import Elimination, plan_elimination
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.friction import FrictionLaw
from brimful.domains.hydraulics.network import Network
from brimful.domains.hydraulics.water import L_H_PER_M3_S
from brimful.records import record

Index = NDArray[np.intp]


@record
class State:
    """Heads of the unknown nodes [m] and the flows [m³/s] that follow from them, with their slopes."""

    head: Array
    flow: Array
    conductance: Array
    outlet: Array
    outlet_slope: Array
    imbalance: Array  # outflow minus inflow at each unknown node


@record
class System:
    """A network compiled to arrays; the source stands last among the nodes."""

    node_ids: tuple[str, ...]
    elevation: Array
    start_of: Index
    end_of: Index
    pipes: PipeArrays
    outlet_at: Index
    outlet_count: Array
    outlet_laws: tuple[tuple[EmitterLaw, Index], ...]
    source_head: float
    elimination: Elimination

    @classmethod
    def of(cls, network: Network, law: FrictionLaw, gravity_m_s2: float) -> "System":
        """Compile a valid network."""
        nodes = sorted(network.nodes, key=lambda node: node.id == network.source.node)
        at = {node.id: i for i, node in enumerate(nodes)}
        ends = [(at[link.start], at[link.end]) for link in network.links]
        groups: dict[EmitterLaw, list[int]] = {}
        for i, outlet in enumerate(network.outlets):
            groups.setdefault(outlet.law, []).append(i)
        pairs = np.array(ends, dtype=np.intp).reshape(-1, 2)
        return cls(
            tuple(at),
            np.array([node.elevation_m for node in nodes]),
            pairs[:, 0],
            pairs[:, 1],
            _pipes(network, law, gravity_m_s2),
            np.array([at[outlet.node] for outlet in network.outlets], dtype=np.intp),
            np.array([outlet.count for outlet in network.outlets]) / L_H_PER_M3_S,
            tuple((kind, np.array(which, dtype=np.intp)) for kind, which in groups.items()),
            network.source.head_m,
            plan_elimination(len(nodes) - 1, ends),
        )

    def start(self) -> State:
        """The state at rest: every head that of the source."""
        n = len(self.node_ids) - 1
        return self.state(np.full(n, self.source_head), np.zeros(len(self.start_of)))

    def state(self, head: Array, guess: Array) -> State:
        """Flows and imbalance that follow from the heads."""
        flow, conductance = self.pipes.flow(self.across(head), guess)
        outlet, slope = self.outlets(head)
        return State(head, flow, conductance, outlet, slope, self.imbalance(flow, outlet))

    def across(self, head: Array, source: float | None = None) -> Array:
        """Head across each link, from start to end."""
        whole = np.append(head, self.source_head if source is None else source)
        fallen: Array = whole[self.start_of] - whole[self.end_of]
        return fallen

    def outlets(self, head: Array) -> tuple[Array, Array]:
        """Flow of each outlet [m³/s] and its slope."""
        pressure = (np.append(head, self.source_head) - self.elevation)[self.outlet_at]
        flow, slope = np.zeros_like(pressure), np.zeros_like(pressure)
        for law, which in self.outlet_laws:
            flow[which], slope[which] = law.along(pressure[which])
        return flow * self.outlet_count, slope * self.outlet_count

    def imbalance(self, flow: Array, outlet: Array) -> Array:
        """Outflow minus inflow at each unknown node [m³/s]."""
        return (
            self._gather(self.start_of, flow) - self._gather(self.end_of, flow) + self._gather(self.outlet_at, outlet)
        )

    def _gather(self, at: Index, values: Array) -> Array:
        n = len(self.node_ids)
        return np.bincount(at, weights=values, minlength=n)[: n - 1].astype(np.float64, copy=False)

    def newton_step(self, state: State) -> Array:
        """The change of heads that would balance the flows if all were straight lines."""
        g = state.conductance
        diagonal = self._gather(self.start_of, g) + self._gather(self.end_of, g)
        diagonal += self._gather(self.outlet_at, state.outlet_slope)
        right = (-state.imbalance).tolist()
        return np.array(self.elimination.solve(diagonal.tolist(), g.tolist(), right))

    def search(self, state: State, change: Array) -> State:
        """Go along a change of heads to where the co-content stops falling, or nearly (bisection on its slope)."""
        falling = float(state.imbalance @ change)
        low, high, share = 0.0, 1.0, 1.0
        for _ in range(50):
            new = self.state(state.head + share * change, state.flow)
            slope = float(new.imbalance @ change)
            if slope <= -0.5 * falling and (slope >= 0.9 * falling or share == 1.0):
                break
            low, high = (share, high) if slope < 0 else (low, share)
            share = 0.5 * (low + high)
        return new

    def balanced(self, state: State, change: Array) -> State:
        """Add a last, tiny change to heads and flows along the straight lines, so that no digit of the balance is lost
        in the difference of two nearly equal heads."""
        flow = state.flow + state.conductance * self.across(change, 0.0)
        moved = np.append(change, 0.0)[self.outlet_at]
        outlet = state.outlet + state.outlet_slope * moved
        head = state.head + change
        return State(head, flow, state.conductance, outlet, state.outlet_slope, self.imbalance(flow, outlet))

    def residuals(self, state: State) -> tuple[float, float, float]:
        """Total flow [m³/s], greatest imbalance over it, greatest energy error of a link [m]."""
        total = float(state.outlet.sum())
        mass = float(abs(state.imbalance).max(initial=0.0)) / total if total > 0 else 0.0
        energy = abs(self.pipes.loss(state.flow)[0] - self.across(state.head)).max(initial=0.0)
        return total, mass, float(energy)


def _pipes(network: Network, law: FrictionLaw, gravity_m_s2: float) -> PipeArrays:
    """Measures of the links as arrays."""
    rows = [(k.length_m, k.inner_diameter_m, k.roughness_m, k.loss_k) for k in network.links]
    length, bore, roughness, loss = np.array(rows).reshape(-1, 4).T
    return PipeArrays.of(
        length, bore, roughness, loss, viscosity_m2_s=network.viscosity_m2_s, gravity_m_s2=gravity_m_s2, law=law
    )
