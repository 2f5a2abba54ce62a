"""How a figure came about: the formula in words, what went in, from where; and the list of all figures."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.render.explain import sections, shown
from brimful.web.bench import Sight
from brimful.web.figures import figure_words, with_unit
from brimful.web.leaf import Asked, Leaf, Mark
from brimful.web.pages import doubts
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, frame, html

GROUPS = {
    "site": "The place",
    "rows": "Containers",
    "zones": "Water",
    "season": "The season",
    "materials": "Materials",
    "care": "Buy, build and keep",
}


def index(request: Request) -> Response:
    """All figures by what they are about."""
    sight = _sound(request)
    groups: dict[str, list[tuple[str, str, str]]] = {}
    for path, working in sight.workings.items():
        top = GROUPS.get(path.partition("/")[0], "More")
        groups.setdefault(top, []).append((path, figure_words(path), with_unit(path, shown(working.value))))
    leaf = Leaf((f"{len(sight.workings)} figures, each with its formula, what went in, and the source.",))
    return html(request, "figures.html", {**frame(doubts.PAGE, sight, Asked(), leaf), "groups": groups})


def explain(request: Request) -> Response:
    """One figure."""
    sight, path = _sound(request), request.path_params["figure"]
    working = sight.workings.get(path)
    if working is None:
        raise HTTPException(404)
    said = sections(working.words)
    value = with_unit(path, shown(working.value))
    leaf = Leaf((f"{figure_words(path)}: {value}.",), _marks(sight, path))
    inside = {
        "path": path,
        "said": said,
        "inputs": [(name.replace("_", " "), shown(given)) for name, given in working.inputs.items()],
        "source": said.get("Source") or "arithmetic",
    }
    return html(request, "figure.html", {**frame(doubts.PAGE, sight, Asked(), leaf), **inside})


def _sound(request: Request) -> Sight:
    sight = bench_of(request).sight()
    if sight.scene is None:
        raise HTTPException(404)
    return sight


def _marks(sight: Sight, path: str) -> dict[str, Mark]:
    """The containers that the figure is about."""
    assert sight.scene is not None
    parts = {part for piece in path.split("/") for part in (piece, piece.partition(" ")[2])}
    rows = [row for row in sight.scene.rows if {row.spec.name, row.worked.zone} & parts]
    return {name: Mark("here", "good") for row in rows for name in row.spec.ids}


PARTS = (Part("explain", index), Part("explain/{figure:path}", explain))
