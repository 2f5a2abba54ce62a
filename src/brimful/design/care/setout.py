"""Stage: each row set out by tape and level: places, pad tops, bricks and shims, and the way in for the tube."""

from typing import NamedTuple

from brimful.catalog import Tube
from brimful.design.care.desk import CareDesk
from brimful.design.care.ground import pad_of
from brimful.design.care.model import SetOutWorked, StationWorked, TubeWayWorked
from brimful.design.settle import RowSpec
from brimful.domains.takeoff.levels import Datum, Packing, PadLevel, packing, pad_levels, steady_fall
from brimful.domains.takeoff.setout import Obstacle, SetOut, even_counts, footprint_m, out_from_fence_m, set_out
from brimful.domains.takeoff.tube_way import SLACK_M, Under, height_for_tube_m, tube_into_container_m, tube_way
from brimful.plan import schema

SHIM_M = 0.006  # 1/4 in: common practice, no source
DATUMS = {"mean": Datum.MEAN, "highest": Datum.HIGHEST, "lowest": Datum.LOWEST}
HOLE_M = 0.0254  # 1 in: common practice, no source
MOST_TRIED = 40


class Room(NamedTuple):
    """What makes room for the tube: feet or channel, how high, the hole, and the least height that would do [m]."""

    under: Under
    height_m: float
    hole_m: float
    least_m: float


def set_outs_of(desk: CareDesk) -> tuple[SetOutWorked, ...]:
    """Every row set out; where it does not fit clear of its obstacles, that is told and they are left out."""
    return tuple(_row(desk, row) for row in desk.settled.rows)


