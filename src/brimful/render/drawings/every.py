"""Every drawing of a scene by the name of its file."""

import re
from collections.abc import Iterator

from brimful.design.growing import WEEKS
from brimful.render.drawings.above import draw_above
from brimful.render.drawings.elevation import draw_elevation
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.section import draw_section
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.weeks import draw_weeks
from brimful.render.drawings.zone import draw_zone

WIDTH, SIZE = 960.0, 16.0
"""Width and letters of a drawing for the screen."""
CONTAINER_WIDTH = 480.0


def every_drawing(scene: Scene) -> Iterator[tuple[str, str]]:
    """Name and SVG of each drawing, in the order of a book."""
    for week in WEEKS:
        yield f"run-week-{week:02d}.svg", draw_elevation(scene, width=WIDTH, size=SIZE, week=week, tallest=2000)
    if has_site(scene):
        yield "site.svg", draw_site(scene, width=WIDTH, size=SIZE, tallest=WIDTH)
    for i, (spec, zone) in enumerate(scene.zones, 1):
        yield f"zone-{i}-{plain(zone.name)}.svg", draw_zone(scene, (spec, zone), width=WIDTH, size=SIZE)
    for i, row in enumerate(scene.rows, 1):
        stem = f"container-{i}-{plain(row.spec.name)}"
        yield f"{stem}-above.svg", draw_above(scene, row, width=CONTAINER_WIDTH, size=SIZE)
        yield f"{stem}-section.svg", draw_section(scene, row, width=CONTAINER_WIDTH, size=SIZE)
        if row.plants:
            yield f"{stem}-weeks.svg", draw_weeks(scene, row, width=WIDTH, size=SIZE)
        yield f"{stem}-above-week-08.svg", draw_above(scene, row, width=CONTAINER_WIDTH, size=SIZE, week=8)


def plain(words: str) -> str:
    """A name as part of a file's name, whatever stands in it.

    >>> plain("../Water side <1>"), plain("花")
    ('water-side-1', 'x')
    """
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")[:40].strip("-") or "x"
