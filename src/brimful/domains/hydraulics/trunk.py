"""The reduced zone: a tree of mains and laterals with a curve of inflow at each container, solved by Newton in sweeps.

Each sweep up the tree turns every branch into a straight line of flow against head; each sweep down reads the heads
off it. Plain Python for small zones; trunk_arrays.py does the same in numpy for large ones.
"""

from collections.abc import Sequence

from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.pipe import Pipe
from brimful.records import record

HEAD_TOLERANCE_M = 1e-10
MOST_SWEEPS = 40


@record
class Trunk:
    """A tree in which each node stands after its parent; node 0 is the source. One entry a node in every tuple."""

    parents: tuple[int, ...]
    pipes: tuple[Pipe, ...]  # from the parent; that of node 0 is not used
    elevations_m: tuple[float, ...]
    curves: tuple[EmitterLaw | None, ...]  # what flows out there


@record
class TrunkAnswer:
    """Heads and flows of a reduced zone."""

    heads_m: Sequence[float]  # above datum
    inflow_l_h: Sequence[float]  # into the container at each node
    flow_l_h: Sequence[float]  # through the pipe from the parent; at node 0 the whole flow
    slope: float  # of the whole flow against the source head [L/h per m]
    settled: bool


def solve_trunk(trunk: Trunk, source_head_m: float) -> TrunkAnswer:
    """Heads in m and flows in L/h of a reduced zone, by Newton on its tree.

    Args:
        trunk: the tree; source_head_m: head above datum at node 0 [m]
    Returns: heads, inflows, flows; `settled` is false where the plain method did not come to rest (use `solve` then)
    """
    n = len(trunk.parents)
    heads = [source_head_m] * n
    for _ in range(MOST_SWEEPS):
        flows, slopes = _outflow(trunk, heads)
        rest, gain = _sweep_up(trunk, heads, flows, slopes)
        moved = _sweep_down(trunk, heads, rest, gain)
        if moved <= HEAD_TOLERANCE_M:
            return _answer(trunk, heads, slopes[0])
    return _answer(trunk, heads, slopes[0], settled=False)


def _outflow(trunk: Trunk, heads: list[float]) -> tuple[list[float], list[float]]:
    """Inflow of each container and its slope, at the heads."""
    flows, slopes = [0.0] * len(heads), [0.0] * len(heads)
    for i, curve in enumerate(trunk.curves):
        if curve is not None:
            flows[i], slopes[i] = curve.at(heads[i] - trunk.elevations_m[i])
    return flows, slopes


def _sweep_up(
    trunk: Trunk, heads: list[float], flows: list[float], slopes: list[float]
) -> tuple[list[float], list[float]]:
    """From the ends to the source, in place: each branch as flow + slope × change of head; what each link misses."""
    rest, gain = [0.0] * len(heads), [1.0] * len(heads)
    parents, pipes = trunk.parents, trunk.pipes
    for i in range(len(heads) - 1, 0, -1):
        parent, flow = parents[i], flows[i]
        lost, rate = pipes[i].loss(flow)
        rest[i] = missing = heads[parent] - heads[i] - lost
        gain[i] = share = 1.0 / (1.0 + rate * slopes[i])
        slope = slopes[i] * share
        flows[parent] += flow + slope * missing
        slopes[parent] += slope
    return rest, gain


def _sweep_down(trunk: Trunk, heads: list[float], rest: list[float], gain: list[float]) -> float:
    """From the source to the ends: the heads of the straightened tree, in place; the greatest change."""
    change = [0.0] * len(heads)
    for i in range(1, len(heads)):
        change[i] = (change[trunk.parents[i]] + rest[i]) * gain[i]
        heads[i] += change[i]
    return max(abs(max(change)), abs(min(change)))


def _answer(trunk: Trunk, heads: list[float], slope: float, *, settled: bool = True) -> TrunkAnswer:
    """Flows summed up from the inflows, so that they balance to the last digit."""
    inflow, _ = _outflow(trunk, heads)
    flow = list(inflow)
    for i in range(len(heads) - 1, 0, -1):
        flow[trunk.parents[i]] += flow[i]
    return TrunkAnswer(heads, inflow, flow, slope, settled)
