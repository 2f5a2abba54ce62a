"""One container through the season: side by side at planting and every fourth week, with its height."""

from brimful.design.growing import WEEKS
from brimful.quantities import Dimension, show
from brimful.render.drawings.measures import scale_bar
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import SOFT, Sheet
from brimful.render.drawings.vessels import draw_container

TALLEST = 150.0


def draw_weeks(scene: Scene, row: RowSeen, *, width: float, size: float = 12.0) -> str:
    """The container of a row at each of the weeks, to one scale."""
    sheet = Sheet(width, size)
    pitch = width / len(WEEKS)
    reach = max([row.width_m / 2, *(abs(p.x_m) + p.stands[week].radius_m for p in row.plants for week in WEEKS)])
    tallest = max(row.height_m(week) for week in WEEKS)
    per_m = min((pitch - 8) / (2 * reach), TALLEST / tallest)
    ground = 1.6 * size + tallest * per_m
    sheet.text(2, size, row.spec.name, font_weight="bold", room=width / 2)
    for i, week in enumerate(WEEKS):
        x = (i + 0.5) * pitch
        draw_container(sheet, row, (x, ground), per_m=per_m, week=week, month=scene.month_of_week(week))
        when = "planting" if week == 0 else f"week {week}"
        sheet.text(x, ground + 1.3 * size, when, anchor="middle")
        height = show(row.height_m(week), Dimension.LENGTH, scene.system)
        sheet.text(x, ground + 2.5 * size, height, anchor="middle", fill=SOFT)
    sheet.line((0, ground), (width, ground), stroke_width=1.0)
    scale_bar(sheet, 2, ground + 4 * size, per_m=per_m, system=scene.system, most=pitch)
    sheet.text(width - 2, ground + 4 * size + 1, "height over the ground", anchor="end", fill=SOFT)
    return sheet.done(ground + 4.6 * size, f"One container of {row.spec.name} by weeks", per_m=per_m)
