"""The run in one short line, for the head of a page: every container in order, plainly."""

from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import INK, LEAF, Sheet, number
from brimful.render.drawings.vessels import CLAY_TINT, closed, outline

WEEK = 8
PITCH = 1.35
CROWN = ((-1.0, 0.0), (-0.8, 0.45), (0.0, 1.0), (0.8, 0.45), (1.0, 0.0))
"""Outline of the plants over the rim: share of half the width, share of the height."""


def draw_strip(scene: Scene, *, width: float, height: float = 26.0) -> str:
    """All containers of all rows in one line, as they stand in summer."""
    sheet = Sheet(width)
    across = sum(row.width_m * PITCH * row.spec.count for row in scene.rows) + 0.6 * len(scene.rows)
    tallest = max(row.height_m(WEEK) for row in scene.rows)
    per_m = min(width / across, height / tallest)
    ground, x = height - 1, 0.0
    for row in scene.rows:
        half = row.width_m * per_m / 2
        one = Sheet(width)
        _one(one, row, 0.0, ground, per_m)
        for _ in range(row.spec.count):
            sheet.add("g", "".join(one.parts), transform=f"translate({number(x + half)} 0)")
            x += 2 * half * PITCH
        x += 0.6 * per_m
    sheet.line((0, ground), (width, ground), stroke=INK, stroke_width=0.7)
    return sheet.done(height, "The run")


def _one(sheet: Sheet, row: RowSeen, x: float, ground: float, per_m: float) -> None:
    rim = ground - row.spec.vessel.outside.depth_m * per_m
    half = row.width_m / 2 * per_m
    top = (row.height_m(WEEK) - row.spec.vessel.outside.depth_m) * per_m
    if row.plants:
        sheet.polygon(
            ((x + side * half, rim - up * top) for side, up in CROWN), fill=LEAF, stroke="none", stroke_width=None
        )
    sheet.polygon(closed(outline(row), x, ground, per_m), fill=CLAY_TINT, stroke_width=0.5)
