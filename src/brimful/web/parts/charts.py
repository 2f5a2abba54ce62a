"""One chart by itself, live: its values under the pointer, its series to choose from, and all of it as a table."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.render.charts.vega import config
from brimful.web.engine import engine_address
from brimful.web.leaf import Asked, Leaf, Page
from brimful.web.live import live, tables
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, frame, html
from brimful.web.shown import DARK

LENS = {"bloom": "plants", "cost": "make", "crew": "make", "nitrogen": "keep"}
"""Where a chart stands, by how its name begins; the others tell of water."""
LETTERS_PX, ROOM_PX = 14.0, 700.0


def chart(request: Request) -> Response:
    """The page of one chart; the picture stands there until it is drawn, and where there is no script."""
    from brimful.render.charts.every import every_chart

    sight, name = bench_of(request).sight(), request.path_params["name"]
    found = dict(every_chart(sight.scene)).get(name) if sight.scene is not None else None
    if found is None:
        raise HTTPException(404)
    said = found["title"]
    inside = {
        "name": name, "said": said["text"], "under": said["subtitle"], "tables": list(tables(found)),
        "engine": engine_address(), "strip": None,
        "drawing": {"spec": live(found), "config": config(LETTERS_PX, ROOM_PX), "dark": DARK},
    }  # fmt: skip
    return html(request, "chart.html", frame(_lens(name), sight, Asked(), Leaf((), {}, inside)))


def _lens(name: str) -> Page:
    from brimful.web.pages import PAGES

    key = LENS.get(name.partition("-")[0], "water")
    return next(page for page in PAGES if page.key == key)


PARTS = (Part("chart/{name}", chart),)
