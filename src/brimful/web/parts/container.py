"""One container by itself: where the code on its label leads."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.render.drawings.every import container_stem
from brimful.web.chosen import chosen_of, is_container, peak_of, shares_of
from brimful.web.dated import mark
from brimful.web.leaf import Asked, Leaf, Mark
from brimful.web.pages import row as row_page
from brimful.web.pages.notes import noted_named, noting
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, frame, html
from brimful.web.words import flow, surplus, volume


def container(request: Request) -> Response:
    """What it is, its water, its plants from above, how it is built."""
    sight, name = bench_of(request).sight(), request.path_params["name"]
    scene = sight.scene
    if scene is None or not is_container(scene, name):
        raise HTTPException(404)
    asked = Asked(name)
    chosen = chosen_of(scene, asked)
    (number, row), zone = chosen.rows[0], chosen.zones[0][1]
    share = next((one for one in shares_of(zone, peak_of(zone)) if one.water.container == name), None)
    said = [f"{name}: {row.worked.container}, one of {row.spec.count} in {row.spec.name}."]
    if share is not None:
        said.append(
            f"It gets {flow(share.water.flow_l_h, scene.system)} while the water runs; on the hottest days "
            f"{volume(share.gets_l_day, scene.system)}, {surplus(share.share)}."
        )
    cards = scene.care.build.cards if scene.care is not None and scene.care.build is not None else ()
    inside = {
        "name": name, "row": row, "zone": zone, "stem": container_stem(number, row.spec.name), "share": share,
        "card": next((card for card in cards if name in card.containers), None), "day_mark": mark(sight),
        **noting(scene, name), "noted": noted_named(sight, request.query_params.get("noted")),
    }  # fmt: skip
    leaf = Leaf(tuple(said), {name: Mark("this", "good")}, inside)
    return html(request, "container.html", frame(row_page.PAGE, sight, asked, leaf))


PARTS = (Part("container/{name:path}", container),)
