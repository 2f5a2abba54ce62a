"""Stage: how dripline lies in one container of each row, or single emitters stand, and which root balls they miss."""

import math

from brimful.design.choose.judge import WETTED_RADIUS_M
from brimful.design.growing import RowGrown
from brimful.design.ledger import Ledger
from brimful.design.model import EmittersWorked, TubeWorked
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
from brimful.domains.planting.loops import emitter_points, ring_points, wound_insets_m
from brimful.domains.planting.mouth import half_narrow_m

NO_RING_AT = 0.4
"""Where no ring is free, single emitters stand between the plants so far within the rim, over half its width (common
practice, no source)."""


def tubes_of(rows: tuple[RowSpec, ...], grown: tuple[RowGrown, ...], ledger: Ledger) -> tuple[TubeWorked | None, ...]:
    """The layout of each row's dripline; none where single emitters are used."""
    return tuple(_tube(row, one, ledger.at("rows", row.name)) for row, one in zip(rows, grown, strict=True))


def emitters_of(
    rows: tuple[RowSpec, ...], grown: tuple[RowGrown, ...], ledger: Ledger
) -> tuple[EmittersWorked | None, ...]:
    """Where each row's single emitters stand; none where dripline is used."""
    return tuple(_emitters(row, one, ledger.at("rows", row.name)) for row, one in zip(rows, grown, strict=True))


def _emitters(row: RowSpec, grown: RowGrown, ledger: Ledger) -> EmittersWorked | None:
    body = row.delivery.assembly.body
    if isinstance(body, Dripline):
        return None
    layout, mouth = grown.layout, grown.mouth
    points = ledger.work(
        "emitters_m", ring_points, mouth=mouth, free=layout.free, places=layout.places, emitters=body.emitters
    )
    clear, half = bool(points), half_narrow_m(mouth)
    if not clear:
        way = mouth.ring_m(NO_RING_AT * half)
        points = emitter_points(mouth, (NO_RING_AT * half,), body.emitters, way / body.emitters)
    spots = tuple(Spot(*point) for point in points)
    return EmittersWorked(
        tuple(spot.x_m for spot in spots),
        tuple(spot.y_m for spot in spots),
        tuple(name for name, _ in dry_balls(_balls(row, grown), spots, WETTED_RADIUS_M)),
        clear,
    )


def _tube(row: RowSpec, grown: RowGrown, ledger: Ledger) -> TubeWorked | None:
    body = row.delivery.assembly.body
    if not isinstance(body, Dripline):
        return None
    mouth, layout, piece = grown.mouth, grown.layout, {"emitters": body.emitters, "spacing_m": body.spacing_m}
    insets = ledger.work(
        "loop_insets_m",
        wound_insets_m,
        mouth=mouth,
        free=layout.free,
        places=layout.places,
        reach_m=WETTED_RADIUS_M,
        **piece,
    )
    clear, half = bool(insets), half_narrow_m(mouth)
    if not clear:
        radii = ledger.work("loop_radii_m", fitted_loops, inside_radius_m=half, **piece)
        insets = tuple(half - radius for radius in reversed(radii))
    cut = ledger.work("dripline_cut_m", dripline_cut_m, **piece)
    spots = tuple(Spot(*point) for point in emitter_points(mouth, insets, body.emitters, body.spacing_m))
    return TubeWorked(
        tuple(half - inset for inset in reversed(insets)),
        cut,
        row.vessel.fill(row.headspace_m).depth_m + half - insets[0] + ENTRY_SLACK_M,
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


def _balls(row: RowSpec, grown: RowGrown) -> tuple[RootBall, ...]:
    names = {spec.plant.key: spec.plant.common_name for spec in row.plants}
    return tuple(RootBall(names[p.key], Spot(p.x_m, p.y_m), p.ball_width_m / 2) for p in grown.layout.places)
