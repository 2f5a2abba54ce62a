"""What stands between a container and the sky: walls, fences, buildings, hedges and tree crowns on a site plan.

The plan counts metres east (x) and north (y); heights stand above the plan's level. For every whole degree of azimuth
the view upwards is cut into steps of elevation, each with the share of light that passes.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from brimful.domains.climate.values import FloatArray
from brimful.records import record

AZIMUTH_DEG = np.arange(360.0)


@record
class Wall:
    """A wall, fence or thin hedge from one point to another, standing on the ground."""

    start_m: tuple[float, float]
    end_m: tuple[float, float]
    height_m: float
    transmissivity: float = 0.0
    """Share of light that passes: 0 masonry, 0.1–0.3 a hedge in leaf (common practice, no source)."""


@record
class Block:
    """A building, box or thick hedge: an upright body on a polygon with a flat top."""

    corners_m: tuple[tuple[float, float], ...]
    height_m: float
    transmissivity: float = 0.0


@record
class Crown:
    """A tree crown: an ellipsoid on a trunk; the trunk itself is left out, its shade is a few minutes."""

    center_m: tuple[float, float]
    radius_m: float
    base_m: float
    """Height of the crown's lowest point."""
    top_m: float
    transmissivity: float = 0.2
    """Share of light that passes a crown in leaf (common practice, no source)."""


Obstacle: TypeAlias = Wall | Block | Crown
Band: TypeAlias = tuple[FloatArray, FloatArray, float]
"""Lower and upper elevation [°] by receptor and azimuth, (n, 360), and the share of light that passes between."""


@record
class SkyView:
    """The view from each receptor, for every degree of azimuth: steps of elevation and what passes above each."""

    edges_deg: FloatArray
    """(receptors, 360, steps), rising; nothing passes below the first."""
    passing: FloatArray
    """(receptors, 360, steps): share of light that passes from this edge up to the next, or to the zenith."""

    @property
    def sky_view(self) -> FloatArray:
        """Share of an even sky's light that reaches level ground at each receptor, (receptors,).

        Formula: mean over azimuth of Σ passing × (sin² upper edge − sin² lower edge).
        """
        sines = np.sin(np.radians(self.edges_deg)) ** 2
        upper = np.concatenate([sines[..., 1:], np.ones_like(sines[..., :1])], axis=-1)
        result: FloatArray = (self.passing * (upper - sines)).sum(axis=-1).mean(axis=-1)
        return result


def horizon_deg(obstacles: Sequence[Obstacle], receptors_m: FloatArray) -> FloatArray:
    """Elevation below which nothing passes, for every degree of azimuth, 0 on open ground.

    Formula: atan(height above receptor / distance along the azimuth), the highest of all; ends of walls count.

    Args:
        obstacles: what stands on the plan; those that let light through are left out
        receptors_m: east, north, height of the canopies [m], (receptors, 3)
    Returns: elevation [°], (receptors, 360) for azimuth 0…359°
    Valid: obstacles seen as upright faces; thinner than one degree may be missed
    Source: geometry
    """
    opaque = [obstacle for obstacle in obstacles if obstacle.transmissivity == 0.0 and not isinstance(obstacle, Crown)]
    horizon = np.zeros((_checked(receptors_m).shape[0], 360))
    for obstacle in opaque:
        np.maximum(horizon, _rise_deg(obstacle, receptors_m), out=horizon)
    return horizon


def sky_view(obstacles: Sequence[Obstacle], receptors_m: FloatArray) -> SkyView:
    """What each container sees of the sky, for every degree of azimuth.

    Formula: steps at the edges of every obstacle; where several stand behind each other their shares multiply.

    Args:
        obstacles: walls, blocks and crowns on the plan
        receptors_m: east, north, height of the canopies [m], (receptors, 3)
    Returns: SkyView
    Valid: as horizon_deg
    Source: geometry
    """
    for obstacle in obstacles:
        _check(obstacle)
    horizon = horizon_deg(obstacles, receptors_m)
    bands = [_band(obstacle, receptors_m) for obstacle in obstacles if _is_translucent(obstacle)]
    cuts = [horizon] + [np.clip(edge, horizon, 90.0) for low, high, _ in bands for edge in (low, high)]
    edges = np.sort(np.stack(cuts, axis=-1), axis=-1)
    upper = np.concatenate([edges[..., 1:], np.full_like(edges[..., :1], 90.0)], axis=-1)
    middle, passing = (edges + upper) / 2.0, np.ones_like(edges)
    for low, high, share in bands:
        inside = (middle > low[..., None]) & (middle < high[..., None])
        passing *= np.where(inside, share, 1.0)
    return SkyView(edges, passing)


def _is_translucent(obstacle: Obstacle) -> bool:
    """Whether it needs an upper edge or a share of its own."""
    return isinstance(obstacle, Crown) or obstacle.transmissivity > 0.0


def _band(obstacle: Obstacle, receptors_m: FloatArray) -> Band:
    """Elevations an obstacle covers."""
    if isinstance(obstacle, Crown):
        return (*_crown_edges_deg(obstacle, receptors_m), obstacle.transmissivity)
    high = _rise_deg(obstacle, receptors_m)
    return np.full_like(high, -90.0), high, obstacle.transmissivity


