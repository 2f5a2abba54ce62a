"""Every field of a plan described, so that a page can draw it; and a value checked as it is typed.

The words of help are the guide's own, kept in `field_help.json` beside this file; a test holds them to docs/guide.md.
"""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path as FilePath
from typing import Any, Literal, get_args

from pydantic import BaseModel, TypeAdapter, ValidationError

from brimful.plan import schema
from brimful.plan.positions import Path
from brimful.plan.values import Choices, given_words
from brimful.quantities import BucketTest, Dimension, System, show
from brimful.records import record

Kind = Literal["quantity", "whole number", "number", "choice", "yes or no", "text", "list", "table"]
HELP = FilePath(__file__).with_name("field_help.json")
LABELS = {
    "apart": "Apart, middle to middle",
    "at": "Trunk stands at",
    "clear": "Ground to lowest leaves",
    "count": "How many",
    "each": "Solution for each container",
    "every": "Days between feedings",
    "follow": "Tops follow the ground",
    "gust": "Wind it must stand",
    "most_starts": "Starts a day, at most",
    "per": "Price is for",
    "ppm": "Nitrogen, parts in a million",
    "rise_last": "Rise at the last",
    "tmax": "Daily highest",
    "tmin": "Daily lowest",
    "top": "Width at the rim",
    "bottom": "Width at the foot",
    "top_width": "Short side at the rim",
    "bottom_width": "Short side at the foot",
    "water_ec": "Conductivity of the water",
    "ec_rise": "Conductivity that feed adds",
}
EXAMPLES = {"planting_day": "15 May", "season_end": "10 October", "hours": "4:00 to 9:00", "days": "Monday"}


@record
class Field:
    """A field of a table: what it is called, what it means, and what may stand in it."""

    table: str
    key: str
    label: str
    help: str
    left_open: str
    kind: Kind
    needed: bool
    choices: tuple[str, ...] = ()
    example: str = ""
    inner: str = ""
    many: bool = False


@record
class Checked:
    """A value as typed: what stands in the plan for it, how it was understood, or what is wrong with it."""

    value: Any
    understood: str = ""
    problem: str = ""


def tables() -> dict[str, type[BaseModel]]:
    """Every table of the plan by the name of its class."""
    found = vars(schema).values()
    kinds = (
        one for one in found if isinstance(one, type) and issubclass(one, schema.Table) and one is not schema.Table
    )
    return {one.__name__: one for one in kinds}


@cache
def fields_of(table: str) -> tuple[Field, ...]:
    """The fields of a table, in the order of the schema."""
    return tuple(_field(table, key, info) for key, info in tables()[table].model_fields.items())


def field_at(path: Path) -> Field | None:
    """The field that a path in the plan leads to; None where the schema knows none.

    >>> field_at(("containers", 2, "apart")).label
    'Apart, middle to middle'
    """
    here, found = "Plan", None
    for part in (part for part in path if isinstance(part, str)):
        if not here:
            return None
        found = next((one for one in fields_of(here) if one.key == part), None)
        if found is None:
            return None
        here = found.inner
    return found


def check_field(path: Path, typed: str) -> Checked:
    """A value typed into a field: as it was understood, or in words what is wrong with it.

    >>> check_field(("containers", 0, "apart"), "6 ft").understood
    '6 ft = 1.83 m'
    """
    field = field_at(path)
    if field is None or field.kind == "table":
        return Checked(None, problem="This is not a field that holds a single value.")
    words = " ".join(typed.split()) if field.kind != "list" else typed.strip()
    if not words:
        return Checked(None, problem="A value is needed here." if field.needed else "")
    value = _value(field, words)
    try:
        read = _reader(field.table, field.key).validate_python(value)
    except ValidationError as error:
        return Checked(value, problem=_problem(error))
    return Checked(value, _understood(field, words, read))


@cache
def _reader(table: str, key: str) -> TypeAdapter[Any]:
    from typing import Annotated

    info = tables()[table].model_fields[key]
    kind: Any = info.annotation
    for one in info.metadata:
        kind = Annotated[kind, one]
    return TypeAdapter(kind)


