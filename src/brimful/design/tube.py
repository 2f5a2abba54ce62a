"""Stage: how dripline lies in one container of each row, and whether its emitters reach every root ball."""

import math
from collections.abc import Sequence

from brimful.design.choose.judge import WETTED_RADIUS_M
from brimful.design.growing import RowGrown
from brimful.design.ledger import Ledger
from brimful.design.model import TubeWorked
from brimful.design.settle import RowSpec
from brimful.domains.hydraulics.assembly import Dripline
from brimful.domains.hydraulics.layout import (
    ENTRY_SLACK_M,
    LEAST_STAPLES,
    SLACK,
    STAPLE_EVERY_M,
    RootBall,
    Spot,
    dry_balls,
    fitted_loops,
)
from brimful.domains.planting.loops import emitter_points, wound_insets_m


def tubes_of(rows: tuple[RowSpec, ...], grown: tuple[RowGrown, ...], ledger: Ledger) -> tuple[TubeWorked | None, ...]:
    """The layout of each row's dripline; none where single emitters are used."""
    return tuple(_tube(row, one, ledger.at("rows", row.name)) for row, one in zip(rows, grown, strict=True))


def _tube(row: RowSpec, grown: RowGrown, ledger: Ledger) -> TubeWorked | None:
    body = row.delivery.assembly.body
    if not isinstance(body, Dripline):
        return None
    mouth, layout, piece = grown.mouth, grown.layout, {"emitters": body.emitters, "spacing_m": body.spacing_m}
    insets = ledger.work("loop_insets_m", wound_insets_m, mouth=mouth, free=layout.free, places=layout.places, **piece)
    clear = bool(insets)
    if not clear:
        radii = ledger.work("loop_radii_m", fitted_loops, inside_radius_m=mouth.half_depth_m, **piece)
        insets = tuple(mouth.half_depth_m - radius for radius in reversed(radii))
    cut = ledger.work("dripline_cut_m", dripline_cut_m, **piece)
    spots = _turned(emitter_points(mouth, insets, body.emitters, body.spacing_m), grown.front_deg)
    return TubeWorked(
        tuple(mouth.half_depth_m - inset for inset in reversed(insets)),
        cut,
        row.vessel.fill(row.headspace_m).depth_m + mouth.half_depth_m - insets[0] + ENTRY_SLACK_M,
        tuple(spot.x_m for spot in spots),
        tuple(spot.y_m for spot in spots),
        sum(max(LEAST_STAPLES, math.ceil(mouth.ring_m(inset) / STAPLE_EVERY_M)) for inset in insets),
        0 if body.closed else 1,
        tuple(name for name, _ in dry_balls(_balls(row, grown), spots, WETTED_RADIUS_M)),
        clear,
    )


def dripline_cut_m(emitters: int, spacing_m: float) -> float:
    """Dripline to cut for one container, in metres.

    Formula: emitters × spacing, and 5 % for bends and joints.
    Args: emitters: in the container; spacing_m: from one to the next [m]
    Returns: [m]
    Valid: at least one emitter, spacing above 0
    Source: geometry; slack common practice, no source. Trade check (common practice, no source): 16 emitters 6 in apart
    need about 8 ft.

    >>> round(dripline_cut_m(16, 0.1524) / 1.05 / 0.3048, 1)
    8.0
    """
    if emitters < 1 or spacing_m <= 0:
        raise ValueError(f"{emitters} emitters at {spacing_m} m were given; expected at least one, above 0")
    return (1 + SLACK) * emitters * spacing_m


def _turned(points: Sequence[tuple[float, float]], front_deg: float) -> tuple[Spot, ...]:
    """Points seen with the front downwards, as they lie in the drawing."""
    turn = math.radians(front_deg + 90.0)
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple(Spot(x * cos - y * sin, x * sin + y * cos) for x, y in points)


def _balls(row: RowSpec, grown: RowGrown) -> tuple[RootBall, ...]:
    names = {spec.plant.key: spec.plant.common_name for spec in row.plants}
    return tuple(RootBall(names[p.key], Spot(p.x_m, p.y_m), p.ball_width_m / 2) for p in grown.layout.places)
