"""What stands between tap and main: each device its own plain shape on the pipe, in words below what it is."""

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, show
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.svg import INK, MEDIUM, SOFT, WATER, Sheet, number
from brimful.render.drawings.vessels import PAPER

CELL, TALL, TURN, STEP = 15.0, 4.9, 3.5, 3.2
"""In sizes of letters: least width of a device's place, height of a line, where its pipe turns back, and height of a
device where they stand one below the other."""
MOST_ABREAST = 4


def draw_devices(sheet: Sheet, scene: Scene, zone: ZoneWorked, main_x: float) -> float:
    """The pipe from the tap through every device, turning at the end of each line; gives where the main begins."""
    size = sheet.size
    steps = [("tap", "tap", f"{show(zone.static_head_m, Dimension.PRESSURE, scene.system)} at rest")]
    for step in zone.pressure_budget:
        if step.where in ("main", "lateral"):
            break
        kind = "regulator" if step.where == "regulator" else scene.device_kinds.get(step.where, "pipe")
        steps.append((kind, step.where, f"leaves {show(step.head_left_m, Dimension.PRESSURE, scene.system)}"))
    abreast = max(1, min(MOST_ABREAST, int(sheet.width / (CELL * size))))
    if abreast == 1:
        return _upright(sheet, steps, main_x)
    room, last = sheet.width / abreast, len(steps) - 1
    for i, (kind, name, pressure) in enumerate(steps):
        x, y = room * (i % abreast), TALL * size * (i // abreast) + 1.1 * size
        ends = i == last or (i + 1) % abreast == 0
        right = x + room - (6 if ends else 0)
        sheet.line((x + size if i == 0 else x, y), (right, y), stroke=WATER, stroke_width=MEDIUM)
        if ends:
            below = y + TURN * size
            turn = f"M{number(right)} {number(y)}V{number(below)}H{number(1.0 if i < last else main_x)}"
            sheet.path(
                turn + f"V{number(y + TALL * size)}" + ("H6" if i < last else ""), stroke=WATER, stroke_width=MEDIUM
            )
        draw_device(sheet, kind, x + 1.2 * size, y)
        sheet.text(x + 4, y + 1.75 * size, name, room=room - 14)
        sheet.text(x + 4, y + 2.8 * size, pressure, fill=SOFT, room=room - 14)
    return TALL * size * (last // abreast + 1) + 1.1 * size


def _upright(sheet: Sheet, steps: list[tuple[str, str, str]], main_x: float) -> float:
    """On a narrow page the pipe runs straight down into the main, the words beside it."""
    size, y = sheet.size, 1.1 * sheet.size
    end = y + STEP * size * len(steps)
    sheet.line((main_x, y), (main_x, end), stroke=WATER, stroke_width=MEDIUM)
    for kind, name, pressure in steps:
        since = len(sheet.parts)
        draw_device(sheet, kind, 0.0, 0.0)
        if len(sheet.parts) > since:
            sheet.group(since, transform=f"translate({number(main_x)} {number(y)}) rotate(90)")
        left = main_x + 2 * size
        sheet.text(left, y + 0.1 * size, name, room=sheet.width - left - 4)
        sheet.text(left, y + 1.2 * size, pressure, fill=SOFT, room=sheet.width - left - 4)
        y += STEP * size
    return end


def draw_device(sheet: Sheet, kind: str, x: float, y: float) -> None:
    """One device on the pipe, its middle at a point; a plain pipe has no shape."""
    r = 0.62 * sheet.size
    style = {"fill": PAPER, "stroke": INK, "stroke_width": 1.0, "data_kind": kind}
    if kind in ("tap", "meter"):
        sheet.circle(x, y, r, **style)
        if kind == "tap":
            sheet.line((x, y - r), (x, y - 1.4 * r), stroke_width=1.0)
            sheet.line((x - 0.6 * r, y - 1.4 * r), (x + 0.6 * r, y - 1.4 * r), stroke_width=1.4)
        else:
            sheet.line((x, y), (x + 0.6 * r, y - 0.6 * r), stroke_width=1.0)
    elif kind == "backflow":  # lets water through one way
        sheet.polygon(((x - r, y - r), (x + 0.8 * r, y), (x - r, y + r)), **style)
        sheet.line((x + 0.8 * r, y - r), (x + 0.8 * r, y + r), stroke_width=1.6)
    elif kind == "filter":
        sheet.polygon(((x - 1.3 * r, y), (x, y - 1.3 * r), (x + 1.3 * r, y), (x, y + 1.3 * r)), **style)
        sheet.line((x, y - 1.3 * r), (x, y + 1.3 * r), stroke_width=1.0, stroke_dasharray="2 1.5")
    elif kind in ("valve", "regulator"):
        bow = ((x - 1.3 * r, y - r), (x - 1.3 * r, y + r), (x + 1.3 * r, y - r), (x + 1.3 * r, y + r))
        sheet.polygon(bow, **style)
        if kind == "regulator":
            half = 0.8 * r
            sheet.line((x, y), (x, y - r), stroke_width=1.0)
            dome = f"A{number(half)} {number(half)} 0 0 1 {number(x + half)} {number(y - r)}Z"
            sheet.path(f"M{number(x - half)} {number(y - r)}{dome}", fill=PAPER, stroke_width=1.0)
