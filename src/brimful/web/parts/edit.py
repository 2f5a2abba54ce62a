"""The plan as tables to fill in: each field saved by itself, undone in one tap, never over what someone else saved."""

from collections.abc import Mapping, Sequence
from typing import Any
from urllib.parse import quote

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from brimful.errors import NotSaved, PlanChanged
from brimful.findings import Severity
from brimful.plan.positions import Path
from brimful.plan.typed import Change, change_of, dotted, field_of, path_of, read_typed
from brimful.services.editing import compared
from brimful.web.bench import Bench, Sight
from brimful.web.brief import SUGGESTED
from brimful.web.differing import differing
from brimful.web.editing import Drawer, NotDone, drawer_of
from brimful.web.guard import form_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.parts.part import Part
from brimful.web.sheet import MANY, Known, data_of, section_of, sections, sheet_of, told
from brimful.web.show import asked_of, bench_of, frame, html
from brimful.web.words import zones_answer

FIELD = "f:"
MOST_TOLD = 3
SITE_SIZES = ((760.0, 16.0), (340.0, 14.0))
"""Width and size of letters of the site plan on the desk and on the phone [px]."""


def edit(request: Request) -> Response:
    """The sheet, open at the section or field that the address names."""
    bench = bench_of(request)
    bench.be_edited()
    drawer = drawer_of(request, bench.path)
    draft, _ = drawer.now()
    data = data_of(draft.text)
    if data is None:
        return RedirectResponse(f"/p/{quote(bench.name)}/text")
    path = path_of(request.query_params.get("field", ""), data)
    at = _section(request, bench.sight(), data, path)
    return show_sheet(request, bench, at, path)


def _section(request: Request, sight: Sight, data: Mapping[str, Any], path: Path) -> Path:
    wanted = request.query_params.get("at", "")
    if path == ("",):
        path = path_of(wanted, data) if wanted else _row_of(sight, request)
    at = () if path == ("",) else section_of(data, path)
    return at or ()  # a table the plan has not yet, or a file beside it: the sheet at its beginning


def _row_of(sight: Sight, request: Request) -> Path:
    """The row of the container that is chosen."""
    one = asked_of(request, sight).container
    rows = sight.scene.rows if one and sight.scene is not None else ()
    return next((("containers", row.spec.index) for row in rows if one in row.spec.ids), ("",))


def show_sheet(request: Request, bench: Bench, at: Path, asked: Path = (), words: str = "") -> Response:
    """The sheet with one section open."""
    from brimful.catalog import load

    drawer, sight = drawer_of(request, bench.path), bench.sight()
    draft, history = drawer.now()
    data = data_of(draft.text) or {}
    opened = sight.opened
    catalog = opened.catalog if opened is not None else load(bench.path.parent)
    known = Known(data, sight.findings, opened.design.assumptions if opened is not None else (), catalog)
    sheet = sheet_of(known, at, asked)
    inside = {
        "sheet": sheet, "digest": draft.digest, "history": history, "words": words, "many": MANY,
        "stops": [one for one in sight.findings if one.severity is Severity.ERROR],
        "suggestions": _suggestions(catalog, sheet), "site": _site(sight),
        "starting": ".".join(map(str, asked)) if asked else "",
    }  # fmt: skip
    leaf = Leaf(_answer(sight), _marks(sight, at), inside)
    return html(request, "edit.html", frame(PAGE, sight, asked_of(request, sight), leaf))


def _answer(sight: Sight) -> tuple[str, ...]:
    errors = sum(one.severity is Severity.ERROR for one in sight.findings)
    if sight.scene is None or errors:
        return (f"{'One thing stops' if errors == 1 else f'{errors} things stop'} the plan; it stands where it is so.",)
    return tuple(zones_answer([zone for _, zone in sight.scene.zones]))


def _marks(sight: Sight, at: Path) -> dict[str, Mark]:
    """The containers of the open row."""
    rows = sight.scene.rows if sight.scene is not None else ()
    here = {name for row in rows if at == ("containers", row.spec.index) for name in row.spec.ids}
    return {
        name: Mark("here", "good") if name in here else Mark(str(i))
        for row in rows
        for i, name in enumerate(row.spec.ids, 1)
    }


