"""A planted container from the side: the one hand that draws the run, the cover and the weeks."""

from brimful.render.drawings.plants import draw_plant
from brimful.render.drawings.scene import RowSeen
from brimful.render.drawings.svg import Sheet

PAPER = "#FFFFFF"
CLAY_TINT = "#E9D9CC"
PROFILE_STEPS = 12


def outline(row: RowSeen, *, inside: bool = False) -> list[tuple[float, float]]:
    """Right-hand profile from the bottom up: half width and height above the ground [m]."""
    vessel = row.spec.vessel
    shape, lift = (vessel.inside, vessel.outside.depth_m - vessel.inside.depth_m) if inside else (vessel.outside, 0.0)
    steps = 1 if shape.sides is not None or (len(shape.slices) == 1 and shape.slices[0].c2 >= 0) else PROFILE_STEPS
    heights = sorted({shape.depth_m * i / steps for i in range(steps + 1)} | set(shape.breaks_m))
    return [(shape.spans_m(z)[0] / 2, z + lift) for z in heights]


def closed(profile: list[tuple[float, float]], x: float, ground: float, per_m: float) -> list[tuple[float, float]]:
    """A profile and its mirror image as one outline on the page."""
    right = [(x + half * per_m, ground - z * per_m) for half, z in profile]
    return right + [(2 * x - px, py) for px, py in reversed(right)]


def draw_container(sheet: Sheet, row: RowSeen, at: tuple[float, float], *, per_m: float, week: int, month: int) -> None:
    """One planted container standing on the ground at a point: plants behind, the container, what hangs over it."""
    x, ground = at
    mix = ground - (row.spec.vessel.outside.depth_m - row.spec.headspace_m) * per_m
    rim = ground - row.spec.vessel.outside.depth_m * per_m
    behind = sorted(row.plants, key=lambda p: -p.y_m)
    front = [p for p in behind if p.taxon.habit == "trailing" and p.y_m <= 0.05 * row.mouth_radius_m]
    for plant in (p for p in behind if p not in front):
        draw_plant(sheet, plant, (x + plant.x_m * per_m, mix), per_m=per_m, week=week, month=month)
    sheet.polygon(closed(outline(row), x, ground, per_m), fill=CLAY_TINT, stroke_width=0.9, data_kind="container")
    band = min(0.12 * (ground - rim), 5.0)
    half = row.spec.vessel.outside.spans_m(row.spec.vessel.outside.depth_m)[0] / 2 * per_m
    sheet.line((x - half, rim + band), (x + half, rim + band), stroke_width=0.5)
    for plant in front:
        draw_plant(sheet, plant, (x + plant.x_m * per_m, rim), per_m=per_m, week=week, month=month)