def _row(desk: CareDesk, row: RowSpec) -> SetOutWorked:
    given = desk.plan.containers[row.index].set_out
    outside = row.vessel.outside
    length, width = outside.spans_m(outside.depth_m)
    along, across = (length, width) if given.turn == 0 else footprint_m(length, width, given.turn)
    marks = given.marks if given.marks is not None else row.stations_m[-1] - row.stations_m[0] + along
    overhang = given.overhang
    if overhang is None:
        overhang = max((spec.plant.spread_max_m / 2 for spec in row.plants), default=0.0)
    at = desk.ledger.at("care", "set_out", row.name)
    out = at.work("out_m", out_from_fence_m, across_m=across, overhang_m=overhang, passage_m=given.passage)
    placed, obstacles = _placed(desk, row, given, marks=marks, along=along, out=out)
    counts = (
        even_counts(marks, along, obstacles, gap_m=given.gap, most=min(MOST_TRIED, row.count + 4)) if obstacles else []
    )
    levels, packs, fall = _levels(desk, row, placed)
    return SetOutWorked(
        row=row.name,
        marks_m=marks,
        along_m=along,
        pitch_m=placed.pitch_m,
        largest_move_m=placed.largest_move_m,
        narrowest_gap_m=placed.narrowest_gap_m,
        even=placed.even,
        even_counts=tuple(count for count in counts if count > row.count // 2),
        out_m=out,
        fall_m_m=fall,
        pads=desk.plan.pads is not None,
        stations=tuple(
            StationWorked(
                name, s.middle_m, s.near_edge_m, s.far_edge_m, s.moved_m, s.diagonal_m,
                level.ground_m, level.top_m, level.cut_m, level.fill_m, pack.bricks, pack.shims, pack.error_m,
            )
            for name, s, level, pack in zip(row.ids, placed.stations, levels, packs, strict=True)
        ),
        way_in=_way_in(desk, row, given),
    )  # fmt: skip


def _placed(
    desk: CareDesk, row: RowSpec, given: schema.SetOut, *, marks: float, along: float, out: float
) -> tuple[SetOut, tuple[Obstacle, ...]]:
    obstacles = tuple(Obstacle(o.name, min(o.starts, o.ends), max(o.starts, o.ends)) for o in given.obstacles)
    path = ("containers", row.index, "set_out")
    at = desk.ledger.at("care", "set_out", row.name)
    try:
        placed = at.work(
            "places", set_out, count=row.count, length_m=marks, along_m=along,
            obstacles=obstacles, gap_m=given.gap, out_m=out,
        )  # fmt: skip
    except ValueError as error:
        mend = "Fewer containers, longer marks, or fewer obstacles."
        desk.notes.warn("set-out-full", path, f'row "{row.name}": {error}', mend)
        tight = max(marks, row.count * along)
        return set_out(row.count, tight, along, out_m=out), ()
    if row.count > 1:
        apart = row.stations_m[1] - row.stations_m[0]
        if abs(placed.pitch_m - apart) > 0.05 * apart:
            said = (
                f'row "{row.name}" stands {placed.pitch_m:.2f} m apart between its marks; its water was worked out '
                f"for {apart:.2f} m"
            )
            desk.notes.warn("set-out-differs", path, said, f'Write apart = "{placed.pitch_m:.2f} m" in the row.')
    return placed, obstacles


def _levels(desk: CareDesk, row: RowSpec, placed: SetOut) -> tuple[tuple[PadLevel, ...], tuple[Packing, ...], float]:
    """Pad tops; without pads each container stands on its ground, shimmed to level by itself."""
    pads = desk.plan.pads
    ground, along = row.elevations_m, tuple(station.middle_m for station in placed.stations)
    found = pad_of(desk, row)
    if pads is None or found is None:
        flat = tuple(PadLevel(i, level, level, 0.0, 0.0) for i, level in enumerate(ground, start=1))
        return flat, (Packing(0, 0, 0.0),) * len(flat), 0.0
    pad, brick = found
    fall = (pads.fall or 0.0) / 100
    if pads.follow and len(set(along)) > 1:
        fall = steady_fall(ground, along)
    layers = pad.base_m + pad.bedding_m + brick.thickness_m
    at = desk.ledger.at("care", "set_out", row.name)
    levels = at.work(
        "pad_levels", pad_levels, ground_m=ground, along_m=along, build_up_m=layers, fall=fall,
        reveal_m=pads.reveal or 0.0, datum=DATUMS[pads.datum],
    )  # fmt: skip
    shim = min(pads.shim or SHIM_M, 0.9 * brick.thickness_m)
    packs = tuple(packing(level.fill_m, brick_m=brick.thickness_m, shim_m=shim) for level in levels)
    return levels, packs, fall


def _way_in(desk: CareDesk, row: RowSpec, given: schema.SetOut) -> TubeWayWorked | None:
    feeder = row.delivery.assembly.feeder
    tube = desk.catalog.tubing.get(feeder.tube.name) if feeder is not None else None
    if tube is None:
        return None
    under = Under.CHANNEL if given.channel else Under.FEET
    least = height_for_tube_m(tube.outer_diameter_m, under)
    height, hole = given.channel or given.feet, given.hole
    if height is None:
        height = least
        where = "containers.set_out.feet"
        desk.notes.assume(where, "feet or channel under each container", "just high enough for the tube")
    if hole is None:
        hole = HOLE_M
        desk.notes.assume("containers.set_out.hole", "drain hole", "1 in (25 mm)")
    return _way(desk, row, tube, Room(under, height, hole, least))


def _way(desk: CareDesk, row: RowSpec, tube: Tube, room: Room) -> TubeWayWorked:
    at = desk.ledger.at("care", "set_out", row.name)
    way = at.work(
        "way_in",
        tube_way,
        tube_outside_m=tube.outer_diameter_m,
        under=room.under,
        height_m=room.height_m,
        hole_m=room.hole_m,
    )
    outside = row.vessel.outside
    needed = at.work(
        "tube_in_m",
        tube_into_container_m,
        out_to_hole_m=max(outside.spans_m(outside.depth_m)) / 2,
        inside_height_m=row.vessel.inside.depth_m - row.headspace_m,
        slack_m=SLACK_M,
    )
    if not way.clear:
        where = "its feet or channel" if way.room_under_m < 0 else "its drain hole"
        said = f'row "{row.name}": the tube ({1000 * tube.outer_diameter_m:.1f} mm outside) is crushed by {where}'
        mend = f"Feet or channel of at least {1000 * room.least_m:.0f} mm and a hole 3 mm wider than the tube."
        desk.notes.warn("tube-crushed", ("containers", row.index, "set_out"), said, mend)
    return TubeWayWorked(
        tube.name, tube.outer_diameter_m, room.under.value, room.height_m, room.hole_m, way.room_under_m,
        way.room_in_hole_m, room.least_m, needed, way.clear,
    )  # fmt: skip