def _problem(error: ValidationError) -> str:
    first = error.errors(include_url=False)[0]
    reason = first.get("ctx", {}).get("error")
    return (
        str(reason)
        if reason
        else f"{given_words(first['input'])} was given; {first['msg'][:1].lower()}{first['msg'][1:]}"
    )


def _value(field: Field, words: str) -> Any:
    """What is to stand in the plan for words typed: numbers and yes or no as such, lists by comma or line."""
    if field.kind == "list":
        return [part.strip() for part in words.replace("\n", ",").split(",") if part.strip()]
    if field.kind == "yes or no":
        return {"yes": True, "true": True, "no": False, "false": False}.get(words.lower(), words)
    if field.kind in ("whole number", "number", "quantity"):
        for number in (int, float):
            try:
                return number(words) if words.isascii() and "_" not in words and len(words) < 30 else words
            except ValueError:
                continue
    return words


def _understood(field: Field, words: str, read: Any) -> str:
    dimension = next((mark for mark in _marks(field) if isinstance(mark, Dimension)), None)
    if field.kind == "quantity" and dimension is not None:
        shown = [show(read, dimension, system) for system in (System.METRIC, System.US)]
        other = next((one for one in shown if _unit(one) not in words.replace("°", " °").split()), shown[0])
        return f"{words} = {other}" if other != words else words
    return words


def _unit(shown: str) -> str:
    return shown.rsplit(" ", 1)[-1]


def _marks(field: Field) -> tuple[Any, ...]:
    info = tables()[field.table].model_fields[field.key]
    return (*info.metadata, *_walk(info.annotation))


def _field(table: str, key: str, info: Any) -> Field:
    marks = (*info.metadata, *_walk(info.annotation))
    told = _help().get(f"{table}.{key}", ["", ""])
    inner = next((m.__name__ for m in marks if isinstance(m, type) and issubclass(m, BaseModel)), "")
    kind = _kind(info.annotation, marks, bool(inner))
    choices = next((mark.words for mark in marks if isinstance(mark, Choices)), ())
    dimension = next((mark for mark in marks if isinstance(mark, Dimension)), None)
    example = EXAMPLES.get(key) or (choices[0] if choices else dimension.example if dimension else "")
    label = LABELS.get(key) or key.replace("_", " ").capitalize()
    many = tuple in marks or dict in marks
    return Field(table, key, label, told[0], told[1], kind, info.is_required(), choices, example, inner, many)


def _walk(annotation: Any) -> Iterator[Any]:
    """Every class and mark inside an annotation, from the outside in."""
    origin = getattr(annotation, "__origin__", None)
    if isinstance(annotation, type) or annotation in (tuple, dict):
        yield annotation
    elif origin in (tuple, dict):
        yield origin
    yield from getattr(annotation, "__metadata__", ())
    if origin is not None and hasattr(annotation, "__metadata__"):
        yield from _walk(origin)
    for part in get_args(annotation):
        if not isinstance(part, Dimension | Choices | range):
            yield from _walk(part)


def _kind(annotation: Any, marks: tuple[Any, ...], has_table: bool) -> Kind:
    """The first that is so."""
    so: tuple[tuple[bool, Kind], ...] = (
        (has_table, "table"),
        (any(isinstance(mark, Choices) for mark in marks), "choice"),
        (tuple in marks or dict in marks, "list"),
        (bool in marks, "yes or no"),
        (BucketTest in marks, "text"),
        (any(isinstance(mark, Dimension) for mark in marks), "quantity"),
        (any(isinstance(mark, range) for mark in marks), "whole number"),
        (annotation is float, "number"),
    )
    return next((kind for is_so, kind in so if is_so), "text")


@cache
def _help() -> dict[str, list[str]]:
    loaded: dict[str, list[str]] = json.loads(HELP.read_text(encoding="utf-8"))
    return loaded
