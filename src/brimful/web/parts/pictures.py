"""Drawings and charts of a plan as SVG files, by the names that `draw` gives them."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.web.parts.part import Part
from brimful.web.show import bench_of


def drawing(request: Request) -> Response:
    """One drawing."""
    from brimful.render.drawings.every import every_drawing

    scene = bench_of(request).sight().scene
    wanted = request.path_params["name"]
    found = next((svg for name, svg in every_drawing(scene) if name == wanted), None) if scene is not None else None
    if found is None:
        raise HTTPException(404)
    return Response(found, media_type="image/svg+xml")


PARTS = (Part("drawing/{name}", drawing),)
