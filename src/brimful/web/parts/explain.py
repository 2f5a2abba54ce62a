"""How a figure came about: the formula in words, what went in, from where; and the list of all figures."""

import re
from collections.abc import Iterator

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.design.ledger import Working
from brimful.render.explain import sections
from brimful.web.amounts import sentence
from brimful.web.bench import Sight
from brimful.web.figures import figure_words, in_us, measured, told, value_of, with_unit, without_unit
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
    "planting": "Plants",
    "orders": "Plants",
}


def index(request: Request) -> Response:
    """All figures by what they are about."""
    sight = _sound(request)
    groups: dict[str, list[tuple[str, str, str]]] = {}
    for path, working in sight.workings.items():
        top = GROUPS.get(path.partition("/")[0], "More")
        groups.setdefault(top, []).append((path, figure_words(path), measured(path, working.value)))
    leaf = Leaf((f"{len(sight.workings)} figures, each with its formula, what went in, and the source.",))
    return html(request, "figures.html", {**frame(doubts.PAGE, sight, Asked(), leaf), "groups": groups})


def explain(request: Request) -> Response:
    """One figure."""
    sight, path = _sound(request), request.path_params["figure"]
    working = sight.workings.get(path)
    if working is None:
        raise HTTPException(404)
    said = sections(working.words)
    value = value_of(path, working.value)
    assert sight.scene is not None
    comes_to = measured(path, working.value) + in_us(path, value, sight.scene.system)
    leaf = Leaf((f"{sentence(figure_words(path))}: {comes_to}.",), _marks(sight, path))
    inside = {
        "path": path,
        "said": said,
        "inputs": list(_inputs(working, said.get("Args", ""))),
        "whole": told(working.value) if value is not working.value else "",
        "source": said.get("Source") or "arithmetic",
    }
    return html(request, "figure.html", {**frame(doubts.PAGE, sight, Asked(), leaf), **inside})


def _inputs(working: Working, args: str) -> Iterator[tuple[str, str, str]]:
    """Name and value of each input, and what the function says of it."""
    names = list(working.inputs)
    pieces = re.split(rf"\b({'|'.join(map(re.escape, names))}): ", args) if names else []
    words = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    for name, given in working.inputs.items():
        value, meant = with_unit(name, told(given)), words.get(name, "").strip()
        if value or meant:
            yield without_unit(name), value, meant


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
