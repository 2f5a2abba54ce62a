"""Row: how things stand, what to do next, and the run as it grows."""

from brimful.design.growing import WEEKS
from brimful.findings import Finding, Severity
from brimful.render.drawings.every import run_name
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.site import has_site
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, chosen_of
from brimful.web.clock import today
from brimful.web.dated import Dated, day_of, mark
from brimful.web.due import next_task, now_words, today_words
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.pages.doubts import found_about
from brimful.web.parts.catalogue import offered
from brimful.web.words import planted, zones_answer

MOST_TOLD = 5


def look(sight: Sight, asked: Asked) -> Leaf:
    """Today's sentences, what is to mind, the run in elevation by weeks, and what can be carried away."""
    scene = sight.scene
    assert scene is not None
    grave = [f for f in sight.findings if f.severity is not Severity.NOTE]
    chosen = chosen_of(scene, asked)
    said = _said_of_one(chosen) if chosen.one else _said(scene, chosen, grave, day_of(sight))
    marks = {name: _mark(sight, row, i) for row in scene.rows for i, name in enumerate(row.spec.ids, 1)}
    told = "Numbered from the water's end" + ("; mind those so marked" if any(m.tone for m in marks.values()) else "")
    week = min(WEEKS, key=lambda one: abs(one - asked.week))
    return Leaf(tuple(said), marks, {
        "chosen": chosen, "grave": grave[:MOST_TOLD], "graver": max(0, len(grave) - MOST_TOLD), "weeks": WEEKS,
        "week": week, "run": run_name(week), "planted": planted, "site": has_site(scene), "offered": offered(sight),
        "day_mark": mark(sight),
    }, told)  # fmt: skip


def _mark(sight: Sight, row: RowSeen, number: int) -> Mark:
    """The number of a container, with a word where something is to mind."""
    found = found_about(sight, row, row.spec.ids[number - 1])
    grave = any(f.severity is not Severity.NOTE for f in found)
    return Mark(f"{number}\nmind", "mind") if grave else Mark(str(number))


def _said(scene: Scene, chosen: Chosen, grave: list[Finding], dated: Dated | None) -> list[str]:
    said = today_words(dated)
    if said:
        return [*said, _state(len(grave))]
    day = today()
    said = [*now_words(scene, day, chosen.zone_names), *zones_answer([zone for _, zone in scene.zones])]
    coming = next_task(scene, day)
    return [*said[:3], *([coming] if coming else []), _state(len(grave))]


def _said_of_one(chosen: Chosen) -> list[str]:
    row = chosen.rows[0][1]
    plants = planted(row)
    return [
        f"{chosen.one} is one of {row.spec.count} in {row.spec.name}: {row.worked.container}, filled with "
        f"{row.worked.mix}.",
        f"In it stand {plants}." if plants else "Nothing is planted in it yet.",
    ]


def _state(grave: int) -> str:
    if not grave:
        return "Nothing stands in the way."
    return f"{'One thing wants' if grave == 1 else f'{grave} things want'} your eye."


PAGE = Page("", "Row", "row.html", look)
