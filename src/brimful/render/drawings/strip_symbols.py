"""The row as the way round the pages: one symbol for each kind of container, set down once for each that stands."""

from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import FONTS, Sheet, element, number
from brimful.render.drawings.vessels import draw_container

WIDEST = 64.0
"""Width on the page of the widest container [px]."""
TALLEST = 120.0
MARGIN = 1.25
"""Room beside a container for what hangs over its rim, as a share of its width."""


def scale_px_m(scene: Scene, weeks: tuple[int, ...]) -> float:
    """Pixels a metre: one scale for all rows and weeks, so that proportions are true from row to row."""
    widest = max(row.width_m for row in scene.rows)
    tallest = max(row.height_m(week) for row in scene.rows for week in weeks)
    return min(WIDEST / widest, TALLEST / tallest)


def symbol(scene: Scene, row: RowSeen, name: str, *, week: int, per_m: float) -> str:
    """One container of a row as an SVG symbol with its foot at the middle of the lower edge."""
    width, height = box(row, week, per_m)
    sheet = Sheet(width)
    draw_container(sheet, row, (width / 2, height), per_m=per_m, week=week, month=scene.month_of_week(week))
    shape = {"id": name, "viewBox": f"0 0 {number(width)} {number(height)}", "overflow": "visible"}
    return element("symbol", {**shape, "font_family": FONTS}, *sheet.parts)


def box(row: RowSeen, week: int, per_m: float) -> tuple[float, float]:
    """Width and height that a container takes on the page [px]."""
    spread = max((abs(p.x_m) + p.stands[week].radius_m for p in row.plants), default=0.0)
    return max(row.width_m * MARGIN, 2 * spread) * per_m, row.height_m(week) * per_m + 2
