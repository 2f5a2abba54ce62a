"""A zone as it is piped: from the tap through every device, down the main, along each lateral to scale."""

import math
from itertools import pairwise

from brimful.design.model import ContainerWater, ZoneWorked
from brimful.design.settle import ZoneSpec
from brimful.domains.hydraulics.zone import Lateral
from brimful.quantities import Dimension, show, unit_of
from brimful.render.drawings.devices import draw_devices
from brimful.render.drawings.measures import length, scale_bar
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.svg import BOLD, MEDIUM, SOFT, WATER, Sheet, text_width
from brimful.render.drawings.vessels import CLAY_TINT
from brimful.render.numbers import alike

Built = tuple[ZoneSpec, Lateral]
Zoned = tuple[ZoneSpec, ZoneWorked]
Water = tuple[ContainerWater, str]
LANE = 8.0
"""Height that a lateral takes, in sizes of letters."""
MAIN_X = 16.0
BORES_M = ((0.010, 0.9), (0.018, MEDIUM), (0.023, 2.0))
"""Tube is drawn thin to a bore of 10 mm, medium to 18 and 23 mm, bold above."""


def width_of_bore(bore_m: float) -> float:
    """Width of line for a tube."""
    return next((wide for most, wide in BORES_M if bore_m <= most), BOLD)


def parts_of(spec: ZoneSpec, size: float, tallest: float) -> list[list[Lateral]]:
    """The laterals in the order they leave the main, as many together as a page has room for."""
    order = sorted(spec.zone.laterals, key=lambda one: one.at_m)
    most = max(1, int(min(1e3, (tallest - 18 * size) / (LANE * size))))
    return [order[i : i + most] for i in range(0, len(order), most)]


def draw_zone(
    scene: Scene, built: Zoned, *, width: float, size: float = 12.0, laterals: list[Lateral] | None = None
) -> str:
    """The zone, or some of its laterals; containers numbered from the water's end, each with the water it gets."""
    (spec, zone), sheet = built, Sheet(width, size)
    own = parts_of(spec, size, math.inf)[0] if laterals is None else laterals
    top = y = draw_devices(sheet, scene, zone, MAIN_X)
    longest = max(lateral.stations[-1].distance_m for lateral in spec.zone.laterals)
    per_m = (width - MAIN_X - 1.6 * size) / max(longest, 0.1)
    said = alike([c.flow_l_h for c in zone.containers], Dimension.FLOW, scene.system, small=True)
    waters = {c.container: (c, words) for c, words in zip(zone.containers, said, strict=True)}
    for lateral in own:
        got = [waters[station.container] for station in lateral.stations]
        _lateral(sheet, scene, (spec, lateral), got, (y + 5.8 * size, per_m))
        y += LANE * size
    _main(sheet, scene, spec, top, y - 2.2 * size)
    y += 1.2 * size
    scale_bar(sheet, MAIN_X, y, per_m=per_m, system=scene.system)
    sheet.text(width - 2, y + 1, "laterals to scale", anchor="end", fill=SOFT, room=width - 190)
    return sheet.done(y + 8, f"Zone {zone.name}: tubes, flows and pressures", per_m=per_m)


def _main(sheet: Sheet, scene: Scene, spec: ZoneSpec, top: float, end: float) -> None:
    """The main down the left edge, and what it is."""
    bore = width_of_bore(spec.zone.main.tube.inner_diameter_m)
    sheet.line((MAIN_X, top), (MAIN_X, end), stroke=WATER, stroke_width=bore)
    words = f"main: {spec.main}, {length(spec.main_length_m, scene.system)}"
    sheet.halo(MAIN_X + 8, top + 1.1 * sheet.size, words, room=sheet.width - 40, data_kind="main")


def _lateral(sheet: Sheet, scene: Scene, built: Built, waters: list[Water], at: tuple[float, float]) -> None:
    """One lateral: its line and plug, its words, its containers with the water each gets."""
    (spec, lateral), (y, per_m) = built, at
    size, system = sheet.size, scene.system
    end = MAIN_X + lateral.stations[-1].distance_m * per_m
    bore = width_of_bore(lateral.tube.inner_diameter_m)
    sheet.line((MAIN_X, y), (end, y), stroke=WATER, stroke_width=bore, data_kind="lateral")
    sheet.line((end + 2, y - 4), (end + 2, y + 4), stroke=WATER, stroke_width=BOLD, data_kind="plug")
    flow = show(sum(w.flow_l_h for w, _ in waters), Dimension.FLOW, system)
    words = f"{spec.lateral}, {length(lateral.stations[-1].distance_m, system)}"
    top = y - 2.35 * size
    sheet.text(MAIN_X + 8, top - 1.2 * size, lateral.name, font_weight="bold", room=sheet.width - 40)
    sheet.text(MAIN_X + 8, top, words, fill=SOFT, room=sheet.width - 40)
    _stations(sheet, scene, lateral, waters, at)
    first, last = (show(w.head_m, Dimension.PRESSURE, system) for w, _ in (waters[0], waters[-1]))
    unit = unit_of(Dimension.FLOW, system, small=True)
    words = f"{flow}, each in {unit}; {first} to {last}"
    sheet.text(MAIN_X + 8, y + 2.3 * size, words, fill=SOFT, room=sheet.width - 40)


def _stations(sheet: Sheet, scene: Scene, lateral: Lateral, waters: list[Water], at: tuple[float, float]) -> None:
    (y, per_m), size = at, sheet.size
    row = next(row for row in scene.rows if row.spec.name == lateral.name)
    half = max(3.0, min(row.width_m * per_m, 0.8 * size) / 2)
    said = [words for _, words in waters]
    step = _every(lateral, per_m, max(text_width(s, size) for s in said) + 4)
    for i, (station, words) in enumerate(zip(lateral.stations, said, strict=True)):
        x, top = MAIN_X + station.distance_m * per_m, y - half - 2
        sheet.line((x, y), (x, top), stroke=WATER, stroke_width=0.9)
        named = {"data_kind": "station", "data_container": station.container}
        sheet.circle(x, top, half, fill=CLAY_TINT, stroke_width=0.8, **named)
        if i % step == 0:
            sheet.text(x, y - 2 * half - 5, str(i + 1), anchor="middle")
            sheet.text(x, y + 1.15 * size, words, anchor="middle", fill=WATER)


def _every(lateral: Lateral, per_m: float, room: float) -> int:
    along = [s.distance_m * per_m for s in lateral.stations]
    gaps = [b - a for a, b in pairwise(along)]
    pitch = max(min(gaps, default=room), 0.01)
    return next((step for step in (1, 2, 5, 10, 20, 50, 100) if step * pitch >= room), 200)
