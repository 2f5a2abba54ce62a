"""Drawings and charts of a plan as SVG files, by the names that `draw` gives them."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.web.parts.part import Part
from brimful.web.show import bench_of
from brimful.web.shown import drawn


def drawing(request: Request) -> Response:
    """One drawing or chart, for the desk or, asked `?for=narrow`, for the phone."""
    sight = bench_of(request).sight()
    svg = drawn(sight, request.path_params["name"], request.query_params.get("for", ""))
    if svg is None:
        raise HTTPException(404)
    return Response(svg, media_type="image/svg+xml")


PARTS = (Part("drawing/{name}", drawing),)
