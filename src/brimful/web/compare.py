"""Two plans side by side: their sentences, their rows, the figures and the lines in which they differ."""

from collections.abc import Iterator

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from brimful.findings import Severity
from brimful.quantities import Dimension, show
from brimful.records import record
from brimful.render.care.page import money
from brimful.render.drawings.scene import Scene
from brimful.services.editing import compared, open_draft
from brimful.web.bench import Bench, Sight
from brimful.web.differing import differing
from brimful.web.leaf import Asked, Mark
from brimful.web.pages import PAGES
from brimful.web.show import html
from brimful.web.strip import Strip, strip_of
from brimful.web.words import starts, zones_answer


@record
class Side:
    """One of two plans: its name, what a person would say of it, its run and their letter, and what is under way."""

    name: str
    title: str
    said: tuple[str, ...]
    strip: Strip | None
    mark: str
    doing: str


@record
class Figure:
    """A figure of both plans; `telling` where it differs."""

    name: str
    one: str
    other: str

    @property
    def telling(self) -> bool:
        """Whether the plans differ in it."""
        return self.one != self.other


def compare(request: Request) -> Response:
    """Two plans; with one named, the others to choose from."""
    benches = request.app.state.benches
    names = [request.query_params.get(key, "") for key in ("a", "b")]
    if any(name and name not in benches for name in names) or not names[0]:
        raise HTTPException(404)
    others = [name for name in sorted(benches) if name != names[0]]
    if not names[1]:
        return html(request, "compare.html", {"names": names, "others": others, "sides": []})
    pair: list[Bench] = [benches[name] for name in names]
    sights = [bench.sight() for bench in pair]
    texts = [open_draft(bench.path).text for bench in pair]
    inside = {
        "names": names, "others": others, "page": PAGES[0],
        "sides": [_side(sight, mark) for sight, mark in zip(sights, "ab", strict=True)],
        "figures": [one for one in figures(*sights) if one.telling], "lines": differing(compared(*texts)),
    }  # fmt: skip
    return html(request, "compare.html", inside)


def _side(sight: Sight, mark: str) -> Side:
    scene = sight.scene
    if scene is None:
        return Side(sight.name, sight.name, ("It cannot be worked out yet.",), None, mark, "")
    marks = {name: Mark(str(i)) for row in scene.rows for i, name in enumerate(row.spec.ids, 1)}
    said = tuple(zones_answer([zone for _, zone in scene.zones]))
    return Side(sight.name, scene.design.title, said, strip_of(sight, Asked(), marks), mark, sight.doing)


def figures(one: Sight, other: Sight) -> Iterator[Figure]:
    """Every figure that either plan has, in the order of the first."""
    first, second = (dict(_figures(sight)) for sight in (one, other))
    for name in dict.fromkeys([*first, *second]):
        yield Figure(name, first.get(name, "–"), second.get(name, "–"))


def _figures(sight: Sight) -> Iterator[tuple[str, str]]:
    scene = sight.scene
    grave = sum(one.severity is not Severity.NOTE for one in sight.findings)
    yield "things to mind", str(grave)
    if scene is None:
        return
    yield "containers", str(sum(row.spec.count for row in scene.rows))
    yield "plants", str(sum(row.spec.count * plant.count for row in scene.rows for plant in row.worked.plants))
    yield from _water(scene)
    yield from _weights(scene)
    yield from _season(scene)
    yield from _care(scene)


def _water(scene: Scene) -> Iterator[tuple[str, str]]:
    for _, zone in scene.zones:
        peak = next((time for time in zone.run_times if time.occasion == "peak"), None)
        yield f"{zone.name}: on the hottest days", starts(peak) if peak is not None else "no water arrives"
        yield f"{zone.name}: flow", show(zone.flow_l_h, Dimension.FLOW, scene.system)
        yield f"{zone.name}: evenness, EU", f"{zone.emission_uniformity_percent:.0f} %"
        yield f"{zone.name}: pressure at the last", show(zone.least_head_m, Dimension.PRESSURE, scene.system)


def _weights(scene: Scene) -> Iterator[tuple[str, str]]:
    for row in scene.rows:
        full = show(row.worked.weight_saturated_kg, Dimension.MASS, scene.system)
        yield f"{row.spec.name}: one container, full of water", full


def _season(scene: Scene) -> Iterator[tuple[str, str]]:
    for zone in scene.season.zones if scene.season is not None else ():
        for way in zone.ways:
            litres = show(way.zone_l, Dimension.VOLUME, scene.system)
            yield f"{zone.zone}: water in a season, {way.way}", litres


def _care(scene: Scene) -> Iterator[tuple[str, str]]:
    care = scene.care
    if care is not None and care.order is not None:
        yield "cost, as far as prices are known", money(care.order.cost_money, care.order.currency)
    if care is not None and care.build is not None:
        yield "hours of work to build", f"{care.build.person_hours:.1f} h"
    if care is not None and care.season is not None:
        yield "hours of work in the season", f"{care.season.total_hours:.0f} h"


ROUTES = (Route("/compare", compare, name="compare"),)
