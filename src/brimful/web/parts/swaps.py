"""What can stand in for a plant that cannot be had."""

from starlette.requests import Request
from starlette.responses import Response

from brimful.web.leaf import Asked, Leaf, Mark
from brimful.web.pages import plants
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, frame, html

MOST = 8


def swaps(request: Request) -> Response:
    """The stand-ins for one taxon, row by row, best first."""
    from starlette.exceptions import HTTPException

    from brimful.services import swaps_for

    sight, taxon = bench_of(request).sight(), request.path_params["taxon"]
    if sight.opened is None or sight.scene is None:
        raise HTTPException(404)
    found = swaps_for(sight.opened, taxon, sight.scene.season)
    if not found:
        raise HTTPException(404)
    marks = {name: Mark(f"{swap.count} here", "good") for swap in found for name in swap.containers}
    best = next((one for swap in found for one in swap.substitutes), None)
    names = {one.key: one.common_name for one in sight.scene.letters.values()}
    name = names.get(taxon, taxon.replace("-", " "))
    said = (
        f"If {name} cannot be had, the nearest is {best.name}."
        if best is not None
        else f"Nothing in the catalogue can stand in for {name}."
    )
    inside = {"name": name, "swaps": found, "most": MOST}
    return html(request, "swaps.html", frame(plants.PAGE, sight, Asked(), Leaf((said,), marks, inside)))


PARTS = (Part("swap/{taxon}", swaps),)
