"""Plants to choose from: colours as swatches, habit, and light; those that suit the row's sun first."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from brimful.catalog import Plant
from brimful.plan.positions import Path
from brimful.plan.typed import dotted, path_of, value_at
from brimful.records import record
from brimful.web.bench import Sight
from brimful.web.editing import drawer_of
from brimful.web.guard import form_of
from brimful.web.leaf import Leaf
from brimful.web.parts.edit import PAGE, acted
from brimful.web.parts.entries import plant_step
from brimful.web.parts.part import Part
from brimful.web.sheet import data_of, section_of, swatches
from brimful.web.show import asked_of, bench_of, frame, html

HABITS = ("upright", "mounding", "trailing", "rosette", "climbing")
MOST_COUNT = 200


@record
class Offer:
    """A plant that may be chosen: its swatches, and whether the sun of the row suits it (None where nobody knows)."""

    plant: Plant
    colours: tuple[tuple[str, str], ...]
    suits: bool | None


def pick(request: Request) -> Response:
    """The plants, searched by name and habit."""
    bench = bench_of(request)
    bench.be_edited()
    sight, (draft, _) = bench.sight(), drawer_of(request, bench.path).now()
    data = data_of(draft.text) or {}
    path = _planting(request.query_params.get("at", ""), data)
    name = request.query_params.get("name", "")[:60]
    habit = request.query_params.get("habit", "")
    catalog = _catalog(sight)
    hours = sun_hours(sight, data, path)
    offers = [_offer(catalog, plant, hours) for plant in catalog.plants.values() if _fits(plant, name, habit)]
    offers.sort(key=lambda one: (one.suits is False, one.plant.common_name.casefold()))
    replaced = value_at(data, path) if isinstance(path[-1], int) else None
    inside = {
        "offers": offers, "at": dotted(path), "digest": draft.digest, "name": name, "habit": habit, "habits": HABITS,
        "hours": hours, "section": dotted(section_of(data, path) or ()), "replaced": replaced,
    }  # fmt: skip
    said = f"{len(offers)} plants" + (
        f"; those that suit {hours:.1f} hours of sun stand first." if hours is not None else "."
    )
    return html(request, "pick.html", frame(PAGE, sight, asked_of(request, sight), Leaf((said,), {}, inside)))


def picked(request: Request) -> Response:
    """Put a plant into the planting."""
    bench, form = bench_of(request), form_of(request)
    drawer, digest = drawer_of(request, bench.path), str(form.get("digest", ""))
    count, plant = str(form.get("count", "")).strip() or "1", str(form.get("plant", ""))
    if plant not in _catalog(bench.sight()).plants or not (
        count.isascii() and count.isdigit() and 0 < int(count[:4]) <= MOST_COUNT
    ):
        raise HTTPException(400)
    section: list[str] = []

    def act() -> None:
        data = data_of(drawer.seen(digest).text) or {}
        path = _planting(str(form.get("at", "")), data)
        section.append(dotted(section_of(data, path) or ()))
        what = f"{plant} added" if not isinstance(path[-1], int) else f"{plant} in place of another"
        drawer.do(digest, [plant_step(data, path, int(count), plant)], what)

    answer = acted(request, bench, "", act)
    if answer.status_code == 303 and section:
        return RedirectResponse(f"/p/{quote(bench.name)}/edit?at={quote(section[0])}#open", 303)
    return answer


def _planting(at: str, data: Mapping[str, Any]) -> Path:
    """The list of plants, or the plant to replace, that an address names."""
    path = path_of(at, data)
    known = len(path) in (3, 4) and path[0] in ("containers", "recipe") and path[2] == "plants"
    if not known or value_at(data, path[:2]) is None or (len(path) == 4 and value_at(data, path) is None):
        raise HTTPException(404)
    return path


def _catalog(sight: Sight) -> Any:
    from brimful.catalog import load

    return sight.opened.catalog if sight.opened is not None else load(sight.path.parent)


def sun_hours(sight: Sight, data: Mapping[str, Any], path: Path) -> float | None:
    """Hours of sun of the row planted so, the darkest of several; None where nobody knows yet."""
    scene = sight.scene
    if scene is None or scene.season is None:
        return None
    hours = {one.row: one.season_hours for one in scene.season.sun}
    rows = data.get("containers") or ()
    if path[0] == "containers":
        names = {str(value_at(data, (*path[:2], "name")))}
    else:
        names = {str(row.get("name")) for row in rows if isinstance(row, Mapping) and row.get("recipe") == path[1]}
    return min((hours[name] for name in names if name in hours), default=None)


def _fits(plant: Plant, name: str, habit: str) -> bool:
    words = f"{plant.key} {plant.common_name} {plant.botanical_name}".lower()
    return all(part in words for part in name.lower().split()) and habit in ("", plant.habit)


def _offer(catalog: Any, plant: Plant, hours: float | None) -> Offer:
    colours = swatches(catalog, (*plant.flower_colours, *plant.foliage_colour)[:8])
    suits = None if hours is None else plant.direct_sun_hours_min <= hours <= plant.direct_sun_hours_max
    return Offer(plant, colours, suits)


PARTS = (Part("pick", pick), Part("pick/add", picked, ("POST",)))
