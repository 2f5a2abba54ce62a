"""A few questions, and the first plan from their answers; a variant of a plan that is there."""

import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from brimful.errors import NotSaved
from brimful.plan.answers import QUESTIONS, read_answers
from brimful.web.editing import drawer_of
from brimful.web.guard import form_of
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, html
from brimful.web.words import zones_answer

MOST_NAME = 60
MOST_TRIES = 99
ALONE = "One plan is served here, not a folder. Serve its folder: brimful serve FOLDER. Then a new plan has a place."


def questions(request: Request) -> Response:
    """The questions, none of them answered yet."""
    return _asked(request, {"colours": "any"}, {})


def answered(request: Request) -> Response:
    """Make the plan and lead to it; what is wrong stands beside its question, and what was answered stays."""
    from brimful.services.starting import plan_from_answers

    folder, given = _folder(request), _given(form_of(request))
    if folder is None:
        return _asked(request, given, {}, status=409)
    started = plan_from_answers(given)
    if started.text is None:
        keys = {question.key for question in QUESTIONS}
        wrong = {one.where.field: one.message for one in started.findings if one.where.field in keys}
        others = [f"{one.message}. {one.remedy}" for one in started.findings if one.where.field not in keys]
        return _asked(request, given, wrong, others, 422)
    try:
        path = save_new(folder, file_stem(given.get("title", "")), started.text)
    except NotSaved as error:
        return _asked(request, given, {}, [str(error)], 409)
    return RedirectResponse(f"/p/{quote(path.stem)}/", 303)


def live(request: Request) -> Response:
    """What the answers so far come to: a sentence, and what is wrong with those that were given."""
    given = _given(request.query_params)
    _, findings = read_answers(given)
    wrong = {one.where.field: one.message for one in findings if given.get(one.where.field, "").strip()}
    return JSONResponse({"problems": wrong, "sentence": "" if findings else _sentence(given, _folder(request))})


def _sentence(given: Mapping[str, str], folder: Path | None) -> str:
    """How the plan that would be made is watered."""
    from brimful.services.desk import PlanDesk
    from brimful.services.starting import HERE, plan_from_answers

    started = plan_from_answers(given)
    if started.text is None:
        return "So the plan would not stand yet: " + "; ".join(one.message for one in started.findings[:2]) + "."
    look = PlanDesk((folder or HERE.parent) / HERE).look(started.text)
    return " ".join(zones_answer(look.opened.design.zones)) if look.opened is not None else ""


def _asked(
    request: Request, given: Mapping[str, str], wrong: Mapping[str, str], others: Any = (), status: int = 200
) -> Response:
    folder = _folder(request)
    inside = {
        "questions": QUESTIONS, "given": given, "wrong": wrong, "others": others,
        "alone": "" if folder is not None else ALONE, "any": len(request.app.state.benches) > 0,
    }  # fmt: skip
    return html(request, "start.html", inside, status)


def _given(form: Any) -> dict[str, str]:
    return {question.key: str(form.get(question.key, ""))[:300] for question in QUESTIONS}


def _folder(request: Request) -> Path | None:
    folder: Path | None = request.app.state.benches.folder
    return folder


def file_stem(title: str) -> str:
    """A file's name from a title: plain letters, figures, and hyphens.

    >>> file_stem("Market square, north"), file_stem("../../etc"), file_stem("Платц")
    ('market-square-north', 'etc', 'plan')
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:MOST_NAME].strip("-") or "plan"


def save_new(folder: Path, stem: str, text: str) -> Path:
    """Save a plan under a name that nothing has yet.

    Raises:
        NotSaved: it cannot be saved.
    """
    from brimful.services.editing import new_draft, save

    names = [stem, *(f"{stem}-{number}" for number in range(2, MOST_TRIES))]
    path = next((folder / f"{name}.toml" for name in names if not _is_there(folder, name)), None)
    if path is None:
        raise NotSaved("There are too many plans of this name. Give it another.", text)
    save(new_draft(path), text)
    return path


def _is_there(folder: Path, name: str) -> bool:
    path = folder / f"{name}.toml"
    return path.exists() or path.is_symlink()


def variant(request: Request) -> Response:
    """Put a copy of a plan beside it, and lead to the copy's tables."""
    from brimful.services.editing import open_draft

    bench, folder = bench_of(request), _folder(request)
    if folder is None or bench.path.parent.resolve() != folder.resolve():
        return html(request, "plain_words.html", {"words": ALONE, "back": f"/p/{quote(bench.name)}/edit"}, 409)
    letters = (f"{bench.path.stem} {letter}" for letter in "bcdefghijklmnopqrstuvwxyz")
    stem = next((name for name in letters if not _is_there(folder, name)), None)
    if stem is None:
        raise HTTPException(400)
    try:
        path = save_new(folder, stem, open_draft(bench.path).text)
    except NotSaved as error:
        return html(request, "plain_words.html", {"words": str(error), "back": f"/p/{quote(bench.name)}/edit"}, 409)
    drawer_of(request, path).now()
    return RedirectResponse(f"/p/{quote(path.stem)}/edit", 303)


ROUTES = (
    Route("/start", questions, name="start"),
    Route("/start/make", answered, methods=["POST"]),
    Route("/start/live", live),
)
PARTS = (Part("edit/variant", variant, ("POST",)),)
