"""Each kind of container once, large, as it stands in high summer: the picture under the run on the cover."""

from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import SOFT, Sheet, folded
from brimful.render.drawings.vessels import draw_container

WEEK = 12
MOST = 3
MOST_LINES = 3


def kinds_of(scene: Scene) -> list[RowSeen]:
    """The first row of each kind of container and planting."""
    found: dict[object, RowSeen] = {}
    for row in scene.rows:
        found.setdefault((row.worked.container, row.worked.plants), row)
    return list(found.values())


def draw_kinds(scene: Scene, *, width: float, size: float = 12.0, tallest: float = 200.0) -> str:
    """Up to three kinds side by side, to one scale, each letter beside its plant's name."""
    sheet = Sheet(width, size)
    kinds = kinds_of(scene)[:MOST]
    pitch = width / len(kinds)
    reach = max(max([row.width_m / 2, *(abs(p.x_m) + p.stands[WEEK].radius_m for p in row.plants)]) for row in kinds)
    high = max(row.height_m(WEEK) for row in kinds)
    per_m = min(0.96 * pitch / (2 * reach), tallest / high)
    ground, deepest = high * per_m + 2, 1
    for i, row in enumerate(kinds):
        x = (i + 0.5) * pitch
        draw_container(sheet, row, (x, ground), per_m=per_m, week=WEEK, month=scene.month_of_week(WEEK))
        sheet.text(x, ground + 1.4 * size, row.spec.name, anchor="middle", font_weight="bold", room=pitch - 4)
        named = ", ".join(dict.fromkeys(plant.taxon.common_name for plant in row.plants))
        lines = folded(named, pitch - 8, size)[:MOST_LINES]
        for down, words in enumerate(lines):
            sheet.text(x, ground + (2.7 + 1.2 * down) * size, words, anchor="middle", fill=SOFT, room=pitch - 8)
        deepest = max(deepest, len(lines))
    sheet.line((0, ground), (width, ground), stroke_width=1.0)
    return sheet.done(ground + (2.0 + 1.2 * deepest) * size, f"Each kind of container, week {WEEK}", per_m=per_m)
