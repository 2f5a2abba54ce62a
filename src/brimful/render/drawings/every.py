"""Every drawing of a scene by the name of its file."""

import re
from collections.abc import Callable, Iterator
from functools import partial

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


def every_drawing(scene: Scene, *, width: float = WIDTH, size: float = SIZE) -> Iterator[tuple[str, str]]:
    """Name and SVG of each drawing, in the order of a book; drawings of one container are at most half as wide."""
    for name, draw in drawings_of(scene, width=width, size=size):
        yield name, draw()


def drawings_of(scene: Scene, *, width: float = WIDTH, size: float = SIZE) -> Iterator[tuple[str, Callable[[], str]]]:
    """Name of each drawing and how it is drawn, for those who want but one."""
    half = min(width, CONTAINER_WIDTH)
    for week in WEEKS:
        yield run_name(week), partial(draw_elevation, scene, width=width, size=size, week=week, tallest=2000)
    if has_site(scene):
        yield "site.svg", partial(draw_site, scene, width=width, size=size, tallest=WIDTH)
    for i, (spec, zone) in enumerate(scene.zones, 1):
        yield zone_name(i, zone.name), partial(draw_zone, scene, (spec, zone), width=width, size=size)
    for i, row in enumerate(scene.rows, 1):
        stem = container_stem(i, row.spec.name)
        yield f"{stem}-above.svg", partial(draw_above, scene, row, width=half, size=size)
        yield f"{stem}-section.svg", partial(draw_section, scene, row, width=half, size=size)
        if row.plants:
            yield f"{stem}-weeks.svg", partial(draw_weeks, scene, row, width=width, size=size)
        yield f"{stem}-above-week-08.svg", partial(draw_above, scene, row, width=half, size=size, week=8)


def run_name(week: int) -> str:
    """File of the run in elevation."""
    return f"run-week-{week:02d}.svg"


def zone_name(number: int, zone: str) -> str:
    """File of a zone as it is piped."""
    return f"zone-{number}-{plain(zone)}.svg"


def container_stem(number: int, row: str) -> str:
    """What the files of a row's container begin with."""
    return f"container-{number}-{plain(row)}"


def plain(words: str) -> str:
    """A name as part of a file's name, whatever stands in it.

    >>> plain("../Water side <1>"), plain("花")
    ('water-side-1', 'x')
    """
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")[:40].strip("-") or "x"
