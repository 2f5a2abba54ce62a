"""Stage: how dripline lies in one container of each row, and whether its emitters reach every root ball."""

import math

from brimful.design.choose.judge import WETTED_RADIUS_M
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
    spots_along,
)
from brimful.domains.planting.rings import ring_positions


def tubes_of(rows: tuple[RowSpec, ...], ledger: Ledger) -> tuple[TubeWorked | None, ...]:
    """The layout of each row's dripline; none where single emitters are used."""
    return tuple(_tube(row, ledger.at("rows", row.name)) for row in rows)


def _tube(row: RowSpec, ledger: Ledger) -> TubeWorked | None:
    body = row.delivery.assembly.body
    if not isinstance(body, Dripline):
        return None
    room = row.vessel.fill(row.headspace_m)
    radius = min(room.spans_m(room.depth_m)) / 2
    radii = ledger.work(
        "loop_radii_m", fitted_loops, emitters=body.emitters, spacing_m=body.spacing_m, inside_radius_m=radius
    )
    spots = spots_along(radii, body.emitters, body.spacing_m)
    cut = ledger.work("dripline_cut_m", dripline_cut_m, emitters=body.emitters, spacing_m=body.spacing_m)
    return TubeWorked(
        radii,
        cut,
        room.depth_m + radii[-1] + ENTRY_SLACK_M,
        tuple(spot.x_m for spot in spots),
        tuple(spot.y_m for spot in spots),
        sum(max(LEAST_STAPLES, math.ceil(2 * math.pi * r / STAPLE_EVERY_M)) for r in radii),
        0 if body.closed else 1,
        tuple(name for name, _ in dry_balls(_balls(row), spots, WETTED_RADIUS_M)),
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


def _balls(row: RowSpec) -> tuple[RootBall, ...]:
    specs = [spec for spec in row.plants for _ in range(spec.count)]
    radius = math.sqrt(row.vessel.inside.mouth_area_m2 / math.pi)
    places = ring_positions([spec.plant.habit for spec in specs], radius)
    return tuple(
        RootBall(spec.plant.common_name, Spot(x, y), spec.root_ball.width_m / 2)
        for spec, (x, y) in zip(specs, places, strict=True)
    )
