"""What goes into the ground: pads in layers, trench and sleeve, gravel."""

from collections.abc import Iterator, Sequence

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import SetOutWorked
from brimful.design.settle import RowSpec
from brimful.domains.takeoff.order import Need
from brimful.domains.takeoff.pads import (
    BASE_FOOT_M,
    BASE_MARGIN_M,
    BEDDING_M,
    LOOSE_FROM_COMPACTED,
    Brick,
    Pad,
    PadTakeOff,
    layer_m3,
    pad_takeoff,
    trench_m3,
)

BRICK_M = (0.2032, 0.1016, 0.0572)  # 8 × 4 × 2 1/4 in (trade article on pavers, read)
BEYOND_M = 0.1  # pad beyond the container's base: common practice, no source
GRAVEL_M = 0.05  # 2 in: common practice, no source
TRENCH_M = (0.1, 0.25)  # 4 in wide, 10 in deep (garden press, lateral top 10 in, read)


def pad_of(desk: CareDesk, row: RowSpec) -> tuple[Pad, Brick] | None:
    """The pad under one container of a row and its brick; None where the plan has no pads."""
    given = desk.plan.pads
    if given is None:
        return None
    length, width, thick = given.brick or BRICK_M
    base = row.vessel.outside.base_width_m
    side = base + 2 * (BEYOND_M if given.beyond is None else given.beyond)
    pad = Pad(
        side,
        side,
        base_m=given.base or BASE_FOOT_M,
        bedding_m=given.bedding or BEDDING_M,
        margin_m=BASE_MARGIN_M if given.margin is None else given.margin,
    )
    if given.brick is None:
        desk.notes.assume("pads.brick", "brick of the pads", "8 × 4 × 2 1/4 in", "trade article on pavers (read)")
    if given.base is None:
        desk.notes.assume("pads.base", "base under the pads", "4 in (0.10 m)", "paver guides (read)")
    return pad, Brick(length, width, thick, given.joint)


def pad_needs(desk: CareDesk, set_outs: Sequence[SetOutWorked]) -> Iterator[Need]:
    """Materials of every pad, and base stone for the fill that brings them all to level."""
    for row, out in zip(desk.settled.rows, set_outs, strict=True):
        found = pad_of(desk, row)
        if found is None:
            continue
        pad, brick = found
        fill = sum(station.fill_m for station in out.stations) * pad.dug_area_m2
        if fill:
            yield Need("base-stone", "aggregate", fill * LOOSE_FROM_COMPACTED, "m3", "fill under the pads")
        one = desk.ledger.at("care", "pads", row.name).work("pad", pad_takeoff, pad=pad, brick=brick)
        yield from _layers(one, row.count)


def _layers(one: PadTakeOff, count: int) -> Iterator[Need]:
    yield Need("brick", "aggregate", count * one.bricks, "each", "pads, breakage counted in", whole=True)
    yield Need("base-stone", "aggregate", count * one.base_loose_m3, "m3", "pads")
    yield Need("bedding-sand", "aggregate", count * one.bedding_m3, "m3", "pads")
    yield Need("edging", "aggregate", count * one.edging_m, "m", "pads")
    if one.joint_sand_m3:
        yield Need("joint-sand", "aggregate", count * one.joint_sand_m3, "m3", "pads")


def trench_needs(desk: CareDesk) -> Iterator[Need]:
    """The sleeve; the earth itself costs only work."""
    trench = desk.plan.trench
    if trench is None:
        return
    width, depth = trench.width or TRENCH_M[0], trench.depth or TRENCH_M[1]
    if trench.width is None or trench.depth is None:
        desk.notes.assume("trench", "trench", "4 in wide, 10 in deep", "garden press (read)")
    at = desk.ledger.at("care", "trench")
    at.work("earth_m3", trench_m3, length_m=trench.length, width_m=width, depth_m=depth)
    if trench.sleeve:
        yield Need("sleeve", "tube", trench.sleeve, "m", "under paving")


def gravel_needs(desk: CareDesk) -> Iterator[Need]:
    """Gravel over the ground."""
    gravel = desk.plan.gravel
    if gravel is None:
        return
    if gravel.depth is None:
        desk.notes.assume("gravel.depth", "depth of gravel", "2 in (0.05 m)")
    volume = desk.ledger.at("care", "gravel").work(
        "gravel_m3", layer_m3, area_m2=gravel.area, depth_m=gravel.depth or GRAVEL_M
    )
    yield Need("gravel", "aggregate", volume, "m3", "over the ground")
