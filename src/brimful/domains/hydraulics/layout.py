"""How the tube lies in a container where no ring is free of roots, how far water spreads, and which root balls are
dry."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from brimful.records import record

STAPLE_EVERY_M = 0.3  # common practice, no source
LEAST_STAPLES = 3  # a loop: common practice, no source
SLACK = 0.05  # of the loops' length, for bends and joints: common practice, no source
OFF_THE_WALL_M = 0.03
ENTRY_SLACK_M = 0.15  # to work on the end outside the drain hole: common practice, no source


class Spot(NamedTuple):
    """A place in a container seen from above, from its middle [m]."""

    x_m: float
    y_m: float


@record
class RootBall:
    """A root ball seen from above."""

    name: str
    spot: Spot
    radius_m: float


def loop_radii(loops: int, inside_radius_m: float) -> tuple[float, ...]:
    """Radii of loops in m that give every ring of mix water in proportion to its area.

    Formula: rings of equal width, each loop in the middle of its ring: r = R·(i - 1/2)/n; a loop's emitters and its
    ring's area both grow with r.

    >>> [round(r, 3) for r in loop_radii(2, 0.4)]
    [0.1, 0.3]
    """
    if loops < 1 or inside_radius_m <= 0:
        raise ValueError(f"{loops} loops, inside radius {inside_radius_m} m were given; expected at least 1, above 0")
    return tuple(inside_radius_m * (i + 0.5) / loops for i in range(loops))


def loops_for(emitters: int, spacing_m: float, *, inside_radius_m: float) -> int:
    """The number of loops whose length comes nearest to so many emitters (n loops are π·R·n long)."""
    if emitters < 1 or spacing_m <= 0 or inside_radius_m <= 0:
        raise ValueError(f"{emitters} emitters at {spacing_m} m, radius {inside_radius_m} m; expected all above 0")
    return max(1, round(emitters * spacing_m / (math.pi * inside_radius_m)))


def fitted_loops(emitters: int, spacing_m: float, *, inside_radius_m: float) -> tuple[float, ...]:
    """Radii in m of as few loops as hold just so many emitters on one piece of dripline, the innermost first.

    Formula: loops r = R·(i − 1/2)/n as in `loop_radii`, all scaled so that Σ 2π·r = emitters × spacing; the least n
    from `loops_for` up whose outer loop keeps 3 cm off the wall.

    Args:
        emitters: on the piece; spacing_m: from one to the next [m]; inside_radius_m: at the tube's level [m]
    Returns: radii [m]
    Valid: round containers
    Source: geometry; 3 cm off the wall, where water would run down the gap, is common practice, no source

    >>> [round(r, 3) for r in fitted_loops(16, 0.1524, inside_radius_m=0.363)]
    [0.097, 0.291]
    """
    loops = max(1, loops_for(emitters, spacing_m, inside_radius_m=inside_radius_m))
    most = max(inside_radius_m - OFF_THE_WALL_M, 0.5 * inside_radius_m)
    while True:
        radii = loop_radii(loops, inside_radius_m)
        scale = emitters * spacing_m / (2 * math.pi * math.fsum(radii))
        if scale * radii[-1] <= most:
            return tuple(scale * r for r in radii)
        loops += 1


def wetted_radius(volume_l: float, flow_l_h: float, *, conductivity_m_s: float) -> float:
    """How far sideways in m the mix is wetted round one emitter (Schwartzman & Zur 1986).

    Formula: w = 1.82·V^0.22·(Ks/q)^-0.17 with w the wetted width in m, V in m³, Ks in m/s, q in m³/s; radius = w/2.

    Args:
        volume_l: water given by one emitter in one start [L]; flow_l_h: its flow [L/h]
        conductivity_m_s: saturated conductivity of the mix [m/s]
    Returns: radius [m]
    Valid: loams and finer; a bark mix spreads water less, so take it as the most
    Source: Schwartzman & Zur (1986), J. Irrig. Drain. Eng. 112:242 (from memory)
    """
    if min(volume_l, flow_l_h, conductivity_m_s) <= 0:
        raise ValueError(f"{volume_l} L, {flow_l_h} L/h, {conductivity_m_s} m/s were given; expected all above 0")
    return float(0.91 * (volume_l / 1e3) ** 0.22 * (conductivity_m_s / (flow_l_h / 3.6e6)) ** -0.17)


def dry_balls(balls: Sequence[RootBall], emitters: Sequence[Spot], reach_m: float) -> tuple[tuple[str, float], ...]:
    """Root balls that no emitter reaches, and by how many metres they miss (from emitter to the ball's edge)."""
    gaps = ((b, min((math.dist(b.spot, e) for e in emitters), default=math.inf) - b.radius_m - reach_m) for b in balls)
    return tuple((ball.name, gap) for ball, gap in gaps if gap > 0)
