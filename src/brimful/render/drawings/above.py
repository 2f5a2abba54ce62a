"""One container from above: rim, root balls with their letters, the tube's loops and every emitter; or the canopy."""

import math

from brimful.design.growing import mouth_of
from brimful.domains.hydraulics.assembly import Dripline
from brimful.domains.planting.mouth import half_narrow_m
from brimful.render.drawings.measures import across, length, scale_bar
from brimful.render.drawings.scene import PlantSeen, RowSeen, Scene
from brimful.render.drawings.svg import BOLD, INK, MEDIUM, SOFT, WATER, Sheet, number
from brimful.render.drawings.vessels import CLAY_TINT, PAPER

SEAM_SHARE = 0.025
"""Of a loop's way round: where it meets the next one it is drawn open, so that the eye can follow the piece."""
POINTS_ROUND = 120
PLUG_PX, PAST_PX = 4.0, 6.0
"""Half the bar of a plug, and how far past the last emitter it stands, so that both are seen."""
EMITTER_PX, SINGLE_PX = 2.6, 3.8


def draw_above(scene: Scene, row: RowSeen, *, width: float, size: float = 12.0, week: int = 0) -> str:
    """The container seen from above, its front downwards; on planting day with the tube, later with the leaves."""
    sheet = Sheet(width, size)
    reach = max(
        [row.width_m / 2, *(max(abs(p.x_m), abs(p.y_m)) + p.stands[week].radius_m * (week > 0) for p in row.plants)]
    )
    per_m = (width - 8) / (2 * max(reach, row.width_m / 2 * 1.06))
    x, y = width / 2, 4 + max(reach, row.width_m / 2 * 1.06) * per_m
    _rim(sheet, row, (x, y), per_m)
    if week:
        for plant in sorted(row.plants, key=lambda p: p.stands[week].height_m):
            if plant.stands[week].alive:
                _leaves(sheet, plant, (x, y), per_m, week, scene.month_of_week(week))
    else:
        for plant in row.plants:
            _ball(sheet, plant, (x, y), per_m)
        _tube(sheet, row, (x, y), per_m)
        _single_emitters(sheet, row, (x, y), per_m)
    for plant in row.plants:
        at = (x + plant.x_m * per_m, y - plant.y_m * per_m + 0.35 * size)
        sheet.halo(*at, plant.letter, anchor="middle", data_plant=plant.letter)
    return _foot(sheet, scene, row, (x, 2 * y - 4), per_m, week)


def _foot(sheet: Sheet, scene: Scene, row: RowSeen, at: tuple[float, float], per_m: float, week: int) -> str:
    x, y = at
    half = row.width_m / 2 * per_m
    y += 1.2 * sheet.size
    across(sheet, x - half, x + half, y, length(row.width_m, scene.system))
    y += 1.9 * sheet.size
    scale_bar(sheet, 4, y, per_m=per_m, system=scene.system, most=0.2 * sheet.width)
    said = "planting, front below" if week == 0 else f"week {week}, front below"
    sheet.text(sheet.width - 4, y + 1, said, anchor="end", fill=SOFT)
    return sheet.done(y + 0.5 * sheet.size, f"One container of {row.spec.name} from above, week {week}", per_m=per_m)


