"""The site from above, north up: rows where they stand, what shades them, and their hours of sun."""

import math

from brimful.plan.schema import Shade
from brimful.render.drawings.measures import north_arrow, scale_bar
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.svg import INK, SOFT, WATER, Sheet, text_width
from brimful.render.drawings.vessels import CLAY_TINT

SHADE_TINT = "#DAD6C8"
LEAST_PX = 3.0
HEAD = 30.0
"""Room above the plan for the arrow to the north."""

Place = tuple[float, float]


def has_site(scene: Scene) -> bool:
    """Whether the plan says where every row stands."""
    return all(given.start is not None for given in scene.plan.containers)


def containers_at(scene: Scene, row: RowSeen) -> list[Place]:
    """East and north of each container of a row [m]; a row without a heading runs east."""
    given = scene.plan.containers[row.spec.index]
    east, north = given.start or (0.0, 0.0)
    heading = math.radians(90.0 if given.heading is None else given.heading)
    first = row.spec.stations_m[0]
    return [
        (east + (s - first) * math.sin(heading), north + (s - first) * math.cos(heading)) for s in row.spec.stations_m
    ]


def draw_site(scene: Scene, *, width: float, size: float = 12.0, tallest: float = 420.0) -> str:
    """The plan of the site to scale."""
    sheet = Sheet(width, size)
    everything = [at for row in scene.rows for at in containers_at(scene, row)]
    everything += [at for shade in scene.plan.shade for at in _corners(shade)]
    margin = max(row.width_m for row in scene.rows)
    west, east = min(e for e, _ in everything) - margin, max(e for e, _ in everything) + margin
    south, north = min(n for _, n in everything) - margin, max(n for _, n in everything) + margin
    side = 3 * size
    per_m = min((width - 2 * side) / (east - west), tallest / (north - south))
    left, top = (width - per_m * (east - west)) / 2, HEAD + 1.6 * size

    def on(at: Place) -> Place:
        return left + (at[0] - west) * per_m, top + (north - at[1]) * per_m

    for number, shade in enumerate(scene.plan.shade, 1):
        before = len(sheet.parts)
        _shade(sheet, shade, [on(at) for at in _corners(shade)], per_m)
        sheet.group(before, data_shade=number, data_name=shade.kind)
    hours = {one.row: one.season_hours for one in scene.season.sun} if scene.season else {}
    for row in scene.rows:
        before = len(sheet.parts)
        _row(sheet, row, [on(at) for at in containers_at(scene, row)], per_m, hours.get(row.spec.name))
        sheet.group(before, data_row=row.spec.index + 1, data_name=row.spec.name)
    bottom = top + (north - south) * per_m + 2.2 * size
    north_arrow(sheet, width - 16, HEAD)
    sheet.text(width - 28, HEAD - 4, "north is up", anchor="end", fill=SOFT)
    scale_bar(sheet, 4, bottom, per_m=per_m, system=scene.system)
    return sheet.done(bottom + 0.6 * size, "The site from above", per_m=per_m)


def _corners(shade: Shade) -> list[Place]:
    if shade.at is not None and shade.kind == "tree":
        half = (shade.width or 0.0) / 2
        return [(shade.at[0] - half, shade.at[1] - half), (shade.at[0] + half, shade.at[1] + half)]
    if shade.corners:
        return list(shade.corners)
    return [at for at in (shade.start, shade.end) if at is not None]


def _shade(sheet: Sheet, shade: Shade, points: list[Place], per_m: float) -> None:
    """A crown as a scalloped round, a building filled, a wall or hedge as a bold line; its kind in words."""
    x, y = sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)
    if shade.kind == "tree":
        radius = (shade.width or 0.0) / 2 * per_m
        sheet.polygon(_crown(x, y, radius), fill=SHADE_TINT, stroke_width=0.8, data_kind="tree")
    elif shade.corners:
        sheet.polygon(points, fill=SHADE_TINT, stroke_width=1.0, data_kind=shade.kind)
    else:
        dash = "7 3" if shade.kind in ("hedge", "fence") else None
        sheet.line(points[0], points[-1], stroke_width=3.0, stroke_dasharray=dash, data_kind=shade.kind)
    sheet.halo(x, y + 0.35 * sheet.size, shade.kind, anchor="middle")


def _crown(x: float, y: float, radius: float) -> list[Place]:
    turns = [2 * math.pi * i / 72 for i in range(72)]
    outs = [radius * (0.96 + 0.04 * math.cos(12 * turn)) for turn in turns]
    return [(x + out * math.cos(turn), y + out * math.sin(turn)) for turn, out in zip(turns, outs, strict=True)]


def _row(sheet: Sheet, row: RowSeen, points: list[Place], per_m: float, hours: float | None) -> None:
    side = max(2 * LEAST_PX, row.width_m * per_m)
    sheet.line(points[0], points[-1], stroke=WATER, stroke_width=0.9)
    for name, (x, y) in zip(row.spec.ids, points, strict=True):
        known = {
            "fill": CLAY_TINT,
            "stroke": INK,
            "stroke_width": 0.8,
            "data_kind": "container",
            "data_container": name,
        }
        if row.spec.vessel.outside.sides is None:
            sheet.circle(x, y, side / 2, **known)
        else:
            sheet.add("rect", x=x - side / 2, y=y - side / 2, width=side, height=side, **known)
    for i in {0, len(points) - 1}:
        x, y = points[i]
        if abs(points[0][0] - points[-1][0]) >= abs(points[0][1] - points[-1][1]):
            sheet.halo(x, y - side / 2 - 3, str(i + 1), anchor="middle")
        else:
            sheet.halo(x - side / 2 - 4, y + 0.35 * sheet.size, str(i + 1), anchor="end")
    words = row.spec.name if hours is None else f"{row.spec.name}, {hours:.1f} h sun"
    x, y = max(points)
    beside = x + side / 2 + 5 + text_width(words, sheet.size) < sheet.width
    if beside:
        sheet.halo(x + side / 2 + 5, y + 0.35 * sheet.size, words)
    else:
        sheet.halo(sheet.width - 2, y + side / 2 + 1.3 * sheet.size, words, anchor="end", room=0.6 * sheet.width)
