"""Plants from the side, each by its habit: upright in blades, mounding as a dome, trailing as a skirt over the rim."""

import math

from brimful.render.drawings.measures import spiral
from brimful.render.drawings.scene import PlantSeen
from brimful.render.drawings.svg import INK, Sheet, number

OUTLINE = 0.5
FOUR_TENTHS = 0.4


def draw_plant(sheet: Sheet, plant: PlantSeen, at: tuple[float, float], *, per_m: float, week: int, month: int) -> None:
    """One plant growing from a point of the mix, so big as it is in that week; nothing where frost has ended it."""
    stand = plant.stands[week]
    if not stand.alive:
        return
    wide, high = max(1.0, stand.radius_m * per_m), max(1.5, stand.height_m * per_m)
    shape = {"trailing": _skirt, "mounding": _dome, "rosette": _dome}.get(plant.taxon.habit, _blades)
    flowers = plant.flower if plant.blooms(month) else None
    shape(sheet, at, (wide, high), leaf=plant.leaf, flower=flowers)


def _blades(sheet: Sheet, at: tuple[float, float], size: tuple[float, float], *, leaf: str, flower: str | None) -> None:
    """Leaves or stems that rise from one point and lean out; flowers along their ends."""
    (x, y), (wide, high) = at, size
    count = 5 if high < 30 else 9
    tips = []
    for i in range(count):
        lean = (i - (count - 1) / 2) / ((count - 1) / 2)
        tip = (x + lean * wide * 0.9, y - high * (1 - 0.28 * lean * lean))
        tips.append(tip)
        half = max(0.8, 0.9 * wide / count)
        bend = (x + lean * wide * 0.3, y - high * 0.55)
        sheet.path(
            f"M{number(x)} {number(y)}Q{number(bend[0] - half)} {number(bend[1])} {number(tip[0])} {number(tip[1])}"
            f"Q{number(bend[0] + half)} {number(bend[1])} {number(x)} {number(y)}Z",
            fill=leaf, stroke=INK, stroke_width=OUTLINE,
        )  # fmt: skip
    for tip in tips if flower else ():
        for part in range(1 if high < 30 else 3):
            down = 1 - 0.11 * part
            here = (x + (tip[0] - x) * down, y + (tip[1] - y) * down)
            sheet.circle(*here, max(0.9, min(3.0, wide * 0.11)), fill=flower, stroke_width=0.3)


def _dome(sheet: Sheet, at: tuple[float, float], size: tuple[float, float], *, leaf: str, flower: str | None) -> None:
    """A rounded mass on the mix, scalloped as leaves make it."""
    (x, y), (wide, high) = at, size
    lobes = 5 if wide < 12 else 9
    points = [(x - wide * 0.75, y)]
    steps = 4 * lobes
    for i in range(steps + 1):
        turn = math.pi * (1 - i / steps)
        out = 1 + 0.07 * abs(math.sin(lobes * turn)) - 0.07
        points.append((x + wide * out * math.cos(turn), y - high * 0.12 - high * 0.88 * out * math.sin(turn)))
    points.append((x + wide * 0.75, y))
    sheet.polygon(points, fill=leaf, stroke_width=OUTLINE, stroke_linejoin="round")
    _flowers(sheet, (x, y - high * 0.55), (wide * 0.82, high * FOUR_TENTHS), flower)


def _skirt(sheet: Sheet, at: tuple[float, float], size: tuple[float, float], *, leaf: str, flower: str | None) -> None:
    """A low mass whose shoots hang below where they root."""
    (x, y), (wide, high) = at, size
    lobes = 4 if wide < 12 else 7
    points = []
    steps = 8 * lobes
    for i in range(steps):
        turn = 2 * math.pi * i / steps
        down = math.sin(turn) > 0
        out = 1 + 0.10 * math.sin(lobes * turn)
        reach = 0.75 * wide + 0.3 * high if down else 0.7 * high
        points.append((x + wide * out * math.cos(turn), y + reach * out * math.sin(turn)))
    sheet.polygon(points, fill=leaf, stroke_width=OUTLINE, stroke_linejoin="round")
    _flowers(sheet, (x, y + 0.1 * wide), (wide * 0.8, 0.5 * wide + 0.2 * high), flower)


def _flowers(sheet: Sheet, at: tuple[float, float], size: tuple[float, float], flower: str | None) -> None:
    if flower is None:
        return
    radius = max(0.8, min(3.0, 0.16 * size[0]))
    count = max(3, min(26, int(size[0] * size[1] / (3.4 * radius * radius))))
    for u, v in spiral(count):
        sheet.circle(at[0] + u * size[0], at[1] + v * size[1], radius, fill=flower, stroke_width=0.3)
