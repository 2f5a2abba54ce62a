"""Plants: how they grow, where each stands, what blooms when, what to order, how much work they are."""

from functools import partial

from brimful.catalog import Plant
from brimful.design.growing import WEEKS
from brimful.design.planting.model import RowPlanting, SwapWorked
from brimful.records import record
from brimful.render.drawings.every import container_stem
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.words import MONTHS
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, chosen_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.shown import charts_of
from brimful.web.words import joined, month_name

MOST_PAIRS = 8


@record
class Kind:
    """Rows planted alike: the first of them as drawn, its planting, letters, and hours of sun where they are known."""

    rows: tuple[str, ...]
    containers_count: int
    row: RowSeen
    stem: str
    planting: RowPlanting | None
    letters: tuple[tuple[str, Plant, int, str], ...]
    sun_h: float | None


def look(sight: Sight, asked: Asked) -> Leaf:
    """Sentences, each container at the week asked for, then each planting by itself."""
    scene = sight.scene
    assert scene is not None
    chosen = chosen_of(scene, asked)
    week = min(WEEKS, key=lambda one: abs(one - asked.week))
    marks = {name: _mark(scene, row, week) for row in scene.rows for name in row.spec.ids}
    kinds = tuple(_kinds(scene, chosen))
    inside = {
        "chosen": chosen, "kinds": kinds, "week": week, "weeks": WEEKS, "charts": charts_of(sight), "months": MONTHS,
        "planting": scene.planting, "most_pairs": MOST_PAIRS, "upkeep": partial(upkeep, scene), "light": light_words,
        "taxa": {taxon.key: taxon.common_name for taxon in scene.letters.values()},
    }  # fmt: skip
    told = f"Height of the tallest plant, {'on planting day' if week == 0 else f'{week} weeks after planting'}"
    return Leaf(tuple(_said(scene, chosen, kinds, week)), marks, inside, told)


def _mark(scene: Scene, row: RowSeen, week: int) -> Mark:
    """Height of the tallest plant at the week."""
    if not row.plants:
        return Mark("bare", "mind")
    tallest = max(plant.stands[week].height_m for plant in row.plants)
    return Mark(f"{100 * tallest:.0f} cm" if scene.design.units == "metric" else f"{tallest / 0.0254:.0f} in")


def _kinds(scene: Scene, chosen: Chosen) -> list[Kind]:
    groups: dict[object, list[tuple[int, RowSeen]]] = {}
    for number, row in chosen.rows:
        if row.plants:
            groups.setdefault((row.worked.container, row.worked.plants, row.worked.places), []).append((number, row))
    return [_kind(scene, rows) for rows in groups.values()]


def _kind(scene: Scene, rows: list[tuple[int, RowSeen]]) -> Kind:
    number, row = rows[0]
    mine = scene.planting.rows if scene.planting is not None else ()
    sun = scene.season.sun if scene.season is not None else ()
    letters = {plant.taxon.key: plant.letter for plant in row.plants}
    return Kind(
        tuple(one.spec.name for _, one in rows),
        sum(one.spec.count for _, one in rows),
        row,
        container_stem(number, row.spec.name),
        next((one for one in mine if one.row == row.spec.name), None),
        tuple((letters[one.plant.key], one.plant, one.count, one.root_ball.name) for one in row.spec.plants),
        next((one.season_hours for one in sun if one.row == row.spec.name), None),
    )


def _said(scene: Scene, chosen: Chosen, kinds: tuple[Kind, ...], week: int) -> list[str]:
    if not kinds:
        return ["Nothing is planted yet."]
    said = [_cover_said(kind, chosen, week) for kind in kinds[:2] if kind.planting is not None]
    blooming = _blooming(scene, kinds, week)
    month = month_name(scene.month_of_week(week))
    said.append(f"In {month} {joined(blooming)} bloom." if blooming else f"Nothing blooms in {month}.")
    swaps = _swaps(scene, chosen)
    if swaps:
        said.append(f"{swaps[0].why[:1].upper()}{swaps[0].why[1:]}.".replace("..", "."))
    return said


def _cover_said(kind: Kind, chosen: Chosen, week: int) -> str:
    assert kind.planting is not None
    cover = min(kind.planting.cover, key=lambda one: abs(one.week - week), default=None)
    where = chosen.one or joined(kind.rows, 3)
    when = "On planting day" if week == 0 else f"{week} weeks after planting"
    return f"{when} leaves cover {100 * cover.cover_share:.0f} % of the mix in {where}." if cover else ""


def _blooming(scene: Scene, kinds: tuple[Kind, ...], week: int) -> list[str]:
    month = scene.month_of_week(week)
    plants = {plant.taxon.key: plant for kind in kinds for plant in kind.row.plants}
    return [plant.taxon.common_name for plant in plants.values() if plant.blooms(month)]


def _swaps(scene: Scene, chosen: Chosen) -> list[SwapWorked]:
    """Swaps that the light asks for."""
    found = scene.planting.swaps if scene.planting is not None else ()
    return [one for one in found if (chosen.one in one.containers if chosen.one else True)]


def light_words(plant: Plant, sun_h: float | None) -> str:
    """Whether the sun at the row suits a plant.

    Nothing is said where the hours are not known.
    """
    if sun_h is None:
        return ""
    if sun_h < plant.direct_sun_hours_min:
        return "too little"
    return "too much" if sun_h > plant.direct_sun_hours_max else "suits it"


def upkeep(scene: Scene, kind: Kind) -> tuple[float, float]:
    """Hours a week on average and at most, for the rows planted alike."""
    rows = [one for one in scene.planting.rows if one.row in kind.rows] if scene.planting is not None else []
    weeks: dict[str, float] = {}
    for row in rows:
        for one in row.upkeep:
            weeks[one.week] = weeks.get(one.week, 0.0) + one.visit_h + one.deadhead_h + one.trim_h
    return (sum(weeks.values()) / len(weeks), max(weeks.values())) if weeks else (0.0, 0.0)


PAGE = Page("plants", "Plants", "plants.html", look)
