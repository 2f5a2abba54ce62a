"""What people note: by the forms of the page, by the phone's outbox, and all of it to carry away."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, RedirectResponse, Response

from brimful.errors import BrimfulError
from brimful.web.files import PLACE
from brimful.web.guard import form_of, token_of
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, html

SECOND_TAP = timedelta(minutes=1)


def entries(request: Request) -> Response:
    """Take down a JSON list of entries, and say of each what came of it."""
    from brimful.services.sent import take_down

    path = bench_of(request).path
    try:
        sent = json.loads(request.scope["brimful.body"])
    except (ValueError, RecursionError):
        return JSONResponse({"words": "A list of entries in JSON was expected. Nothing was taken down."}, 400)
    if not isinstance(sent, list):
        return JSONResponse({"words": "A list of entries was expected, in [ ]. Nothing was taken down."}, 400)
    try:
        taken = take_down(path, sent)
    except BrimfulError as error:
        return JSONResponse({"words": f"{error}."}, 409)
    each = [{"id": one.id, "outcome": one.outcome, "words": one.words} for one in taken.each]
    return JSONResponse({"entries": each, "remarks": taken.remarks})


async def received(request: Request) -> Response:
    """Read what was sent, then take it down beside the loop."""
    from starlette.concurrency import run_in_threadpool

    request.scope["brimful.body"] = await request.body()
    return await run_in_threadpool(entries, request)


def token(request: Request) -> Response:
    """A fresh token for a page that has been open since before the server was started."""
    return JSONResponse({"token": token_of(request)}, headers={"Cache-Control": "no-store"})


def note(request: Request) -> Response:
    """One entry from a form without script: taken down, then back to where it was noted, with a way to undo it."""
    bench, form = bench_of(request), form_of(request)
    sent = _sent(form)
    try:
        words, remarks = _taken(bench.path, sent)
    except BrimfulError as error:
        words, remarks = f"{error}", ()
    to = _back(bench.name, form, sent)
    if not words and not remarks:
        return RedirectResponse(f"{to}&noted={sent['id']}#noted", 303)
    context = {"words": words, "remarks": remarks, "sent": sent, "name": bench.name, "to": to}
    return html(request, "noted.html", context, 422 if words else 200)


def _sent(form: FormData) -> dict[str, Any]:
    """What a form says, as a phone would send it; its id was made with the form, so that two taps write one entry."""
    from brimful.journal import new_id

    said = " ".join(one for one in form.getlist("said") if isinstance(one, str))
    given = {key: str(form.get(key, "")).strip() for key in ("id", "place", "by", "corrects", "at")}
    sent: dict[str, Any] = {"id": given["id"] or new_id(), "said": said, "place": given["place"], "by": given["by"]}
    sent["corrects"] = given["corrects"] or None
    return {**sent, "at": given["at"]}


def _taken(path: Path, sent: dict[str, Any]) -> tuple[str, tuple[str, ...]]:
    """Take it down; why it was refused, or "", and what is to be said of its date.

    A form that comes back with the same id and words within a minute is a second tap; else it is another entry.
    """
    from brimful.journal import new_id
    from brimful.journal.moments import read_moment
    from brimful.services.sent import TAKEN_ALREADY, take_down
    from brimful.web.log import noted

    now = datetime.now(UTC)
    made = read_moment(sent["at"], now) if sent["at"] else now
    wish = {key: value for key, value in sent.items() if key != "at"} | {"made_at": made.astimezone(UTC).isoformat()}
    there = noted(path, sent["id"])
    if there is not None and _same(wish, there) and abs(made - there.made_at) < SECOND_TAP:
        return "", ()
    taken = take_down(path, [wish])
    if taken.each[0].words == TAKEN_ALREADY:
        sent["id"] = new_id()
        taken = take_down(path, [wish | {"id": sent["id"]}])
    return taken.each[0].words, taken.remarks


def _same(wish: dict[str, Any], there: Any) -> bool:
    from brimful.journal.reading import read_said

    said = read_said(wish["said"])
    return (said.kind, said.value, said.during_s, said.words, wish["place"], wish["corrects"]) == (
        there.kind, there.value, there.during_s, there.words, there.place, there.corrects,
    )  # fmt: skip


def _back(plan: str, form: FormData, sent: dict[str, Any]) -> str:
    """The page that the form stood on."""
    one = quote(str(form.get("container", "")), safe="")
    if form.get("back") == "container" and one:
        return f"/p/{quote(plan)}/container/{one}?"
    return f"/p/{quote(plan)}/notes?c={one}"


def lines(request: Request) -> Response:
    """Every entry as it was taken down, as JSON lines."""
    from brimful.journal.lines import to_lines
    from brimful.services import journal_of, journal_place

    bench = bench_of(request)
    where = journal_place(bench.path)
    text = ""
    if not isinstance(where, Path) or where.exists():
        with journal_of(bench.path) as journal:
            text = to_lines(journal.as_received())
    name = 'attachment; filename="journal.jsonl"'
    return Response(text, media_type="application/jsonl", headers={"Content-Disposition": name})


def worker(request: Request) -> Response:
    """The script that keeps pages of this plan on a phone for when there is no signal."""
    if request.path_params["plan"] not in request.app.state.benches:
        raise HTTPException(404)
    return FileResponse(PLACE / "sw.js", media_type="text/javascript", headers={"Cache-Control": "no-cache"})


PARTS = (
    Part("entries", received, ("POST",)),
    Part("entries/token", token),
    Part("note", note, ("POST",)),
    Part("journal.jsonl", lines),
    Part("sw.js", worker),
)
