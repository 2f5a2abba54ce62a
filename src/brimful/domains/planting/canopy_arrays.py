"""Covered ground for many containers and weeks at once: the same exact union as canopy.py, in numpy."""

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from brimful.domains.planting.canopy import TOUCH

Array: TypeAlias = NDArray[np.float64]
FULL_TURN = 2.0 * np.pi
ROWS_AT_ONCE = 1024
"""So many that the working arrays of a dozen plants stay in the processor's cache."""


def union_area_many(x_m: ArrayLike, y_m: ArrayLike, radii_m: ArrayLike) -> Array:
    """Ground covered in every container and week whose plants stand alike but differ in size [m²] (see union_area_m2).

    Where n arcs of a circle are hidden, sorted starts and sorted ends alone tell what is left: after k starts and k
    ends nothing hides, so a gap runs from the k-th end to the next start if that comes later.

    Args:
        x_m, y_m: where the plants stand [m], shape (plants,)
        radii_m: their radii [m], shape (..., plants), for instance (containers, weeks, plants)
    Returns: area [m²], shape (...)
    Valid: radii ≥ 0, all finite
    Source: Green's theorem; half angles after Kahan (memory)

    >>> union_area_many([0.0, 1.0], [0.0, 0.0], [[1.0, 1.0], [1.0, 0.0]]).round(4).tolist()
    [5.0548, 3.1416]
    """
    x, y, radii = _checked(x_m, y_m, radii_m)
    if x.size == 0:
        return np.zeros(radii.shape[:-1])
    rows = radii.reshape(-1, x.size)
    pairs = _Pairs(x - x.mean(), y - y.mean())
    parts = [pairs.areas(rows[at : at + ROWS_AT_ONCE]) for at in range(0, len(rows), ROWS_AT_ONCE)]
    return np.concatenate(parts).reshape(radii.shape[:-1]) if parts else np.zeros(radii.shape[:-1])


def _checked(x_m: ArrayLike, y_m: ArrayLike, radii_m: ArrayLike) -> tuple[Array, Array, Array]:
    x, y, radii = (np.asarray(a, dtype=np.float64) for a in (x_m, y_m, radii_m))
    if x.ndim != 1 or x.shape != y.shape or radii.ndim < 1 or radii.shape[-1] != x.size:
        raise ValueError(
            f"shapes {x.shape}, {y.shape}, {radii.shape} were given: expected (plants,) twice, (..., plants)"
        )
    if not (np.isfinite(x).all() and np.isfinite(y).all() and np.isfinite(radii).all() and (radii >= 0.0).all()):
        raise ValueError("a position or radius is not finite, or a radius [m] is below 0")
    return x, y, radii


class _Pairs:
    """Distances and directions between plants, the same for every row of radii."""

    def __init__(self, x: Array, y: Array) -> None:
        self.x, self.y = x, y
        step_x, step_y = x[None, :] - x[:, None], y[None, :] - y[:, None]
        self.distance = np.hypot(step_x, step_y)
        self.direction = np.arctan2(step_y, step_x)
        index = np.arange(x.size)
        self.first = index[None, :] < index[:, None]
        self.other = index[None, :] != index[:, None]

    def areas(self, radii: Array) -> Array:
        starts, ends, lost = self._hidden(radii)
        wraps = np.count_nonzero(ends >= FULL_TURN, axis=-1)
        ends = np.where(ends >= FULL_TURN, ends - FULL_TURN, ends)
        starts.sort(axis=-1)
        ends.sort(axis=-1)
        row, plant, gap_from, gap_to = _gaps(starts, ends, wraps, lost)
        areas: Array = np.zeros(len(radii))
        np.add.at(areas, row, self._arc_integral(radii[row, plant], plant, gap_from, gap_to))
        return areas

    def _hidden(self, radii: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
        """Start and end of the arc that each plant hides on each other, and which plants are hidden wholly."""
        more = radii[:, :, None] - radii[:, None, :]
        both = radii[:, :, None] + radii[:, None, :]
        left, right = self.distance + more, self.distance - more
        above, below = (both - self.distance) * right, left * (both + self.distance)
        least = TOUCH * both
        swallowed = (left <= least) & ((more < 0.0) | ((more == 0.0) & self.first))
        lost = swallowed.any(axis=-1) | (radii == 0.0)
        crossing = (both - self.distance > least) & (right > least) & (left > least) & self.other & ~lost[:, None, :]
        half = 2.0 * np.arctan(np.sqrt(np.divide(above, below, out=np.zeros_like(above), where=crossing)))
        starts = np.where(crossing, self.direction - half, 0.0)
        starts += FULL_TURN * (starts < 0.0)
        return starts, starts + 2.0 * half, lost

    def _arc_integral(self, r: Array, plant: NDArray[np.intp], a: Array, b: Array) -> Array:
        x, y = self.x[plant], self.y[plant]
        turned: Array = r * (b - a) + x * (np.sin(b) - np.sin(a)) - y * (np.cos(b) - np.cos(a))
        return 0.5 * r * turned


def _gaps(
    starts: Array, ends: Array, wraps: NDArray[np.intp], lost: NDArray[np.bool_]
) -> tuple[NDArray[np.intp], NDArray[np.intp], Array, Array]:
    """Row, plant, begin, end of each visible arc, from sorted starts and ends and the count of arcs across angle 0."""
    count = starts.shape[-1]
    edge = np.zeros((*starts.shape[:-1], 1))
    froms, tos = np.concatenate([edge, ends], axis=-1), np.concatenate([starts, edge + FULL_TURN], axis=-1)
    after = np.arange(count + 1) - wraps[..., None]  # after m ends, gaps wait for start number m − wraps
    tos = np.take_along_axis(tos, np.maximum(after, 0), axis=-1)
    open_ = (tos > froms) & (after >= 0) & ~lost[..., None]
    row, plant, k = np.nonzero(open_)
    return row, plant, froms[row, plant, k], tos[row, plant, k]