def _rise_deg(obstacle: Wall | Block, receptors_m: FloatArray) -> FloatArray:
    """Elevation of the top edge seen at each azimuth, 0 where there is none."""
    corners = obstacle.corners_m if isinstance(obstacle, Block) else (obstacle.start_m, obstacle.end_m)
    closed = (*corners, corners[0]) if isinstance(obstacle, Block) else corners
    over = np.maximum(obstacle.height_m - receptors_m[:, 2], 0.0)[:, None]
    nearest = np.full((receptors_m.shape[0], 360), np.inf)
    for start, end in pairwise(closed):
        np.minimum(nearest, _distance_m(start, end, receptors_m), out=nearest)
    if isinstance(obstacle, Block):
        nearest[_inside(obstacle.corners_m, receptors_m)] = 0.0
    result: FloatArray = np.degrees(np.arctan2(over, nearest))
    return result


def _distance_m(start: tuple[float, float], end: tuple[float, float], receptors_m: FloatArray) -> FloatArray:
    """Distance along each azimuth to a straight piece of wall, infinite where the ray passes beside it."""
    along = np.array([end[0] - start[0], end[1] - start[1]])
    to_start = np.array(start) - receptors_m[:, :2]
    east, north = np.sin(np.radians(AZIMUTH_DEG)), np.cos(np.radians(AZIMUTH_DEG))
    across = east * along[1] - north * along[0]
    with np.errstate(divide="ignore", invalid="ignore"):
        distance = (to_start[:, :1] * along[1] - to_start[:, 1:] * along[0]) / across
        position = (to_start[:, :1] * north - to_start[:, 1:] * east) / across
        hit = (distance > 0.0) & (position >= 0.0) & (position <= 1.0)
    return np.where(hit, distance, np.inf)


def _inside(corners: Sequence[tuple[float, float]], receptors_m: FloatArray) -> FloatArray:
    """Whether each receptor stands on the polygon (even–odd rule)."""
    inside = np.zeros(receptors_m.shape[0], dtype=bool)
    x, y = receptors_m[:, 0], receptors_m[:, 1]
    for (x1, y1), (x2, y2) in pairwise((*corners, corners[0])):
        if y1 != y2:
            crosses = ((y1 > y) != (y2 > y)) & (x < (x2 - x1) * (y - y1) / (y2 - y1) + x1)
            inside ^= crosses
    return inside


def _crown_edges_deg(crown: Crown, receptors_m: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Lower and upper elevation of an ellipsoid at each azimuth; both 90 where it is not seen.

    The upright plane along an azimuth cuts the ellipsoid in an ellipse; squeezed to a circle its tangents are plain.
    """
    half = (crown.top_m - crown.base_m) / 2.0
    offset = np.array(crown.center_m) - receptors_m[:, :2]
    east, north = np.sin(np.radians(AZIMUTH_DEG)), np.cos(np.radians(AZIMUTH_DEG))
    ahead = offset[:, :1] * east + offset[:, 1:] * north
    beside = offset[:, :1] * north - offset[:, 1:] * east
    radius = crown.radius_m * np.sqrt(np.maximum(1.0 - (beside / crown.radius_m) ** 2, 0.0))
    height = ((crown.base_m + half - receptors_m[:, 2]) * crown.radius_m / half)[:, None]
    distance = np.hypot(ahead, height)
    aim = np.degrees(np.arctan2(height, ahead))
    spread = np.degrees(np.arcsin(np.clip(radius / np.maximum(distance, 1e-12), 0.0, 1.0)))
    inside, beyond = distance <= radius, radius <= 0.0
    low = np.where(inside, -90.0, np.clip(aim - spread, -90.0, 90.0))
    high = np.where(inside, 90.0, np.clip(aim + spread, -90.0, 90.0))
    low, high = (_unsqueeze(edge, half / crown.radius_m) for edge in (low, high))
    return np.where(beyond, 90.0, low), np.where(beyond, 90.0, high)


def _unsqueeze(angle_deg: FloatArray, ratio: float) -> FloatArray:
    """Elevation in the true upright plane of an angle found in the squeezed one."""
    radians = np.radians(angle_deg)
    result: FloatArray = np.degrees(np.arctan2(ratio * np.sin(radians), np.cos(radians)))
    return result


def _checked(receptors_m: FloatArray) -> FloatArray:
    """The receptors, if they are (n, 3) finite numbers."""
    if receptors_m.ndim != 2 or receptors_m.shape[1] != 3 or not bool(np.isfinite(receptors_m).all()):
        raise ValueError(f"receptors_m has shape {receptors_m.shape}: expected (receptors, 3) finite numbers")
    return receptors_m


def _check(obstacle: Obstacle) -> None:
    """Refuse shapes that cannot stand."""
    if isinstance(obstacle, Crown):
        fine = obstacle.radius_m > 0.0 and obstacle.top_m > obstacle.base_m
    else:
        fine = obstacle.height_m > 0.0 and (isinstance(obstacle, Wall) or len(obstacle.corners_m) >= 3)
    if not (fine and 0.0 <= obstacle.transmissivity <= 1.0):
        raise ValueError(
            f"{obstacle} cannot stand: expected positive sizes, a top above its base, at least three corners "
            "and a transmissivity of 0 to 1"
        )
