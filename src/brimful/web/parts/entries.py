"""Rows, zones, plantings, shade and plants: added, doubled, moved, taken out."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from brimful.plan.positions import Path
from brimful.plan.typed import counted_or_none, dotted, path_of, value_at
from brimful.plan.write import Add, Duplicate, Move, Remove, Set, Step, Value
from brimful.web.bench import Bench
from brimful.web.editing import NotDone, drawer_of
from brimful.web.guard import form_of
from brimful.web.parts.edit import acted
from brimful.web.parts.part import Part
from brimful.web.sheet import MANY, data_of, section_of, sections
from brimful.web.show import bench_of

KINDS = tuple(key for key, *_ in MANY)
FIRST = "round-fibre-cement-30x24"
"""What a new row is made of where no other row says."""


def entries(request: Request) -> Response:
    """Do one thing to one entry."""
    bench, form = bench_of(request), form_of(request)
    drawer, digest = drawer_of(request, bench.path), str(form.get("digest", ""))
    at, do = str(form.get("at", "")), str(form.get("do", ""))
    if do not in DOING:
        raise HTTPException(404)
    went: list[Path] = []

    def act() -> None:
        data = data_of(drawer.seen(digest).text) or {}
        path = path_of(at, data)
        if path[0] not in KINDS:
            raise HTTPException(404)
        steps, what, then = DOING[do](data, path)
        drawer.do(digest, steps, what)
        went.append(then)

    answer = acted(request, bench, at, act)
    return _to(bench, went[0]) if went else answer


def _to(bench: Bench, path: Path) -> Response:
    return RedirectResponse(f"/p/{quote(bench.name)}/edit?at={quote(dotted(path))}#open", 303)


Done = tuple[list[Step], str, Path]


def _add(data: Mapping[str, Any], path: Path) -> Done:
    key = str(path[0])
    if len(path) != 1:
        raise HTTPException(404)
    name = free_name(data, key)
    if key == "recipe":
        return [Set(("recipe", name), {"plants": ["3 angelonia"]})], f"planting {name} added", ("recipe", name)
    there = data.get(key)
    count = len(there) if isinstance(there, list) else 0
    return [Add((key,), _new(data, key, name))], f"{name} added", (key, count)


def _new(data: Mapping[str, Any], key: str, name: str) -> Value:
    metric = data.get("units") == "metric"
    if key == "zone":
        return {"name": name}
    if key == "shade":
        start, end, height = (
            (["0 m", "3 m"], ["6 m", "3 m"], "2 m") if metric else (["0 ft", "10 ft"], ["20 ft", "10 ft"], "6 ft")
        )
        return {"kind": "wall", "height": height, "start": start, "end": end}
    rows = data.get("containers")
    last = rows[-1] if isinstance(rows, list) and rows and isinstance(rows[-1], Mapping) else {}
    new: dict[str, Value] = {"name": name, "count": 1, "container": last.get("container", FIRST)}
    return new | {key: last[key] for key in ("zone", "recipe") if key in last}


def free_name(data: Mapping[str, Any], key: str, like: str = "") -> str:
    """A name that no other entry has."""
    there = data.get(key) or ()
    taken = set(there) if isinstance(there, Mapping) else {e.get("name") for e in there if isinstance(e, Mapping)}
    stem = like or {"containers": "row", "zone": "zone", "recipe": "planting", "shade": "shade"}[key]
    number = 2 if like else len(taken) + 1
    while f"{stem} {number}" in taken or (key == "containers" and f"{stem}. {number}" in taken):
        number += 1
    return f"{stem} {number}"


def _duplicate(data: Mapping[str, Any], path: Path) -> Done:
    here = value_at(data, path)
    if path[0] == "recipe" and len(path) == 2 and isinstance(here, Mapping):
        name = free_name(data, "recipe", str(path[1]))
        return [Set(("recipe", name), dict(here))], f"planting {path[1]} doubled as {name}", ("recipe", name)
    number = _number(path)
    steps: list[Step] = [Duplicate(path)]
    then = (*path[:-1], number + 1)
    if isinstance(here, Mapping) and "name" in here:
        letter = _other_name(data, str(path[0]), str(here["name"]))
        steps.append(Set((*then, "name"), letter))
    return steps, f"{_called(data, path)} doubled", then


def _other_name(data: Mapping[str, Any], key: str, name: str) -> str:
    """A row's numbers are its containers': another row is told from it by a letter."""
    taken = {one.get("name") for one in data.get(key) or () if isinstance(one, Mapping)}
    return next(
        (f"{name} {letter}" for letter in "bcdefghijklmnopqrstuvwxyz" if f"{name} {letter}" not in taken),
        f"{name} again",
    )


def _remove(data: Mapping[str, Any], path: Path) -> Done:
    if len(path) < 2:
        raise HTTPException(404)
    left = section_of({**data, str(path[0]): ()}, path[:1]) or ()
    return [Remove(path)], f"{_called(data, path)} taken out", path[:2] if len(path) > 2 else left


def _move(by: int) -> Any:
    def move(data: Mapping[str, Any], path: Path) -> Done:
        to = _number(path) + by
        return [Move(path, to)], f"{_called(data, path)} moved {'up' if by < 0 else 'down'}", (*path[:-1], to)

    return move


def _number(path: Path) -> int:
    if not isinstance(path[-1], int):
        raise NotDone("Only an entry of a list can be doubled or moved.")
    return path[-1]


def _called(data: Mapping[str, Any], path: Path) -> str:
    title = next((title for one, title, *_ in sections(data) if one == path), "")
    if title:
        return title.replace("“", "").replace("”", "")
    entry = value_at(data, path)
    plant = entry if isinstance(entry, str) else entry.get("plant", "") if isinstance(entry, Mapping) else ""
    return str(plant) or dotted(path)


DOING = {"add": _add, "duplicate": _duplicate, "remove": _remove, "up": _move(-1), "down": _move(1)}
"""What can be done to an entry."""


def plant_step(data: Mapping[str, Any], path: Path, count: int, plant: str) -> Step:
    """The step that puts a plant into a planting, or in place of another."""
    if not isinstance(path[-1], int):
        return Add(path, f"{count} {plant}")
    here = value_at(data, path)
    if isinstance(here, Mapping):
        return Set((*path, "plant"), plant)
    told = counted_or_none(here) if isinstance(here, str) else None
    return Set(path, f"{told['count'] if told else count} {plant}")


PARTS = (Part("edit/entries", entries, ("POST",)),)
