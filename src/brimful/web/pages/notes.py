"""Notes: what the crew saw and did, what that makes believed, and what it taught so far."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from brimful.errors import BrimfulError
from brimful.plan.names import zone_words
from brimful.quantities import System
from brimful.records import record
from brimful.render.drawings.scene import Scene
from brimful.web.bench import Sight
from brimful.web.clock import today
from brimful.web.dated import Dated, day_of, mark, report_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.log import entries, noted

if TYPE_CHECKING:
    from brimful.design.today.model import BelievedWorked, LookWorked
    from brimful.journal import Entry

PAGE_OF = 50
TONES = ("mind", "good", "")
"""How dry, moist and wet stand in the row."""
MEASURED = {
    System.US: ("weight 61 lb", "caught 10 fl oz in 5 min"),
    System.METRIC: ("weight 28 kg", "caught 300 mL in 5 min"),
}


@record
class Written:
    """An entry as the page lists it; `again` is what a person would write to say the same."""

    id: str
    when: str
    place: str
    what: str
    words: str
    by: str
    again: str


def look(sight: Sight, asked: Asked) -> Leaf:
    """What was noted last and what wants a look; then the form, what is believed, the entries, the season so far."""
    scene = sight.scene
    assert scene is not None
    try:
        every, broken = entries(sight.path), ""
    except BrimfulError as error:
        every, broken = (), str(error)
    dated, here = day_of(sight), _of(scene, every, asked.container)
    worked = dated.today if dated is not None else None
    looks = worked.look if worked is not None else ()
    at = _page_at(asked, len(here))
    inside = {
        **noting(scene, asked.container), "broken": broken, "dated": dated, "at": at, "count": len(here),
        "pages_count": max(1, -(-len(here) // PAGE_OF)), "day_mark": mark(sight),
        "entries": [written(scene, one) for one in here[::-1][(at - 1) * PAGE_OF : at * PAGE_OF]],
        "noted": noted_named(sight, asked.more.get("noted")), "correct": noted_named(sight, asked.more.get("correct")),
        "looks": [list(_look_words(one)) for one in looks if asked.container in ("", one.container)],
        "believed": _believed_words(worked.believed if worked else (), asked.container),
        "chapters": _chapters(report_of(sight)),
        "feel_next": worked.feel_next if worked is not None and not asked.container else "",
    }  # fmt: skip
    return Leaf(tuple(_said(scene, here, looks, asked.container)), _marks(scene, every, looks), inside,
                "Last felt, and how long ago")  # fmt: skip


def noting(scene: Scene, container: str) -> dict[str, object]:
    """What the forms need."""
    from brimful.journal import new_id

    metric = scene.design.units == "metric"
    return {
        "container": container, "places": places(scene), "new_id": new_id, "examples": examples(scene.system),
        "volumes": ("mL", "L") if metric else ("fl oz", "mL", "gal"),
        "masses": ("kg", "lb") if metric else ("lb", "kg"),
        "zone_place": zone_words(zone) if (zone := _zone_of(scene, container)) else "",
    }  # fmt: skip


def places(scene: Scene) -> list[str]:
    """The names of all places of a plan: the whole first, then zones, rows, containers."""
    rows = [row.spec.name for row in scene.rows]
    containers = [name for row in scene.rows for name in row.spec.ids]
    return [
        "",
        *(zone_words(zone.name) for _, zone in scene.zones),
        *(r for r in rows if r not in containers),
        *containers,
    ]


def examples(system: System) -> tuple[str, ...]:
    """What can be noted, as the plan measures."""
    return ("dry", *MEASURED[system], "ran 12 min", "problem drips at the stake", "the mulch has sunk")


def _zone_of(scene: Scene, container: str) -> str:
    return next((row.worked.zone for row in scene.rows if container in row.spec.ids), "")


def written(scene: Scene, entry: "Entry") -> Written:
    """An entry as a person reads it."""
    from brimful.journal import told

    what = told(entry.kind, entry.value, entry.during_s, scene.system)
    again = entry.words if entry.kind == "note" else f"{what} {entry.words}".strip()
    place = entry.place or "all"
    return Written(entry.id, when_words(entry.made_at), place, what, entry.words, entry.by, again)


def when_words(made_at: datetime) -> str:
    """When it was, by the clock of this place."""
    local = made_at.astimezone()
    day = local.date()
    if day == today():
        return f"today {local:%H:%M}"
    year = "" if day.year == today().year else f" {day.year}"
    return f"{day.day} {local:%b}{year} {local:%H:%M}"


def ago(made_at: datetime) -> str:
    """How long ago, in whole days."""
    days = (today() - made_at.astimezone().date()).days
    return "today" if days == 0 else f"{days} d" if days > 0 else "to come"


def _of(scene: Scene, every: "Sequence[Entry]", container: str) -> "Sequence[Entry]":
    """Entries of a container, and of the row, zone and whole it belongs to; all where none is chosen."""
    if not container:
        return every
    row = next(row for row in scene.rows if container in row.spec.ids)
    names = {container, row.spec.name, zone_words(row.worked.zone), ""}
    return [one for one in every if one.place in names]


def noted_named(sight: Sight, id_: str | None) -> Written | None:
    """The entry of an id as the page tells it, where it stands."""
    found = noted(sight.path, id_) if id_ else None
    return written(sight.scene, found) if found is not None and sight.scene is not None else None


def _page_at(asked: Asked, count: int) -> int:
    given = asked.more.get("page", "1")
    last = max(1, -(-count // PAGE_OF))
    return min(max(1, int(given)), last) if given.isascii() and given.isdigit() and len(given) < 6 else 1


def felt(every: "Sequence[Entry]") -> "dict[str, Entry]":
    """The last finger test of each container."""
    return {one.place: one for one in every if one.kind == "finger" and one.value in (0.0, 1.0, 2.0)}


def _marks(scene: Scene, every: "Sequence[Entry]", looks: "Sequence[LookWorked]") -> dict[str, Mark]:
    """How each was felt last. Where one has two lines all have, so that they stand on one ground."""
    suspected, last = {one.container for one in looks}, felt(every)
    below = "\n\u00a0" if suspected or last else ""
    return {
        name: _mark(last.get(name), look=name in suspected) or Mark(f"{number}{below}")
        for row in scene.rows
        for number, name in enumerate(row.spec.ids, 1)
    }


def _mark(last: "Entry | None", *, look: bool) -> Mark | None:
    from brimful.journal import KINDS

    if last is None or last.value is None:
        return Mark("look\n\u00a0", "bad") if look else None
    word = KINDS["finger"].choices[int(last.value)]
    return Mark(f"look\n{word}", "bad") if look else Mark(f"{word}\n{ago(last.made_at)}", TONES[int(last.value)])


def _said(scene: Scene, here: "Sequence[Entry]", looks: "Sequence[LookWorked]", container: str) -> Iterator[str]:
    if here:
        last = written(scene, here[-1])
        by, place = f", by {last.by}" if last.by else "", here[-1].place or "the whole place"
        words = f" “{last.words}”" if last.words else ""
        yield f"Noted last, {last.when}{by}: {place}, {last.what}{words}."
    else:
        what = f"of {container}" if container else "yet"
        yield f"Nothing is noted {what}. Touch a container, then say how it feels: dry, moist or wet."
    mine = [one for one in looks if container in ("", one.container)]
    if mine:
        others = f" {len(mine) - 1} more want{'s' if len(mine) == 2 else ''} a look." if len(mine) > 1 else ""
        yield f"Look at {mine[0].container or 'the whole place'} first.{others}"


def _look_words(one: "LookWorked") -> Iterator[str]:
    from brimful.render.today import look_words

    yield from look_words(one)


def _believed_words(believed: "Sequence[BelievedWorked]", container: str) -> list[str]:
    """What is believed of a container, and how sure that is."""
    one = next((one for one in believed if one.container == container), None)
    if one is None:
        return []
    store, low, high = (100 * share for share in (one.store_share, one.store_low_share, one.store_high_share))
    demand, supply = (
        f"{100 * lowest:.0f} to {100 * highest:.0f} %"
        for lowest, highest in (
            (one.demand_low_factor, one.demand_high_factor),
            (one.supply_low_factor, one.supply_high_factor),
        )
    )
    read = "Nobody has read it yet." if one.unread_days is None else f"Last read {_days_ago(one.unread_days)}."
    risk = f"The chance that it runs short today: {100 * one.stress_chance_share:.0f} %."
    return [
        f"It holds about {store:.0f} % of the water it can (nine times in ten between {low:.0f} and {high:.0f} %).",
        f"It draws {demand} of what was planned, and gets {supply} of its water.",
        f"{risk} {read}",
    ]


def _days_ago(days: int) -> str:
    return "today" if days == 0 else "yesterday" if days == 1 else f"{days} days ago"


def _chapters(dated: Dated | None) -> list[tuple[str, list[str]]] | None:
    """The season so far; None while it is worked out."""
    from brimful.render.report import chapters

    if dated is None:
        return None
    return list(chapters(dated.report)) if dated.report is not None else []


PAGE = Page("notes", "Notes", "notes.html", look)