def _site(sight: Sight) -> list[Markup]:
    """The site plan for the desk and for the phone, to drag things on; none where the plan has no places."""
    from brimful.render.drawings.site import draw_site, has_site

    if sight.scene is None or not has_site(sight.scene):
        return []
    return [Markup(draw_site(sight.scene, width=width, size=size)) for width, size in SITE_SIZES]


def _suggestions(catalog: Any, sheet: Any) -> dict[str, list[tuple[str, str]]]:
    """The keys of the catalogue that the open section's fields may take."""
    wanted = {box.suggested for group in sheet.groups for box in (*group.said, *group.silent) if box.suggested}
    wanted |= {"plants"} if sheet.plants is not None else set()
    return {name: [(key, row.name) for key, row in getattr(catalog, name).items()] for name in sorted(wanted)}


def change(request: Request) -> Response:
    """Save the fields that were sent, those that differ from what the page showed."""
    bench, form = bench_of(request), form_of(request)
    drawer, digest = drawer_of(request, bench.path), str(form.get("digest", ""))
    typed = {key.removeprefix(FIELD): str(value) for key, value in form.multi_items() if key.startswith(FIELD)}
    at = str(form.get("at", "")) or next(iter(typed), "")

    def act() -> None:
        data = data_of(drawer.seen(digest).text) or {}
        changes = [one for one in (_change(data, name, words) for name, words in typed.items()) if one is not None]
        steps = [step for one in changes for step in one.steps]
        if steps:
            drawer.do(digest, steps, _told(data, changes))

    return acted(request, bench, at, act)


def _change(data: Mapping[str, Any], name: str, words: str) -> Change | None:
    path = path_of(name, data)
    field = field_of(path)
    if field is None or field.kind == "table":
        raise HTTPException(404)
    return change_of(data, path, words)


def _told(data: Mapping[str, Any], changes: Sequence[Change]) -> str:
    said = [change_words(data, one) for one in changes[:MOST_TOLD]]
    left = len(changes) - MOST_TOLD
    return "; ".join(said) + (f"; {left} more" if left > 0 else "")


def change_words(data: Mapping[str, Any], change: Change) -> str:
    """A change as a person says it: "apart of water side: 8 ft → 6 ft"."""
    field = field_of(change.path)
    assert field is not None
    at = section_of(data, change.path) or ()
    title = next((title for path, title, *_ in sections(data) if path == at), "")
    name = title.partition("“")[2].rstrip("”") or title
    label = (field.label[:1].lower() + field.label[1:]).partition(",")[0]
    inner = change.path[len(at) : -1]
    inside = f" of {' '.join(str(p + 1) if isinstance(p, int) else p for p in inner)}" if inner else ""
    of = f"{inside} of {name}" if at else inside
    return f"{label}{of}: {_short(change.before)} → {_short(change.after)}"


def _short(words: str) -> str:
    return (words if len(words) < 40 else f"{words[:38]}…") or "nothing"


def acted(request: Request, bench: Bench, at: str, act: Any) -> Response:
    """Do something to the plan, then show the sheet; or both versions where someone else was there first."""
    drawer = drawer_of(request, bench.path)
    try:
        act()
    except PlanChanged as changed:
        drawer.keep(changed.theirs)
        return show_conflict(request, bench, str(changed), changed.mine, changed.theirs)
    except NotSaved as error:
        return html(request, "kept.html", {"words": str(error), "mine": error.mine, "name": bench.name}, 409)
    except NotDone as error:
        draft, _ = drawer.now()
        data = data_of(draft.text) or {}
        return show_sheet(request, bench, section_of(data, path_of(at, data)) or (), words=str(error))
    return RedirectResponse(f"/p/{quote(bench.name)}/edit?at={quote(at)}#open", 303)


