"""The reduced zone of many containers, in numpy: sums over branches are differences of running sums, whatever the tree.

Nodes stand in the order of a walk through the tree, so a branch is a run of nodes. Newton's linear system is solved by
conjugate gradients, which settle in a few turns because a drip zone loses little head on its way.
"""

import math
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from brimful.domains.hydraulics.arrays import Array, PipeArrays
from brimful.domains.hydraulics.assembly import Tube
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.trunk import HEAD_TOLERANCE_M, MOST_SWEEPS, TrunkAnswer
from brimful.domains.hydraulics.water import L_H_PER_M3_S
from brimful.domains.hydraulics.zone import Branch
from brimful.records import record

Index = NDArray[np.intp]


@record
class TrunkArrays:
    """A tree in walking order: parents stand before their children, and each branch is one run of nodes."""

    last: Index  # one past the last node of the branch that starts at each node
    entered: Index  # when the walk enters each node, among all comings and goings
    left: Index
    pipes: PipeArrays
    elevations_m: Array
    curves: tuple[tuple[EmitterLaw, Index], ...]  # a curve, and the nodes it feeds
    roots: Index  # the sources: one, or one a tree where many zones are solved together

    def outflow(self, heads: Array) -> tuple[Array, Array]:
        """Inflow of each container [L/h] and its slope."""
        flow, slope = np.zeros_like(heads), np.zeros_like(heads)
        for curve, nodes in self.curves:
            flow[nodes], slope[nodes] = curve.along(heads[nodes] - self.elevations_m[nodes])
        return flow, slope

    def gather(self, flow: Array) -> Array:
        """Sum over the branch that starts at each node."""
        running = np.concatenate(([0.0], np.cumsum(flow)))
        summed: Array = running[self.last] - running[:-1]
        return summed

    def spread(self, loss: Array) -> Array:
        """Sum over the way from the source to each node."""
        events = np.zeros(2 * len(loss))
        events[self.entered], events[self.left] = loss, -loss
        summed: Array = np.cumsum(events)[self.entered]
        return summed

    def loss(self, flow_l_h: Array) -> tuple[Array, Array]:
        """Head lost on the way to each node from its parent [m], and its slope [m per L/h]."""
        lost, rate = self.pipes.loss(flow_l_h / L_H_PER_M3_S)
        lost[self.roots] = rate[self.roots] = 0.0
        return lost, rate / L_H_PER_M3_S


def solve_trunk_arrays(trunk: TrunkArrays, source_head_m: float | Array, *, sloped: bool = False) -> TrunkAnswer:
    """Heads in m and flows in L/h of a large reduced zone (see solve_trunk), or of many zones, each with its own
    head."""
    heads = np.zeros(len(trunk.last)) + source_head_m
    for _ in range(MOST_SWEEPS):
        inflow, slope = trunk.outflow(heads)
        flow = trunk.gather(inflow)
        lost, rate = trunk.loss(flow)
        rest = source_head_m - trunk.spread(lost) - heads
        if abs(rest).max() <= HEAD_TOLERANCE_M:
            whole = _slope(trunk, slope, rate) if sloped else math.nan
            return TrunkAnswer(heads.tolist(), inflow.tolist(), flow.tolist(), whole, True)
        heads = heads + _change(trunk, slope, rate, rest)
    return TrunkAnswer(heads.tolist(), inflow.tolist(), flow.tolist(), math.nan, False)


def _change(trunk: TrunkArrays, slope: Array, rate: Array, rest: Array) -> Array:
    """Newton's change of heads: (1 + T·G)·change = rest, T the friction of the way, G the slopes of the inflows."""
    root = np.sqrt(slope)

    def tree(x: Array) -> Array:
        return trunk.spread(rate * trunk.gather(root * x))

    solved = _conjugate(lambda x: x + root * tree(x), root * rest)
    return rest - tree(solved)


def _slope(trunk: TrunkArrays, slope: Array, rate: Array) -> float:
    """Change of the whole flow with the source head."""
    return float(slope @ _change(trunk, slope, rate, np.ones_like(slope)))


def _conjugate(apply: Callable[[Array], Array], right: Array) -> Array:
    """Conjugate gradients to one part in 1e6."""
    x = np.zeros_like(right)
    r = right.copy()
    p = r.copy()
    size = first = float(r @ r)
    for _ in range(200):
        if size <= 1e-12 * first:
            break
        ap = apply(p)
        step = size / float(p @ ap)
        x += step * p
        r -= step * ap
        size, before = float(r @ r), size
        p = r + (size / before) * p
    return x


def trunk_arrays(rows: Sequence[Branch], water: Water, feeds: Sequence[tuple[EmitterLaw, Index]]) -> TrunkArrays:
    """The rows of a zone, or of many one after the other, in walking order, as arrays; `feeds` says which curve feeds
    which rows."""
    _, parents, length, tubes, loss_k, elevation, _ = zip(*rows, strict=True)
    n = len(rows)
    last, depth = list(range(1, n + 1)), [-1] * (n + 1)  # a source's parent is -1: the entry past the end
    for i, parent in enumerate(parents):
        depth[i] = depth[parent] + 1
    for i in range(n - 1, -1, -1):
        parent = parents[i]
        if parent >= 0 and last[parent] < last[i]:
            last[parent] = last[i]
    depth.pop()
    ends, deep = np.array(last), np.array(depth)
    entered, left = 2 * np.arange(n) - deep, 2 * ends - 1 - deep
    pipes = _pipes(np.array(length), tubes, np.array(loss_k), water)
    roots = np.flatnonzero(np.array(parents) < 0)
    return TrunkArrays(ends, entered, left, pipes, np.array(elevation), tuple(feeds), roots)


def _pipes(length: Array, tubes: Sequence[Tube], loss_k: Array, water: Water) -> PipeArrays:
    """The pipes of the rows; a source has none, and gets a short stand-in."""
    return PipeArrays.of(
        np.maximum(length, 1e-9),
        np.array([tube.inner_diameter_m for tube in tubes]),
        np.array([tube.roughness_m for tube in tubes]),
        loss_k,
        viscosity_m2_s=water.viscosity_m2_s,
        gravity_m_s2=water.gravity_m_s2,
        law=water.law,
    )
