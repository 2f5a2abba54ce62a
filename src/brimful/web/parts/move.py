"""A row or something that shades moved on the site plan: what was dragged, as fields of the plan."""

import math
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from brimful.plan.read import read_text
from brimful.plan.schema import Containers, Plan, Shade
from brimful.plan.write import Set, Step
from brimful.web.editing import NotDone, drawer_of
from brimful.web.guard import form_of
from brimful.web.parts.edit import acted
from brimful.web.parts.part import Part
from brimful.web.show import bench_of

MOST_M = 4900.0
FOOT_M = 0.3048
LEAST_APART_M = 0.1
ALIKE = 0.04
"""A row whose length changed by less keeps its spacing: only its heading was meant."""


def move(request: Request) -> Response:
    """Write where something was dragged to: its start, or of a row's end its heading and spacing."""
    bench, form = bench_of(request), form_of(request)
    drawer, digest = drawer_of(request, bench.path), str(form.get("digest", ""))
    kind, number = str(form.get("kind", "")), _whole(form.get("number"))
    by = tuple(_metres(form.get(key)) for key in ("east", "north"))
    if kind not in ("row", "end", "shade"):
        raise HTTPException(404)

    def act() -> None:
        plan = read_text(drawer.seen(digest).text, bench.path).plan
        if plan is None:
            raise NotDone("The plan must stand before things in it can be dragged. Mend what stops it, or undo.")
        steps, what = _moved(plan, kind, number - 1, (by[0], by[1]))
        drawer.do(digest, steps, what)

    at = f"containers.{number}" if kind != "shade" else f"shade.{number}"
    answer = acted(request, bench, str(form.get("at", "")) or at, act)
    if answer.status_code == 303 and form.get("at"):
        return RedirectResponse(f"/p/{quote(bench.name)}/edit?at={quote(str(form['at']))}", 303)
    return answer


def _moved(plan: Plan, kind: str, index: int, by: tuple[float, float]) -> tuple[list[Step], str]:
    things: Any = plan.shade if kind == "shade" else plan.containers
    if not 0 <= index < len(things):
        raise HTTPException(404)
    metric = plan.units == "metric"
    if kind == "shade":
        steps = list(_shade(plan.shade[index], index, by, metric=metric))
        return steps, f"{plan.shade[index].kind} moved"
    row = plan.containers[index]
    if kind == "end":
        return _end(row, index, by, metric=metric), f"{row.name} turned"
    start = row.start or (0.0, 0.0)
    return [Set(("containers", index, "start"), _pair(start, by, metric=metric))], f"{row.name} moved"


def _end(row: Containers, index: int, by: tuple[float, float], *, metric: bool) -> list[Step]:
    """Heading, and where the row became longer or shorter, its spacing; the first container stays."""
    if row.count < 2:
        raise NotDone("A single container has no end to turn.")
    heading, apart = math.radians(90.0 if row.heading is None else row.heading), row.apart or 2.0
    length = apart * (row.count - 1)
    east, north = length * math.sin(heading) + by[0], length * math.cos(heading) + by[1]
    now = math.hypot(east, north)
    steps: list[Step] = [
        Set(("containers", index, "heading"), f"{round(math.degrees(math.atan2(east, north))) % 360} deg")
    ]
    if abs(now - length) > ALIKE * length:
        spacing = max(LEAST_APART_M, now / (row.count - 1))
        steps.append(Set(("containers", index, "apart"), _length(spacing, metric=metric)))
    return steps


def _shade(shade: Shade, index: int, by: tuple[float, float], *, metric: bool) -> Iterator[Step]:
    for key in ("start", "end", "at"):
        at = getattr(shade, key)
        if at is not None:
            yield Set(("shade", index, key), _pair(at, by, metric=metric))
    if shade.corners:
        yield Set(("shade", index, "corners"), [_pair(at, by, metric=metric) for at in shade.corners])


def _pair(at: tuple[float, float], by: tuple[float, float], *, metric: bool) -> list[str]:
    there = [one + more for one, more in zip(at, by, strict=True)]
    if any(abs(one) > MOST_M for one in there):
        raise NotDone("That is further away than a plan reaches.")
    return [_length(one, metric=metric) for one in there]


def _length(length_m: float, *, metric: bool) -> str:
    """A place as it is written in a plan: to 5 cm, or to a tenth of a foot.

    >>> _length(1.26, metric=True), _length(3.048, metric=False)
    ('1.25 m', '10 ft')
    """
    if metric:
        return f"{round(length_m * 20) / 20:z.2f}".rstrip("0").rstrip(".") + " m"
    return f"{length_m / FOOT_M:z.1f}".removesuffix(".0") + " ft"


def _metres(given: Any) -> float:
    try:
        value = float(str(given or "0")[:30])
    except ValueError:
        raise HTTPException(400) from None
    if not abs(value) <= 2 * MOST_M:
        raise HTTPException(400)
    return value


def _whole(given: Any) -> int:
    words = str(given or "")
    if not (words.isascii() and words.isdigit() and len(words) < 5):
        raise HTTPException(404)
    return int(words)


PARTS = (Part("edit/move", move, ("POST",)),)