def show_conflict(request: Request, bench: Bench, words: str, mine: str, theirs: Any) -> Response:
    """Both versions side by side, and what can be done."""
    inside = {
        "words": words, "mine": mine, "digest": theirs.digest, "lines": differing(compared(theirs.text, mine)),
        "page": PAGE, "sight": bench.sight() if theirs.digest else None, "name": bench.name,
        "home": f"/p/{quote(bench.name)}/",
    }  # fmt: skip
    return html(request, "conflict.html", inside, 409)


def undo(request: Request) -> Response:
    """One step back."""
    return _step(request, Drawer.undo)


def redo(request: Request) -> Response:
    """One step forward again."""
    return _step(request, Drawer.redo)


def _step(request: Request, way: Any) -> Response:
    bench, form = bench_of(request), form_of(request)
    drawer = drawer_of(request, bench.path)
    if form.get("from") == "text":
        answer = acted(request, bench, "", lambda: way(drawer, str(form.get("digest", ""))))
        return RedirectResponse(f"/p/{quote(bench.name)}/text", 303) if answer.status_code == 303 else answer
    return acted(request, bench, str(form.get("at", "")), lambda: way(drawer, str(form.get("digest", ""))))


def check(request: Request) -> Response:
    """A value as typed: how it is understood, or what is wrong with it; nothing is saved."""
    bench = bench_of(request)
    draft, _ = drawer_of(request, bench.path).now()
    path = path_of(request.query_params.get("path", ""), data_of(draft.text) or {})
    field = field_of(path)
    if field is None or field.kind == "table":
        raise HTTPException(404)
    words = request.query_params.get("value", "")[:2000]
    checked = read_typed(path, words)
    problem = checked.problem or _unknown(bench.sight(), f"{field.table}.{field.key}", words)
    return JSONResponse({"path": dotted(path), "understood": told(checked, words), "problem": problem})


def _unknown(sight: Sight, name: str, words: str) -> str:
    """What is wrong with a word that should be a key of the catalogue."""
    table = SUGGESTED.get(name, "")
    if not table or not words.strip() or sight.opened is None or (name.startswith("Feed.") and words == "none"):
        return ""
    if name in ("Supply.devices", "Planted.colour"):
        return ""
    found = getattr(sight.opened.catalog, table).find(words.strip())
    if not isinstance(found, tuple):
        return ""
    near = " or ".join(found[:3])
    return f"“{words.strip()[:60]}” is not in the catalogue. " + (f"Did you mean {near}?" if near else "")


def text(request: Request) -> Response:
    """The whole text of the plan, with what is found line by line."""
    bench = bench_of(request)
    drawer = drawer_of(request, bench.path)
    draft, history = drawer.now()
    sight = bench.sight()
    found: dict[int, list[Any]] = {}
    for one in sight.findings:
        if one.where.line and one.where.file in ("", bench.path.name):
            found.setdefault(one.where.line, []).append(one)
    inside = {
        "text": draft.text, "digest": draft.digest, "history": history, "by_line": sorted(found.items()),
        "sound": data_of(draft.text) is not None,
    }  # fmt: skip
    leaf = Leaf(_answer(sight), {}, inside)
    return html(request, "text.html", frame(PAGE, sight, Asked(), leaf))


def write_text(request: Request) -> Response:
    """Save the whole text."""
    bench, form = bench_of(request), form_of(request)
    drawer = drawer_of(request, bench.path)
    mine = str(form.get("text", "")).replace("\r\n", "\n")
    what = str(form.get("what", ""))[:80] or "the text"
    if not mine.strip():
        raise HTTPException(400)
    answer = acted(request, bench, "", lambda: drawer.write(str(form.get("digest", "")), mine, what))
    return RedirectResponse(f"/p/{quote(bench.name)}/text", 303) if answer.status_code == 303 else answer


PAGE = Page("edit", "Change the plan", "edit.html", lambda sight, _: Leaf(_answer(sight)))
PARTS = (
    Part("edit", edit),
    Part("edit/save", change, ("POST",)),
    Part("edit/undo", undo, ("POST",)),
    Part("edit/redo", redo, ("POST",)),
    Part("check-field", check),
    Part("text", text),
    Part("text/save", write_text, ("POST",)),
)
