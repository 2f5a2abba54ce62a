"""What an edit means for the data of a plan."""

from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

from brimful.plan.positions import Path
from brimful.plan.write.steps import Add, Duplicate, Move, Refused, Remove, Set, Step, called


def intend(data: dict[str, Any], step: Step) -> None:
    """Do a step on the data alone.

    Raises:
        Refused: the data has no place for it.
    """
    if isinstance(step, Set):
        _set(data, step)
    elif isinstance(step, Add):
        _add(data, step)
    else:
        _rearrange(data, step)


def _set(data: dict[str, Any], step: Set) -> None:
    around = around_of(data, step.path, make=True)
    _check_key(around, step.path, extra=1)
    if isinstance(around, list) and step.path[-1] == len(around):
        around.append(None)
    around[step.path[-1]] = plain(step.value)


def _add(data: dict[str, Any], step: Add) -> None:
    around, key = around_of(data, step.path, make=True), step.path[-1]
    _check_key(around, step.path, extra=isinstance(around, dict))
    entries = around.setdefault(key, []) if isinstance(around, dict) else around[key]
    if not isinstance(entries, list):
        raise Refused(f"{called(step.path)} is not a list.")
    at = len(entries) if step.at is None else step.at
    if not 0 <= at <= len(entries):
        raise Refused(f"{called(step.path)} has {len(entries)} entries.")
    entries.insert(at, plain(step.value))


def _rearrange(data: dict[str, Any], step: Remove | Duplicate | Move) -> None:
    around: Any = around_of(data, step.path, make=False)
    key = step.path[-1]
    _check_key(around, step.path)
    if isinstance(step, Remove):
        del around[key]
    elif not isinstance(around, list):
        raise Refused(f"{called(step.path)} is not an entry of a list.")
    elif isinstance(step, Duplicate):
        around.insert(int(key) + 1, deepcopy(around[int(key)]))
    elif 0 <= step.to < len(around):
        around.insert(step.to, around.pop(int(key)))
    else:
        raise Refused(f"{called(step.path[:-1])} has {len(around)} entries.")


def around_of(data: Any, path: Path, *, make: bool) -> Any:
    """What holds the last part of a path."""
    here = data
    for at, part in enumerate(path[:-1]):
        if make and isinstance(here, dict) and isinstance(part, str) and isinstance(path[at + 1], str):
            here.setdefault(part, {})
        _check_key(here, path[: at + 1])
        here = here[part]
    if not isinstance(here, dict | list):
        raise Refused(f"{called(path[:-1])} is a single value and holds no {called(path[-1:])}.")
    return here


def _check_key(around: Any, path: Path, extra: int | bool = 0) -> None:
    """Whether the last part of a path is in what is around it, or may be added there."""
    key = path[-1]
    if isinstance(around, list):
        if isinstance(key, bool) or not isinstance(key, int) or not 0 <= key < len(around) + extra:
            raise Refused(f"{called(path[:-1])} has {len(around)} entries, and no {called(path[-1:])}.")
    elif not isinstance(around, dict) or not isinstance(key, str) or not (extra or key in around):
        raise Refused(f"{called(path[:-1])} has no {called(path[-1:])}.")


def plain(value: Any) -> Any:
    """A value in plain tables and lists, as it is read back."""
    if isinstance(value, Mapping):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [plain(inner) for inner in value]
    return value


def same(one: Any, other: Any) -> bool:
    """Equal, and of equal kinds: 1, 1.0 and true are three values; a value that is no number is itself."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(map(same, one, other))
    return bool(one == other or (one != one and other != other))  # noqa: PLR0124


def bare(data: Any) -> Any:
    """Data without its empty tables and lists: a table of which nothing is left may be gone or empty.

    Entries of a list stay, so that their number counts.
    """
    if isinstance(data, list):
        return [bare(entry) for entry in data]
    if not isinstance(data, dict):
        return data
    kept = {key: bare(value) for key, value in data.items()}
    return {key: value for key, value in kept.items() if value not in ({}, [])}
