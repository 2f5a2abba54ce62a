"""The run in elevation: every row in order from the water's end, containers and plants in proportion."""

import math

from brimful.records import record
from brimful.render.drawings.measures import pitch_words, scale_bar
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import SOFT, WATER, Sheet, number, parts_that_fit, text_width
from brimful.render.drawings.vessels import draw_container

LEAST_CONTAINER = 24.0
"""Narrower than this on the page, gaps are shortened, then rows broken into lines."""
CLOSE = 1.5
SMALLEST = 15.0
"""Room for one container and its gap on the page, at the least."""
"""Pitch of containers over their width where the gaps are shortened."""
EDGE = 6.0
BAR_ROOM = 200.0
"""Room for the scale bar and its words."""


@record
class Spread:
    """How the rows lie on the page: units a metre, containers a line, and whether their gaps are true."""

    per_m: float
    a_line: int
    pitch: float
    true: bool


def draw_elevation(
    scene: Scene, *, width: float, size: float = 12.0, week: int = 8, tallest: float = 330.0, bare: bool = False
) -> str:
    """The run so many weeks after planting; `bare` leaves words and scale away, for the head of a page."""
    sheet = Sheet(width, size)
    spread = spread_of(scene, width - 2 * EDGE, size if not bare else 0.0, tallest)
    y = 0.0
    for row in scene.rows:
        y = _row(sheet, scene, row, y, (spread, week, bare))
    if not bare:
        y += size
        scale_bar(sheet, EDGE, y, per_m=spread.per_m, system=scene.system)
        gaps = "gaps true to scale" if spread.true else "gaps shortened"
        when = "on planting day" if week == 0 else f"{week} weeks after planting"
        said = f"{when}; {gaps}"
        if text_width(said, size) > width - BAR_ROOM:
            y += 1.4 * size
        sheet.text(width - EDGE, y + 1, said, anchor="end", fill=SOFT)
        y += 6
    return sheet.done(
        y, f"The run in elevation, week {week}", per_m=spread.per_m, gaps="true" if spread.true else "short"
    )


def spread_of(scene: Scene, width: float, size: float, tallest: float) -> Spread:
    """Gaps true to scale where the longest row fits so; else short gaps at the largest scale that fits the page."""
    widest = max(row.width_m for row in scene.rows)
    longest = max(
        row.spec.stations_m[-1] - row.spec.stations_m[0] + row.width_m + 2 * hang_m(row) for row in scene.rows
    )
    most = max(row.spec.count for row in scene.rows)
    true = min(width / longest, width / (6 * widest))
    if true * widest >= LEAST_CONTAINER and _height(scene, true, most, size) <= tallest:
        return Spread(true, most, 0.0, true=True)
    for across in range(6, int(width / SMALLEST) + 1):
        per_m = width / (across * CLOSE * widest)
        if _height(scene, per_m, across, size) <= tallest:
            break
    a_line = min(across, most)
    pitch = min(width / a_line, 2 * CLOSE * widest * per_m)
    return Spread(per_m, a_line, pitch, true=False)


def hang_m(row: RowSeen) -> float:
    """How far the plants of a container hang out beside it in any week [m]."""
    reach = max((abs(p.x_m) + stand.radius_m for p in row.plants for stand in p.stands.values()), default=0.0)
    return max(0.0, reach - row.width_m / 2)


def _height(scene: Scene, per_m: float, a_line: int, size: float) -> float:
    lines = ((math.ceil(row.spec.count / a_line), row) for row in scene.rows)
    return sum(n * (_line_height(row, per_m) + 1.3 * size + 4) + 1.6 * size for n, row in lines)


def _line_height(row: RowSeen, per_m: float) -> float:
    return max(row.height_m(week) for week in row.plants[0].stands) * per_m if row.plants else row.height_m(0) * per_m


def _caption(row: RowSeen, size: float, room: float) -> str:
    """A row's name and what stands in it, or on a narrow page how many."""
    whole = parts_that_fit(f"{row.spec.name}: {row.spec.count} × {row.worked.container}", size, room)
    return whole if text_width(whole, 1.06 * size) <= room else f"{row.spec.name}: {row.spec.count}"


def _row(sheet: Sheet, scene: Scene, row: RowSeen, y: float, how: tuple[Spread, int, bool]) -> float:
    spread, _, bare = how
    if not bare:
        y += 1.3 * sheet.size
        words = _caption(row, sheet.size, sheet.width - 2 * EDGE - 10 * sheet.size)
        if row.spec.count > 1:
            apart = row.spec.stations_m[1] - row.spec.stations_m[0]
            sheet.text(sheet.width - EDGE, y, f"{pitch_words(apart, scene.system)} apart", anchor="end", fill=SOFT)
        sheet.text(EDGE, y, words, room=sheet.width - 2 * EDGE - 9 * sheet.size, font_weight="bold")
        y += 0.3 * sheet.size
    for first in range(0, row.spec.count, spread.a_line):
        y += _line_height(row, spread.per_m) + 2
        last = min(first + spread.a_line, row.spec.count)
        _line(sheet, scene, row, (y, first, last), how)
        y += 2 if bare else 1.3 * sheet.size + 2
    return y


def _line(sheet: Sheet, scene: Scene, row: RowSeen, at: tuple[float, int, int], how: tuple[Spread, int, bool]) -> None:
    (ground, first, last), (spread, week, bare) = at, how
    month = scene.month_of_week(week)
    half = row.width_m * spread.per_m / 2
    hang = hang_m(row) * spread.per_m
    if not spread.true:
        hang = min(hang, max(0.0, spread.pitch / 2 - half))
    xs = [EDGE + hang + half + _along(row, i, spread) - _along(row, first, spread) for i in range(first, last)]
    end = xs[-1] + half + hang
    sheet.line((EDGE, ground), (end, ground), stroke_width=1.0)
    numbered = _numbered_every(row, spread, sheet.size)
    one = Sheet(sheet.width, sheet.size)  # drawn once, set down at each place
    draw_container(one, row, (0.0, 0.0), per_m=spread.per_m, week=week, month=month)
    drawn = "".join(one.parts)
    for i, x in zip(range(first, last), xs, strict=True):
        sheet.add("g", drawn, transform=f"translate({number(x)} {number(ground)})", data_kind="stand")
        if not bare and (i == 0 or (i + 1) % numbered == 0):
            sheet.text(x, ground + 1.15 * sheet.size, str(i + 1), anchor="middle", fill=WATER, data_x=x)


def _along(row: RowSeen, index: int, spread: Spread) -> float:
    if spread.true:
        return (row.spec.stations_m[index] - row.spec.stations_m[0]) * spread.per_m
    return index * spread.pitch


def _numbered_every(row: RowSeen, spread: Spread, size: float) -> int:
    """Every container has its number, or every fifth or tenth where there is no room."""
    pitch = min(_along(row, 1, spread), 1e9) if row.spec.count > 1 else 1e9
    digits = len(str(row.spec.count))
    return next((step for step in (1, 5, 10, 50) if step * pitch >= 0.62 * size * digits + 3), 100)