def _rim(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    vessel = row.spec.vessel
    for shape, tint, wide in ((vessel.outside, CLAY_TINT, MEDIUM), (vessel.inside, PAPER, 0.7)):
        long, short = (span * per_m for span in shape.spans_m(shape.depth_m))
        if shape.sides is None:
            sheet.circle(*at, long / 2, fill=tint, stroke_width=wide, data_kind="rim")
        else:
            sheet.add(
                "rect",
                x=at[0] - long / 2,
                y=at[1] - short / 2,
                width=long,
                height=short,
                fill=tint,
                stroke=INK,
                stroke_width=wide,
                data_kind="rim",
            )


def _ball(sheet: Sheet, plant: PlantSeen, at: tuple[float, float], per_m: float) -> None:
    radius = plant.ball_width_m / 2 * per_m
    here = (at[0] + plant.x_m * per_m, at[1] - plant.y_m * per_m)
    sheet.circle(*here, radius, fill=plant.leaf, stroke_width=0.7, data_kind="ball")
    if plant.flower:
        sheet.circle(*here, 0.62 * radius, fill=plant.flower, stroke_width=0.4)


def _leaves(sheet: Sheet, plant: PlantSeen, at: tuple[float, float], per_m: float, week: int, month: int) -> None:
    """Outline by habit: pointed for uprights, scalloped for mounds, ragged for trailers; flowers as a smaller disc."""
    radius = plant.stands[week].radius_m * per_m
    x, y = at[0] + plant.x_m * per_m, at[1] - plant.y_m * per_m
    lobes, depth = {"upright": (11, 0.22), "climbing": (11, 0.22), "trailing": (7, 0.14)}.get(
        plant.taxon.habit, (9, 0.06)
    )
    steps = 6 * lobes
    points = [
        (2 * math.pi * i / steps, 1 - depth * (0.5 - 0.5 * math.cos(2 * math.pi * i * lobes / steps)))
        for i in range(steps)
    ]
    sheet.polygon(
        ((x + radius * r * math.cos(a), y + radius * r * math.sin(a)) for a, r in points),
        fill=plant.leaf,
        stroke_width=0.6,
        data_kind="canopy",
    )
    if plant.flower and plant.blooms(month):
        sheet.circle(x, y, 0.55 * radius, fill=plant.flower, stroke_width=0.4)


def _tube(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """The feeder up from the drain hole and out to the outer loop, loops inwards, the plug at the end."""
    tube = row.worked.tube
    if tube is None:
        return
    x, y = at
    ways = [[(x + u * per_m, y - v * per_m) for u, v in way] for way in laid_loops(row)]
    sheet.path(_said([(x, y), ways[0][0]]), stroke=WATER, stroke_width=1.0, stroke_dasharray="4 2.5")
    sheet.path(_said([point for way in ways for point in way]), stroke=WATER, stroke_width=MEDIUM, data_kind="dripline")
    (before, end) = ways[-1][-2:]
    along = math.atan2(end[1] - before[1], end[0] - before[0])
    over = PLUG_PX * math.sin(along), -PLUG_PX * math.cos(along)
    past = end[0] + PAST_PX * math.cos(along), end[1] + PAST_PX * math.sin(along)
    sheet.line(end, past, stroke=WATER, stroke_width=MEDIUM)
    ends = (past[0] - over[0], past[1] - over[1]), (past[0] + over[0], past[1] + over[1])
    sheet.line(*ends, stroke=WATER, stroke_width=BOLD, data_kind="plug")
    _drain_hole(sheet, at)
    for ex, ey in zip(tube.emitters_x_m, tube.emitters_y_m, strict=True):
        _emitter(sheet, x + ex * per_m, y - ey * per_m, EMITTER_PX)


def _single_emitters(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """The feeder up from the drain hole and out to each single emitter, larger dots than those of a dripline."""
    found = row.worked.emitters
    if found is None:
        return
    x, y = at
    spots = [(x + u * per_m, y - v * per_m) for u, v in zip(found.emitters_x_m, found.emitters_y_m, strict=True)]
    for spot in spots:
        sheet.path(_said([at, spot]), stroke=WATER, stroke_width=1.0, stroke_dasharray="4 2.5", data_kind="branch")
    _drain_hole(sheet, at)
    for spot in spots:
        _emitter(sheet, *spot, SINGLE_PX)


def _drain_hole(sheet: Sheet, at: tuple[float, float]) -> None:
    sheet.circle(*at, 3.2, fill=PAPER, stroke=WATER, stroke_width=MEDIUM, data_kind="drain-hole")


def _emitter(sheet: Sheet, x: float, y: float, radius: float) -> None:
    sheet.circle(x, y, radius, fill=PAPER, stroke=WATER, stroke_width=1.1, data_kind="emitter")


def laid_loops(row: RowSeen) -> list[list[tuple[float, float]]]:
    """Points along each loop from the outermost in, from the middle of the mouth [m], to the last emitter."""
    tube, body, mouth = row.worked.tube, row.spec.delivery.assembly.body, mouth_of(row.spec)
    if tube is None or not isinstance(body, Dripline):
        return []
    left, ways = body.emitters * body.spacing_m, []
    for radius in reversed(tube.loop_radii_m):
        inset, last = half_narrow_m(mouth) - radius, radius == tube.loop_radii_m[0]
        whole = mouth.ring_m(inset)
        way = left if last else whole * (1.0 - SEAM_SHARE)
        steps = max(2, math.ceil(POINTS_ROUND * way / whole))
        ways.append([mouth.at(inset, way * i / steps) for i in range(steps + 1)])
        left -= whole
    return ways


def _said(points: list[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
