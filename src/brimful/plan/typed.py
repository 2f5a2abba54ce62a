"""What stands in a plan's fields as words to type in, and the steps that put typed words into the plan's text."""

from collections.abc import Mapping
from typing import Any

from brimful.plan.fields import Checked, Field, check_field, field_at, fields_of
from brimful.plan.positions import Path
from brimful.plan.values import counted
from brimful.plan.write import Remove, Set, Step
from brimful.records import record

LONE = {"weather": "file", "recent_weather": "file", "main": "tube", "feeder": "tube", "dripline": "type",
        "emitters": "type", "container": "type", "written_for": "type"}  # fmt: skip
"""Tables for which a lone word may stand, and the key that it then means."""
PAIRS = frozenset({"Shade.corners", "Container.diameters"})
KEYED = frozenset({"Weather.columns", "Crew.equipment", "Plan.stock", "Plan.spares"})
LISTS_OF_TABLES = frozenset({"zone", "containers", "shade", "plants", "obstacles"})


@record
class Change:
    """A field that is to change: its path, the words before and after, and the steps that do it."""

    path: Path
    before: str
    after: str
    steps: tuple[Step, ...]


def path_of(dotted: str, data: Mapping[str, Any]) -> Path:
    """The path that a dotted one means: entries of lists count from 1, a name may hold dots where the plan has it so.

    >>> path_of("containers.2.apart", {})
    ('containers', 1, 'apart')
    """
    parts = dotted.split(".")
    if parts[0] == "recipe" and len(parts) > 2:
        names = sorted((str(name) for name in data.get("recipe", {}) or ()), key=len, reverse=True)
        rest = dotted.removeprefix("recipe.")
        name = next((one for one in names if rest == one or rest.startswith(f"{one}.")), parts[1])
        parts = ["recipe", name, *[part for part in rest[len(name) + 1 :].split(".") if part]]
        return (*parts[:2], *_counted_from_1(parts[1:])[1:])
    return _counted_from_1(parts)


def dotted(path: Path) -> str:
    """A path as findings write it.

    >>> dotted(("containers", 1, "apart"))
    'containers.2.apart'
    """
    return ".".join(str(part + 1) if isinstance(part, int) else part for part in path)


def field_of(path: Path) -> Field | None:
    """The field a path leads to, entries of a table by name left out."""
    return field_at((path[0], *path[2:])) if path and path[0] == "recipe" and len(path) > 2 else field_at(path)


def value_at(data: Any, path: Path) -> Any:
    """What stands at a path in a plan's data; a lone word counts as the key it means. None where nothing stands."""
    here = data
    for at, part in enumerate(path):
        if isinstance(here, str) and at:
            return _inside_word(here, path[at - 1], part)
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            return None
    return here


def words_of(value: Any) -> str:
    """A value as a person types it: lists by commas, pairs by semicolons, yes or no."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{key} = {words_of(one)}" for key, one in value.items())
    if isinstance(value, list):
        inner = any(isinstance(one, list | Mapping) for one in value)
        return ("; " if inner else ", ").join(words_of(one) for one in value)
    return str(value)


def read_typed(path: Path, typed: str) -> Checked:
    """Words typed into a field, as `check_field` reads them; pairs are parted by semicolons, names by equals signs."""
    field = field_of(path)
    if field is None:
        return Checked(None, problem="There is no such field.")
    checked = check_field((path[0], *path[2:]) if path[0] == "recipe" and len(path) > 2 else path, typed)
    name = f"{field.table}.{field.key}"
    if not typed.strip() or name not in PAIRS | KEYED:
        return _as_numbers(field, checked)
    return Checked(_pairs(typed) if name in PAIRS else _named(typed))


def change_of(data: Mapping[str, Any], path: Path, typed: str) -> Change | None:
    """What it takes to have typed words stand in a field; None where they stand there already."""
    before = words_of(value_at(data, path))
    words = " ".join(typed.split())
    if words == " ".join(before.split()):
        return None
    steps = (_emptied(data, path) if not words else _filled(data, path, read_typed(path, typed).value),)
    return Change(path, before, words, steps)


def _filled(data: Mapping[str, Any], path: Path, value: Any) -> Step:
    around, table = value_at_exactly(data, path[:-1]), path[-2] if len(path) > 1 else ""
    if isinstance(around, str) and "plants" in path[-3:-1]:
        given = counted(around)
        known = dict(given) if isinstance(given, dict) else {"plant": around}
        known[str(path[-1])] = value
        told = f"{known['count']} {known['plant']}" if known.keys() == {"plant", "count"} else None
        return Set(path[:-1], told or known)
    lone = LONE.get(str(table))
    if isinstance(around, str) and lone is not None:
        return Set(path[:-1], value if path[-1] == lone else {lone: around, str(path[-1]): value})
    if around is None and path[-1] == lone:
        return Set(path[:-1], value)
    if around is None and lone is not None:
        return Set(path[:-1], {str(path[-1]): value})
    return Set(path, value)


def _emptied(data: Mapping[str, Any], path: Path) -> Step:
    around = value_at_exactly(data, path[:-1])
    alone = isinstance(around, str) or (isinstance(around, dict) and len(around) == 1)
    if alone and len(path) > 1 and (path[-2] in LONE or path[-2] in ("set_out", "normals", "water", "trench")):
        return Remove(path[:-1])
    return Remove(path)


def value_at_exactly(data: Any, path: Path) -> Any:
    """What stands at a path, a lone word being no more than itself."""
    here = data
    for part in path:
        if isinstance(here, str):
            return None
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            return None
    return here


def _inside_word(word: str, table: str | int, key: str | int) -> Any:
    if isinstance(table, int):
        given = counted_or_none(word)
        return given.get(str(key)) if given else word if key == "plant" else None
    return word if LONE.get(table) == key else None


def counted_or_none(word: str) -> dict[str, Any] | None:
    """A counted plant as count and plant; None where it is not one.

    >>> counted_or_none("4 angelonia")
    {'plant': 'angelonia', 'count': 4}
    """
    try:
        given = counted(word)
    except ValueError:
        return None
    return given if isinstance(given, dict) else None


def _counted_from_1(parts: list[str]) -> Path:
    return tuple(
        int(part) - 1 if part.isascii() and part.isdigit() and len(part) < 5 and int(part) and i else part
        for i, part in enumerate(parts)
    )


def _as_numbers(field: Field, checked: Checked) -> Checked:
    """Whole numbers in a list as such, where the field wants them so."""
    if checked.problem and isinstance(checked.value, list) and all(one.isdigit() for one in checked.value):
        numbers = [int(one[:9]) for one in checked.value]
        again = check_field((field.table.lower(), field.key), ", ".join(map(str, numbers)))
        return Checked(numbers, again.understood)
    return checked


def _pairs(typed: str) -> list[list[str]]:
    return [[part.strip() for part in pair.split(",")] for pair in typed.replace("\n", ";").split(";") if pair.strip()]


def _named(typed: str) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for part in (part for part in typed.replace("\n", ",").split(",") if part.strip()):
        name, _, value = part.partition("=")
        words = value.strip()
        found[name.strip()] = int(words) if words.isascii() and words.isdigit() and len(words) < 9 else words
    return found


def plain_fields(table: str) -> tuple[Field, ...]:
    """The fields of a table that hold a value of their own."""
    return tuple(field for field in fields_of(table) if field.kind != "table")


def inner_tables(table: str) -> tuple[Field, ...]:
    """The fields of a table that hold one table."""
    return tuple(field for field in fields_of(table) if field.kind == "table" and not field.many)
