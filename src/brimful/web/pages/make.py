"""Make: what to buy, how to cut, set out, carry and build."""

from brimful.design.care.model import CardWorked, Care, HandlingWorked, OrderItem
from brimful.quantities import Dimension, System, show
from brimful.records import record
from brimful.render.care import shop, work
from brimful.render.drawings.every import container_stem
from brimful.render.drawings.scene import Scene
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, chosen_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.shown import charts_of
from brimful.web.words import joined

LB_SQ_FT_KPA = 0.04788025898


@record
class Group:
    """Lines of the order of one kind."""

    title: str
    items: tuple[OrderItem, ...]


def look(sight: Sight, asked: Asked) -> Leaf:
    """Sentences, the weight of each container, the order, the cuts, the set-out, and the build step by step."""
    scene = sight.scene
    assert scene is not None
    chosen, care = chosen_of(scene, asked), scene.care
    hands = {one.row: one for one in care.handling} if care is not None else {}
    marks = {
        name: _mark(row.worked.weight_saturated_kg, hands.get(row.spec.name), scene.system)
        for row in scene.rows
        for name in row.spec.ids
    }
    inside = {
        "chosen": chosen, "care": care, "charts": charts_of(sight), "buy": buy, "cut_words": shop.cut_words,
        "groups": _groups(care), "cards": _cards(care, chosen), "load": load, "clock": clock,
        "stems": _stems(chosen),
        "handling": [one for one in hands.values() if one.row in chosen.row_names],
        "set_out": [one for one in care.set_out if one.row in chosen.row_names] if care is not None else [],
    }  # fmt: skip
    return Leaf(tuple(_said(scene, chosen)), marks, inside, "Weight planted and full of water")


def _stems(chosen: Chosen) -> list[tuple[str, str]]:
    """Rows whose containers are built alike, and the file of the first of them."""
    alike: dict[object, list[tuple[int, str]]] = {}
    for number, row in chosen.rows:
        key = (row.worked.container, row.worked.plants, row.worked.tube, row.worked.fill_volume_l)
        alike.setdefault(key, []).append((number, row.spec.name))
    return [(joined([name for _, name in rows]), container_stem(*rows[0])) for rows in alike.values()]


def _mark(weight_kg: float, hands: HandlingWorked | None, system: System) -> Mark:
    words = show(round(weight_kg), Dimension.MASS, system)
    if system is System.US:
        words = f"{weight_kg / 0.45359237:.0f} lb"
    return Mark(f"{words}\ntips", "bad") if hands is not None and not hands.stands else Mark(words)


def _said(scene: Scene, chosen: Chosen) -> list[str]:
    care, row = scene.care, chosen.rows[0][1]
    if chosen.one:
        empty, full = (
            show(kg, Dimension.MASS, scene.system)
            for kg in (row.worked.weight_empty_kg, row.worked.weight_saturated_kg)
        )
        said = [f"{chosen.one} weighs {empty} empty and {full} planted and full of water."]
        return said + [one.lift_words for one in (care.handling if care else ()) if one.row == row.spec.name]
    if care is None:
        return [f"{len(scene.design.materials)} kinds of things to have before the day."]
    builds = work.answer(care, scene.system).partition(" The season then takes")[0]
    return [words for words in (shop.answer(care, scene.system), builds) if words]


def _groups(care: Care | None) -> list[Group]:
    items = care.order.items if care is not None and care.order is not None else ()
    names = dict.fromkeys(item.group for item in items)
    return [Group(f"{n[:1].upper()}{n[1:]}", tuple(item for item in items if item.group == n)) for n in names]


def _cards(care: Care | None, chosen: Chosen) -> list[CardWorked]:
    cards = care.build.cards if care is not None and care.build is not None else ()
    return [card for card in cards if not chosen.one or chosen.one in card.containers]


def buy(item: OrderItem) -> bool:
    """Whether the line is bought by the piece."""
    return item.unit == "each" and item.pack_amount == 1


def load(hands: HandlingWorked, *, metric: bool) -> str:
    """The load on what is under a container."""
    return f"{hands.load_kg_m2:.0f} kg/m²" if metric else f"{hands.load_kpa / LB_SQ_FT_KPA:.0f} lb/sq ft"


def clock(minutes: float) -> str:
    """Minutes of the working day as hours and minutes from its start.

    >>> clock(95.4)
    '1:35'
    """
    return f"{int(minutes + 0.5) // 60}:{int(minutes + 0.5) % 60:02d}"


PAGE = Page("make", "Make", "make.html", look)
