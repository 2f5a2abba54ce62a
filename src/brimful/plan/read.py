"""Read a plan file: text to a Plan, or every problem at once, each with its line and column."""

import re
import tomllib
from dataclasses import field
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from brimful.errors import PlanUnreadable
from brimful.findings import Finding, Place, Severity, did_you_mean
from brimful.plan.names import clashes
from brimful.plan.positions import locate_toml_error, positions
from brimful.plan.schema import Plan
from brimful.plan.values import given_words
from brimful.records import record

MOST_BYTES = 2_000_000
MOST_FINDINGS = 200
EXPECTED = {
    "too_short": "at least one entry was expected",
    "too_long": "fewer entries were expected",
    "model_type": "a table was expected",
    "tuple_type": "a list in [ ] was expected",
    "dict_type": "a table was expected",
    "string_type": "words in quotes were expected",
    "bool_type": "true or false was expected",
    "bool_parsing": "true or false was expected",
}
_DIGITS = re.compile(r"[0-9_]{4301,}")


@record
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


@record
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
    return read_text(plain_text(bytes_of(path), path), path)


def read_text(text: str, path: Path) -> PlanFile:
    """Read a plan from text that stands, or is to stand, at `path`."""
    file = path.name
    try:
        raw = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        return PlanFile(path, text, None, (_not_toml(text, file, error),), Places(file))
    places = Places(file, positions(text))
    try:
        plan = Plan.model_validate(raw)
    except ValidationError as error:
        return PlanFile(path, text, None, _findings(error, places), places)
    findings = tuple(clashes(plan, _names_at(plan, places)))
    return PlanFile(path, text, None if findings else plan, findings, places)


def _not_toml(text: str, file: str, error: Exception) -> Finding:
    """What is wrong with a text that is no TOML; tomllib itself does not say where a number is too long."""
    remedy = 'Texts and quantities stand in quotes, for example height = "25 in".'
    if isinstance(error, RecursionError):
        return Finding("not-toml", Severity.ERROR, "not a plan: nested too deep", "", Place(file))
    if isinstance(error, tomllib.TOMLDecodeError):
        line, column = locate_toml_error(text, error)
        return Finding(
            "not-toml", Severity.ERROR, f"not TOML: {str(error).split(' (at ')[0]}", remedy, Place(file, line, column)
        )
    match = _DIGITS.search(text)
    at = match.start() if match else 0
    where = Place(file, text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)) if match else Place(file)
    return Finding("not-toml", Severity.ERROR, "a number of thousands of digits was given", remedy, where)


def _findings(error: ValidationError, places: Places) -> tuple[Finding, ...]:
    """The problems in the order of the file. A list that is empty only for its bad entries is not a problem of its own.

    Beyond MOST_FINDINGS the rest is counted only.
    """
    errors = error.errors(include_url=False)
    first = errors[:MOST_FINDINGS]
    around = {one["loc"][:length] for one in first for length in range(1, len(one["loc"]))}
    told = (one for one in first if one["type"] != "too_short" or one["loc"] not in around)
    findings = sorted((_finding(dict(one), places) for one in told), key=lambda finding: finding.where)
    if len(errors) > MOST_FINDINGS:
        said = f"{len(errors) - MOST_FINDINGS} more problems were found"
        findings.append(Finding("more", Severity.ERROR, said, "Mend these first.", Place(places.file)))
    return tuple(findings)


def _names_at(plan: Plan, places: Places) -> dict[tuple[str, int], Place]:
    tables = (("zone", len(plan.zone)), ("containers", len(plan.containers)))
    return {(table, index): places.at(table, index, "name") for table, count in tables for index in range(count)}


def bytes_of(path: Path) -> bytes:
    """The bytes of a plan file; a device that never ends is left off at the limit.

    Raises:
        PlanUnreadable: the file is missing or too large, or the system does not give it.
    """
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise PlanUnreadable(f"{path}: no such file. `brimful new {path}` writes a starter there.") from None
    except IsADirectoryError:
        raise PlanUnreadable(f"{path}: a folder was given; a plan file was expected") from None
    except (OSError, ValueError) as error:
        raise PlanUnreadable(f"{path}: {getattr(error, 'strerror', None) or error}") from None
    if len(data) > MOST_BYTES:
        raise PlanUnreadable(f"{path}: more than 2 MB was given; a plan has at most 2 MB")
    return data


def plain_text(data: bytes, path: Path) -> str:
    """The text of a plan file's bytes, with plain line ends and without a byte order mark.

    Raises:
        PlanUnreadable: the bytes are not text.
    """
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        raise PlanUnreadable(f"{path}: byte {error.start} is not text; a plan is a text file in UTF-8") from None


def _finding(error: dict[str, Any], places: Places) -> Finding:
    path = tuple(error["loc"])
    where, name, kind = places.at(*path), _called(path), error["type"]
    if kind == "extra_forbidden":
        known = _keys_at(path[:-1])
        remedy = did_you_mean(str(path[-1]), known) or f"Known here: {', '.join(known)}."
        return Finding("unknown-key", Severity.ERROR, f'unknown key "{str(path[-1])[:60]}"', remedy, where)
    if kind == "value_error":
        return Finding("bad-value", Severity.ERROR, f"{name}: {error['ctx']['error']}", "", where)
    if kind == "missing":
        return Finding("missing-key", Severity.ERROR, f'"{name}" is missing', "Add it here.", where)
    expected = EXPECTED.get(kind, error["msg"].lower())
    said = f"{name}: {given_words(error.get('input'))} was given; {expected}"
    return Finding("bad-value", Severity.ERROR, said, _brackets(path, kind), where)


def _called(path: tuple[str | int, ...]) -> str:
    """What to call a key or an entry of a list: by the last name on its path, counted from 1."""
    names = [at for at, part in enumerate(path) if isinstance(part, str)]
    last = names[-1] if names else -1
    entries = (f"entry {int(part) + 1}" for part in path[last + 1 :])
    return " ".join([str(path[last]) if names else "plan", *entries])


def _brackets(path: tuple[str | int, ...], kind: str) -> str:
    """The remedy for the commonest slip of all: single brackets round a table of which there may be many."""
    if path in (("containers",), ("zone",)) and kind == "tuple_type":
        return f"Write [[{path[0]}]], with double brackets, above each."
    if len(path) == 1 and kind in ("model_type", "dict_type"):
        return f"Write [{path[0]}], with single brackets."
    return ""


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
