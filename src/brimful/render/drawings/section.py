"""One container cut through the middle: wall, mix, headspace, root balls, the feeder up through the drain hole."""

from itertools import pairwise

from brimful.design.care.ground import BEYOND_M, BRICK_M
from brimful.domains.takeoff.pads import BASE_FOOT_M, BEDDING_M
from brimful.quantities import System
from brimful.render.drawings.measures import across, length, scale_bar, scattered, upright
from brimful.render.drawings.scene import PlantSeen, RowSeen, Scene
from brimful.render.drawings.svg import INK, MEDIUM, SOFT, WATER, Sheet, number
from brimful.render.drawings.vessels import CLAY_TINT, PAPER, closed, outline

MIX_TINT = "#F1EADB"
HATCH_STEP = 5.0
MIX_DOTS = 420
BRICK_STEP = 12.0
PLANE_SHARE = 0.45
"""Plants that stand within this share of the mouth's radius of the cut are shown in it."""


def draw_section(scene: Scene, row: RowSeen, *, width: float, size: float = 12.0, tallest: float = 250.0) -> str:
    """The cut from left to right through the middle, with its measures."""
    sheet = Sheet(width, size)
    side = 7.4 * size
    per_m = (width - 2 * side) / row.width_m
    height_m = row.spec.vessel.outside.depth_m
    per_m = min(per_m, tallest / height_m)
    x, ground = width / 2, 2.6 * size + height_m * per_m
    _ground(sheet, scene, row, (x, ground), per_m)
    _shell(sheet, row, (x, ground), per_m)
    _mix(sheet, row, (x, ground), per_m)
    _tube(sheet, row, (x, ground), per_m)
    _balls(sheet, row, (x, ground), per_m)
    return _measures(sheet, scene, row, (x, ground), per_m)


def _levels(row: RowSeen, ground: float, per_m: float) -> tuple[float, float, float]:
    """On the page: the rim, the top of the mix, the floor it lies on."""
    vessel = row.spec.vessel
    rim = ground - vessel.outside.depth_m * per_m
    floor = ground - (vessel.outside.depth_m - vessel.inside.depth_m + vessel.floor_m) * per_m
    return rim, rim + row.spec.headspace_m * per_m, floor


