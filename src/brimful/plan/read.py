"""Read a plan file: text to a Plan, or every problem at once, each with its line and column."""

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from brimful.errors import PlanUnreadable
from brimful.findings import Finding, Place, Severity, did_you_mean
from brimful.plan.positions import locate_toml_error, positions
from brimful.plan.schema import Plan

MOST_BYTES = 2_000_000
EXPECTED = {
    "missing": "this key is needed",
    "too_short": "more entries were expected",
    "too_long": "fewer entries were expected",
    "model_type": "a table was expected",
    "tuple_type": "a list in [ ] was expected",
    "dict_type": "a table was expected",
    "bool_type": "true or false was expected",
    "bool_parsing": "true or false was expected",
}


@dataclass(frozen=True, slots=True)
class Places:
    """Where each key of a plan file stands, by its path."""

    file: str = ""
    known: dict[tuple[str | int, ...], Any] = field(default_factory=dict)

    def at(self, *path: str | int) -> Place:
        """The place of a key, or of the nearest table around it that the file has."""
        dotted = ".".join(str(part + 1 if isinstance(part, int) else part) for part in path)
        for length in range(len(path), 0, -1):
            spot = self.known.get(tuple(path[:length]))
            if spot is not None:
                return Place(self.file, spot.line, spot.column, dotted)
        return Place(self.file, 0, 0, dotted)


@dataclass(frozen=True, slots=True)
class PlanFile:
    """A plan file as read: its text, the plan where it could be read, what is wrong, and where everything stands."""

    path: Path
    text: str
    plan: Plan | None
    findings: tuple[Finding, ...]
    places: Places


def read_plan(path: Path) -> PlanFile:
    """Read a plan file.

    Raises:
        PlanUnreadable: the file is missing, too large, or not text.
    """
    return read_text(_text_of(path), path)


def read_text(text: str, path: Path) -> PlanFile:
    """Read a plan from text that stands, or is to stand, at `path`."""
    file = path.name
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line, column = locate_toml_error(text, error)
        said = str(error).split(" (at ")[0]
        remedy = 'Texts and quantities stand in quotes, for example height = "25 in".'
        wrong = Finding("not-toml", Severity.ERROR, f"not TOML: {said}", remedy, Place(file, line, column))
        return PlanFile(path, text, None, (wrong,), Places(file))
    except RecursionError:
        wrong = Finding("not-toml", Severity.ERROR, "not a plan: nested too deep", "", Place(file))
        return PlanFile(path, text, None, (wrong,), Places(file))
    places = Places(file, positions(text))
    try:
        return PlanFile(path, text, Plan.model_validate(raw), (), places)
    except ValidationError as error:
        findings = tuple(_finding(dict(one), places) for one in error.errors(include_url=False))
        return PlanFile(path, text, None, tuple(sorted(findings, key=lambda f: f.where)), places)


def _text_of(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise PlanUnreadable(f"{path}: {path.stat().st_size / 1e6:.1f} MB was given; a plan has at most 2 MB")
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise PlanUnreadable(f"{path}: no such file. `brimful new {path}` writes a starter there.") from None
    except IsADirectoryError:
        raise PlanUnreadable(f"{path}: a folder was given; a plan file was expected") from None
    except UnicodeDecodeError as error:
        raise PlanUnreadable(f"{path}: byte {error.start} is not text; a plan is a text file in UTF-8") from None
    except OSError as error:
        raise PlanUnreadable(f"{path}: {error.strerror or error}") from None


def _finding(error: dict[str, Any], places: Places) -> Finding:
    path = tuple(error["loc"])
    kind, given = error["type"], error.get("input")
    if kind == "extra_forbidden":
        known = _keys_at(path[:-1])
        remedy = did_you_mean(str(path[-1]), known) or f"Known here: {', '.join(known)}."
        return Finding("unknown-key", Severity.ERROR, f'unknown key "{path[-1]}"', remedy, places.at(*path))
    if kind == "value_error":
        said = str(error["ctx"]["error"])
        return Finding("bad-value", Severity.ERROR, f"{path[-1] if path else 'plan'}: {said}", "", places.at(*path))
    if kind == "missing":
        return Finding("missing-key", Severity.ERROR, f'"{path[-1]}" is missing', "Add it here.", places.at(*path))
    expected = EXPECTED.get(kind, error["msg"].lower())
    return Finding(
        "bad-value", Severity.ERROR, f"{path[-1]}: {_shown(given)} was given; {expected}", "", places.at(*path)
    )


def _shown(given: object) -> str:
    words = repr(given)
    return words if len(words) <= 60 else words[:57] + "..."


def _keys_at(path: tuple[str | int, ...]) -> tuple[str, ...]:
    """The keys that the schema knows in the table at `path`."""
    here: Any = Plan
    for part in path:
        if (
            isinstance(part, str)
            and isinstance(here, type)
            and issubclass(here, BaseModel)
            and part in here.model_fields
        ):
            here = _model_in(here.model_fields[part].annotation)
    return tuple(here.model_fields) if isinstance(here, type) and issubclass(here, BaseModel) else ()


def _model_in(annotation: Any) -> Any:
    """The table class inside an annotation such as `tuple[Zone, ...]` or `Site | None`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in getattr(annotation, "__args__", ()):
        found = _model_in(part)
        if found is not None:
            return found
    return None
