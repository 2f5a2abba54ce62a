"""Many variants of a zone in one call: all their trees stand side by side in one set of arrays."""

from collections.abc import Sequence

import numpy as np

from brimful.domains.hydraulics.arrays import Array
from brimful.domains.hydraulics.curve import FIRST_END, ResponseCurve
from brimful.domains.hydraulics.trunk_arrays import Index, TrunkArrays, solve_trunk_arrays, trunk_arrays
from brimful.domains.hydraulics.zone import Branch, Zone, branches, curve_of, feeds_of
from brimful.domains.hydraulics.zone_solve import ReducedZone
from brimful.records import record

FAR_APART_M = 1e6  # curves stand this far apart on the axis of heads when many are read at once


@record
class VariantFlows:
    """What each variant of a zone gives."""

    total_l_h: Array  # one a variant
    inflow_l_h: tuple[Array, ...]  # of each container, in the order of the laterals along the main; one array a variant
    pressure_m: tuple[Array, ...]  # pressure head where each container's feeder leaves the lateral


class CurveBank:
    """Many curves read at once: an outflow law for nodes that each have their own curve."""

    def __init__(self, curves: Sequence[ResponseCurve], which: Index) -> None:
        self._curves, self._which = curves, which
        self._thresholds = np.array([curve.threshold_m for curve in curves])[which]

    def along(self, head_m: Array) -> tuple[Array, Array]:
        """Flow [L/h] and slope at each node's head, by its own curve."""
        h = head_m - self._thresholds
        wet = h > 0
        h = np.maximum(h, FIRST_END**2)
        root, a, b, c, d = self._pieces(h)
        s = np.sqrt(h)
        t = s - root
        flow, slope = a + t * (b + t * (c + t * d)), (b + t * (2 * c + t * 3 * d)) / (2 * s)
        return np.where(wet, flow, 0.0), np.where(wet, slope, 0.0)

    def at(self, head_m: float) -> tuple[float, float]:
        """Not a thing one can ask of many curves."""
        raise TypeError(f"one head, {head_m} m, was given to many curves; expected an array")

    def _pieces(self, h: Array) -> Array:
        """Coefficients of the piece that holds each head; pieces that are missing or unchecked are made first."""
        self._cover(h)
        key = self._which * FAR_APART_M + h
        while True:
            starts = np.cumsum([0, *(curve.pieces for curve in self._curves)])
            heads = np.concatenate([curve.heads + i * FAR_APART_M for i, curve in enumerate(self._curves)])
            index = np.maximum(np.searchsorted(heads, key, side="right") - 1, starts[self._which])
            checked = np.concatenate([curve.checked for curve in self._curves])
            unsure = np.unique(index[~checked[index]])
            if not len(unsure):
                return np.concatenate([curve.cubics for curve in self._curves], axis=1)[:, index]
            for i in reversed(unsure.tolist()):
                owner = int(np.searchsorted(starts, i, side="right")) - 1
                self._curves[owner].check(i - int(starts[owner]))

    def _cover(self, h: Array) -> None:
        """Each curve must reach over the heads asked of it."""
        low, high = np.full(len(self._curves), np.inf), np.full(len(self._curves), -np.inf)
        np.minimum.at(low, self._which, h)
        np.maximum.at(high, self._which, h)
        for curve, least, most in zip(self._curves, low.tolist(), high.tolist(), strict=True):
            if most >= least:
                curve.cover(least)
                curve.cover(most)


def solve_variants(zones: Sequence[Zone], source_heads_m: Sequence[float]) -> VariantFlows:
    """Flow into every container in L/h of many variants of a zone, in one vectorised call.

    Args:
        zones: the variants, all with the same water; source_heads_m: head above datum at each one's source [m]
    Returns: totals, inflows and pressures by variant, containers in the order of the laterals along the main
    Valid: as `solve_zone`; a variant so dry that it does not settle this way is solved alone
    Source: own derivation, checked against solve_zone
    """
    if not zones or len(zones) != len(source_heads_m) or len({zone.water for zone in zones}) != 1:
        raise ValueError(
            f"{len(zones)} zones, {len(source_heads_m)} heads; expected as many heads, and one water for all"
        )
    trees = [branches(zone) for zone in zones]
    sizes = np.array([len(tree) for tree in trees])
    starts = np.concatenate(([0], np.cumsum(sizes)))
    trunk = _forest(trees, starts.tolist(), zones[0])
    answer = solve_trunk_arrays(trunk, np.repeat(np.array(source_heads_m, dtype=float), sizes))
    if not answer.settled:
        return _one_by_one(zones, source_heads_m)
    inflow, pressure = np.array(answer.inflow_l_h), np.array(answer.heads_m) - trunk.elevations_m
    fed = [np.array([r.station is not None for r in tree]) for tree in trees]
    parts = [slice(a, b) for a, b in zip(starts[:-1].tolist(), starts[1:].tolist(), strict=True)]
    return VariantFlows(
        np.array(answer.flow_l_h)[starts[:-1]],
        tuple(inflow[part][mask] for part, mask in zip(parts, fed, strict=True)),
        tuple(pressure[part][mask] for part, mask in zip(parts, fed, strict=True)),
    )


def _forest(trees: list[list[Branch]], starts: list[int], zone: Zone) -> TrunkArrays:
    """All trees in one set of arrays, with one bank for all their curves."""
    rows = [
        row._replace(parent=row.parent + start) if row.parent >= 0 else row
        for tree, start in zip(trees, starts[:-1], strict=True)
        for row in tree
    ]
    feeds = feeds_of(rows)
    at = np.concatenate([np.array(nodes, dtype=np.intp) for nodes in feeds.values()])
    which = np.repeat(np.arange(len(feeds)), [len(nodes) for nodes in feeds.values()])
    bank = CurveBank([curve_of(kind, zone.water) for kind in feeds], which)
    return trunk_arrays(rows, zone.water, [(bank, at)])


def _one_by_one(zones: Sequence[Zone], source_heads_m: Sequence[float]) -> VariantFlows:
    """Each variant alone, where together they did not settle."""
    total, inflows, pressures = [], [], []
    for zone, head in zip(zones, source_heads_m, strict=True):
        reduced = ReducedZone(zone)
        answer = reduced.solve(head)
        fed = [i for i, row in enumerate(reduced.rows) if row.station is not None]
        total.append(answer.flow_l_h[0])
        inflows.append(np.array([answer.inflow_l_h[i] for i in fed]))
        pressures.append(np.array([answer.heads_m[i] - reduced.rows[i].elevation_m for i in fed]))
    return VariantFlows(np.array(total), tuple(inflows), tuple(pressures))