def _shell(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """Wall and base, cut: hatched between outside and inside."""
    x, ground = at
    sheet.polygon(closed(outline(row), x, ground, per_m), fill=CLAY_TINT, stroke_width=MEDIUM, data_kind="outside")
    rim = ground - row.spec.vessel.outside.depth_m * per_m
    y = rim + 2
    floor = ground - (row.spec.vessel.outside.depth_m - row.spec.vessel.inside.depth_m) * per_m
    while y < floor:
        half = _half(outline(row), (ground - y) / per_m) * per_m
        inner = _half(outline(row, inside=True), (ground - y) / per_m) * per_m
        for side in (-1, 1):
            sheet.line((x + side * half, y), (x + side * inner, y + 2.5), stroke_width=0.4)
        y += HATCH_STEP
    foot = _half(outline(row), 0.0) * per_m
    for i in range(int(2 * foot / HATCH_STEP)):
        left = x - foot + i * HATCH_STEP
        sheet.line((left, ground), (min(left + 3, x + foot), floor), stroke_width=0.4)
    sheet.polygon(closed(outline(row, inside=True), x, ground, per_m), fill=PAPER, data_kind="inside")


def _half(profile: list[tuple[float, float]], height_m: float) -> float:
    """Half the width of a profile at a height; nothing below its bottom."""
    if height_m < profile[0][1]:
        return 0.0
    for (a, low), (b, high) in pairwise(profile):
        if height_m <= high:
            return a + (b - a) * (height_m - low) / (high - low)
    return profile[-1][0]


def _mix(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """The mix, stippled; what lies under a false bottom stays open and says so."""
    x, ground = at
    _, top, floor = _levels(row, ground, per_m)
    inner = outline(row, inside=True)
    heights = [top + (floor - top) * i / 10 for i in range(11)]
    halves = [_half(inner, (ground - y) / per_m + 1e-9) * per_m for y in heights]
    sheet.polygon(
        [(x + h, y) for h, y in zip(halves, heights, strict=True)]
        + [(x - h, y) for h, y in reversed(list(zip(halves, heights, strict=True)))],
        fill=MIX_TINT,
        data_kind="mix",
    )
    widest = max(halves)
    for u, v in scattered(MIX_DOTS):
        px, py = x + (2 * u - 1) * widest, top + v * (floor - top)
        if abs(px - x) < _half(inner, (ground - py) / per_m) * per_m - 1.5:
            sheet.circle(px, py, 0.45, fill=SOFT, stroke="none", stroke_width=None)
    if row.spec.vessel.floor_m > 0:
        sheet.line((x - halves[-1], floor), (x + halves[-1], floor), stroke_width=MEDIUM, stroke_dasharray="5 3")
        sheet.halo(x, floor + 1.2 * sheet.size, "reservoir", anchor="middle")


def _balls(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """Root balls of the plants nearest to the cut, where they do not hide one another."""
    x, ground = at
    _, top, floor = _levels(row, ground, per_m)
    shown: list[PlantSeen] = []
    room_m = _half(outline(row, inside=True), row.spec.vessel.outside.depth_m - row.spec.headspace_m)
    for plant in sorted(row.plants, key=lambda p: abs(p.y_m)):
        near = abs(plant.y_m) <= PLANE_SHARE * row.mouth_radius_m
        near = near and abs(plant.x_m) + plant.ball_width_m / 2 <= room_m
        if near and all(abs(plant.x_m - p.x_m) >= (plant.ball_width_m + p.ball_width_m) / 2 for p in shown):
            shown.append(plant)
    for plant in shown:
        wide = plant.ball_width_m * per_m
        deep = min(plant.ball_depth_m * per_m, floor - top)
        px = x + plant.x_m * per_m
        corners = (
            (px - wide / 2, top),
            (px + wide / 2, top),
            (px + 0.38 * wide, top + deep),
            (px - 0.38 * wide, top + deep),
        )
        sheet.polygon(corners, fill=plant.leaf, stroke_width=0.8, data_kind="ball")
        sheet.halo(px, top + deep / 2 + 0.35 * sheet.size, plant.letter, anchor="middle")


def _tube(sheet: Sheet, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """The feeder in under the base and up through the hole; over the mix the loops cut as rings, or the emitters."""
    x, ground = at
    top = _levels(row, ground, per_m)[1] - 3
    left = x - _half(outline(row), 0.0) * per_m - 2.0 * sheet.size
    spots = [x + out_m * per_m for out_m in _over_the_mix_m(row)]
    way = f"M{number(left)} {number(ground + 3)}H{number(x)}V{number(top)}"
    reach = "".join(f"M{number(x)} {number(top)}H{number(end)}" for end in _ends(row, spots, x))
    sheet.path(way + reach, stroke="#FFFFFF", stroke_width=4)
    sheet.path(way + reach, stroke=WATER, stroke_width=MEDIUM, data_kind="feeder")
    sheet.text(left, ground + 6 + 1.1 * sheet.size, "feeder", anchor="end", fill=WATER)
    single = row.worked.tube is None
    for spot in spots:
        kind, radius = ("emitter", 3.4) if single else ("loop", 2.6)
        sheet.circle(spot, top, radius, fill=PAPER, stroke=WATER, stroke_width=1.1, data_kind=kind)


def _over_the_mix_m(row: RowSeen) -> list[float]:
    """How far to the right of the middle water lies over the mix: both sides of each loop, or the single emitters."""
    tube, single = row.worked.tube, row.worked.emitters
    if tube is not None:
        return [side * radius for radius in tube.loop_radii_m for side in (-1, 1)]
    return list(dict.fromkeys(round(x_m, 3) for x_m in single.emitters_x_m)) if single is not None else []


def _ends(row: RowSeen, spots: list[float], x: float) -> list[float]:
    """Where the feeder leads over the mix: out to the outer loop, or both ways to the farthest emitters."""
    if row.worked.tube is not None:
        return [max(spots)]
    return [min([x, *spots]), max([x, *spots])]


def _ground(sheet: Sheet, scene: Scene, row: RowSeen, at: tuple[float, float], per_m: float) -> None:
    """The ground; where the plan has pads, brick on bedding on base, each as thick as the plan says."""
    x, ground = at
    below = ground + 6
    half = _half(outline(row), 0.0) * per_m
    if scene.plan.pads is None:
        reach = half + 4 * sheet.size
        sheet.line((x - reach, below), (x + reach, below), stroke_width=1.2)
        return
    for name, depth_m, fill in pad_layers(scene):
        deep, wide = (
            depth_m * per_m,
            half + (BEYOND_M if scene.plan.pads.beyond is None else scene.plan.pads.beyond) * per_m,
        )
        box = {"x": x - wide, "y": below, "width": 2 * wide, "height": deep}
        sheet.add("rect", **box, fill=fill, stroke=INK, stroke_width=0.7, data_kind=name)
        if name == "brick":
            for i in range(1, int(2 * wide / BRICK_STEP)):
                sheet.line(
                    (x - wide + i * BRICK_STEP, below), (x - wide + i * BRICK_STEP, below + deep), stroke_width=0.4
                )
        elif name == "base":
            for u, v in scattered(40, 3):
                sheet.circle(x - wide + 2 * wide * u, below + 1 + (deep - 2) * v, 1.0, stroke_width=0.4)
        below += deep
    layers = ", ".join(f"{name} {length(depth_m, scene.system)}" for name, depth_m, _ in pad_layers(scene))
    sheet.text(x, below + 1.1 * sheet.size, f"pad: {layers}", anchor="middle", fill=SOFT)


def pad_layers(scene: Scene) -> tuple[tuple[str, float, str], ...]:
    """The layers of a pad from the top down, each with its thickness [m] as the pads are reckoned, and its tint."""
    pads = scene.plan.pads
    if pads is None:
        return ()
    brick_m = (pads.brick or BRICK_M)[2]
    return (
        ("brick", brick_m, CLAY_TINT),
        ("bedding", pads.bedding or BEDDING_M, MIX_TINT),
        ("base", pads.base or BASE_FOOT_M, PAPER),
    )


def _measures(sheet: Sheet, scene: Scene, row: RowSeen, at: tuple[float, float], per_m: float) -> str:
    x, ground = at
    system: System = scene.system
    rim, top, floor = _levels(row, ground, per_m)
    profile = outline(row)
    half = profile[-1][0] * per_m
    widest = max(h for h, _ in profile) * per_m
    across(sheet, x - half, x + half, 1.2 * sheet.size, length(2 * profile[-1][0], system))
    upright(sheet, x - widest - 14, rim, ground, length(row.spec.vessel.outside.depth_m, system), left=True)
    upright(sheet, x + widest + 12, top, floor, length(row.worked.fill_depth_m, system))
    sheet.text(x + widest + 18, (top + floor) / 2 - 0.85 * sheet.size, "mix", fill=SOFT)
    sheet.text(x + widest + 18, rim + 0.1 * sheet.size, f"{length(row.spec.headspace_m, system)} free", fill=SOFT)
    foot = profile[0][0] * per_m
    under = sum(depth_m for _, depth_m, _ in pad_layers(scene)) * per_m
    y = ground + 4.4 * sheet.size + (under + 1.6 * sheet.size if under else 0.0)
    across(sheet, x - foot, x + foot, y - 1.6 * sheet.size, length(2 * profile[0][0], system))
    scale_bar(sheet, 4, y, per_m=per_m, system=system, most=0.25 * sheet.width)
    sheet.text(sheet.width - 4, y + 1, "cut through the middle", anchor="end", fill=SOFT)
    return sheet.done(y + 0.5 * sheet.size, f"One container of {row.spec.name}, cut through", per_m=per_m)
