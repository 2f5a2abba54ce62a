"""A plan as tables to fill in: which there are, in the order of the file, and every field with what stands in it."""

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from brimful.design.model import Assumption
from brimful.findings import Finding, Severity
from brimful.plan.fields import Checked, Field, fields_of
from brimful.plan.positions import Path
from brimful.plan.typed import counted_or_none, dotted, inner_tables, plain_fields, read_typed, value_at, words_of
from brimful.records import record
from brimful.web.brief import SUGGESTED, in_brief

if TYPE_CHECKING:
    from brimful.catalog import Catalog

ONE = (
    ("", "Title and units", "Plan"),
    ("site", "The place", "Site"),
    ("season", "What the season must withstand", "Season"),
    ("supply", "The water supply", "Supply"),
    ("timer", "The timer", "Timer"),
    ("tubing", "Tube for every zone", "Tubing"),
)
MANY = (
    ("zone", "Zone", "Zone", "a zone"),
    ("containers", "Row", "Containers", "a row of containers"),
    ("recipe", "Planting", "Recipe", "a planting"),
    ("shade", "Shade", "Shade", "something that shades"),
)
LAST = (
    ("feed", "Feed", "Feed"),
    ("crew", "Who builds", "Crew"),
    ("pads", "Brick pads", "Pads"),
    ("trench", "Trench", "Trench"),
    ("gravel", "Gravel", "Gravel"),
    ("water", "The price of water", "WaterPrice"),
)
WORDS = {"Site.surroundings": ("massed", "row-on-paving", "single-on-hot-paving", "sheltered"),
         "Containers.surroundings": ("massed", "row-on-paving", "single-on-hot-paving", "sheltered"),
         "Pads.datum": ("highest", "mean", "lowest")}  # fmt: skip
LONG = frozenset({"list"})


@record
class Box:
    """One field to fill in: its dotted path, what stands in it as words, and what is taken where nothing does."""

    at: str
    field: Field
    words: str
    assumed: str
    choices: tuple[str, ...]
    suggested: str
    understood: str
    problem: str
    findings: tuple[Finding, ...]
    asked: bool

    @property
    def grave(self) -> bool:
        """Whether something about it wants the reader's eye."""
        return any(one.severity is not Severity.NOTE for one in self.findings)

    @property
    def said(self) -> bool:
        """Whether it stands open: the plan says it, must say it, or it is asked for."""
        return bool(self.words or self.field.needed or self.findings or self.asked)


@record
class Group:
    """Fields of one table within a section, those the plan fills first."""

    title: str
    help: str
    said: tuple[Box, ...]
    silent: tuple[Box, ...]


@record
class PlantLine:
    """One taxon of a planting."""

    at: str
    count: str
    plant: str
    name: str
    colours: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]


@record
class Tab:
    """A section closed: where it is, what it is called, what stands in it in few words, how much is found."""

    at: str
    title: str
    summary: str
    found: int
    kind: str = ""
    number: int = 0
    of: int = 0


@record
class Sheet:
    """All sections, and the open one with its fields."""

    tabs: tuple[Tab, ...]
    at: str
    groups: tuple[Group, ...]
    plants: tuple[PlantLine, ...] | None
    plants_at: str
    findings: tuple[Finding, ...]


@record
class Known:
    """What a sheet is drawn from."""

    data: Mapping[str, Any]
    findings: Sequence[Finding]
    assumptions: Sequence[Assumption]
    catalog: "Catalog"


def data_of(text: str) -> dict[str, Any] | None:
    """A plan's data; None where the text is no TOML."""
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError):
        return None


def sections(data: Mapping[str, Any]) -> Iterator[tuple[Path, str, str, str, int, int]]:
    """Path, title, table, kind, number and how many of each section of a plan."""
    for key, title, table in ONE:
        yield ((key,) if key else ()), title, table, "", 0, 0
    for key, title, table, _ in MANY:
        entries = data.get(key) or ()
        if isinstance(entries, Mapping):
            for name in entries:
                yield (key, str(name)), f"{title} “{name}”", table, key, 0, 0
            continue
        for i, entry in enumerate(entries if isinstance(entries, list) else ()):
            name = entry.get("name" if key != "shade" else "kind", "") if isinstance(entry, Mapping) else ""
            yield (key, i), f"{title} “{name}”" if name else f"{title} {i + 1}", table, key, i, len(entries)
    for key, title, table in LAST:
        yield (key,), title, table, "", 0, 0


def section_of(data: Mapping[str, Any], path: Path) -> Path | None:
    """The section in which a path stands, or the first of its kind; None where none does."""
    all_paths = [path for path, *_ in sections(data)]
    if len(path) == 1 and path[0] in {field.key for field in plain_fields("Plan")}:
        return ()
    found = [one for one in all_paths if one and path[: len(one)] == one]
    if found:
        return max(found, key=len)
    same = [one for one in all_paths if one and path and one[0] == path[0]]
    return same[0] if same else None


def sheet_of(known: Known, at: Path, asked: Path = ()) -> Sheet:
    """The tables of a plan with the section at a path open."""
    tabs, table = [], "Plan"
    for path, title, its_table, kind, number, of in sections(known.data):
        name = dotted(path)
        tabs.append(Tab(name, title, _summary(known, path, its_table), _found(known, path), kind, number, of))
        table = its_table if path == at else table
    groups = tuple(_groups(known, at, table, asked))
    has_plants = table in ("Containers", "Recipe")
    plants_at = (*at, "plants")
    lines = tuple(_plants(known, plants_at)) if has_plants else None
    return Sheet(tuple(tabs), dotted(at), groups, lines, dotted(plants_at), _of_section(known, at, groups, lines))


def _groups(known: Known, at: Path, table: str, asked: Path) -> Iterator[Group]:
    for path, title, told, its in _tables(at, table):
        boxes = [_box(known, (*path, field.key), field, asked) for field in its]
        if boxes:
            said = tuple(box for box in boxes if box.said and not (title and box.field.needed and not box.words))
            if title and not any(box.words or box.asked or box.findings for box in boxes):
                said = ()
            yield Group(title, told, said, tuple(box for box in boxes if box not in said))


def _tables(at: Path, table: str) -> Iterator[tuple[Path, str, str, tuple[Field, ...]]]:
    yield at, "", "", plain_fields(table)
    for inner in inner_tables(table) if table != "Plan" else ():
        yield (*at, inner.key), inner.label, inner.help, plain_fields(inner.inner)


def _box(known: Known, path: Path, field: Field, asked: Path) -> Box:
    at, words = dotted(path), words_of(value_at(known.data, path))
    checked = read_typed(path, words) if words else None
    name = f"{field.table}.{field.key}"
    choices = field.choices or WORDS.get(name, ())
    if name == "Containers.zone":
        choices = _names(known.data, "zone")
    if name == "Containers.recipe":
        choices = tuple(map(str, known.data.get("recipe") or ()))
    if field.kind == "yes or no":
        choices = ("yes", "no")
    if words and words not in choices and choices:
        choices = (*choices, words)
    return Box(
        at, field, words, _assumed(known, path, field), choices, SUGGESTED.get(name, ""),
        told(checked, words) if checked else "", checked.problem if checked else "",
        tuple(one for one in known.findings if _is_about(one, at)), path == asked,
    )  # fmt: skip


def told(checked: Checked, words: str) -> str:
    """How a value was understood, where that says more than its words do.

    >>> told(Checked("6 ft", "6 ft = 1.83 m"), "6 ft"), told(Checked("90 deg", "90 deg = 90°"), "90 deg")
    ('6 ft = 1.83 m', '')
    """
    one, _, other = checked.understood.partition(" = ")
    alike = other.rstrip("°") == one.removesuffix("deg").rstrip(" °")
    return "" if not other or alike else checked.understood


def _is_about(finding: Finding, at: str) -> bool:
    where = finding.where.field
    return where == at or where.startswith(f"{at}.")


def _assumed(known: Known, path: Path, field: Field) -> str:
    """What is taken where the plan is silent: what the design took, else what the guide says."""
    bare = ".".join(str(part) for part in path if not isinstance(part, int))
    for one in known.assumptions:
        if one.field in (bare, dotted(path)) and one.value:
            return one.value
    return "" if field.needed or field.left_open == "needed" else field.left_open.replace("`", "")


def _names(data: Mapping[str, Any], key: str) -> tuple[str, ...]:
    entries = data.get(key) or ()
    return tuple(str(one["name"]) for one in entries if isinstance(one, Mapping) and "name" in one)


def _found(known: Known, path: Path) -> int:
    at, grave = dotted(path), [one for one in known.findings if one.severity is not Severity.NOTE]
    if not at:
        return sum(one.where.field in {field.key for field in plain_fields("Plan")} for one in grave)
    return sum(_is_about(one, at) for one in grave)


def _of_section(
    known: Known, at: Path, groups: Sequence[Group], lines: Sequence[PlantLine] | None
) -> tuple[Finding, ...]:
    """What is found about the open section and stands beside no field of it."""
    if not at:
        return ()
    told = {one for group in groups for box in (*group.said, *group.silent) for one in box.findings}
    told |= {one for line in lines or () for one in line.findings}
    return tuple(one for one in known.findings if _is_about(one, dotted(at)) and one not in told)


def _plants(known: Known, at: Path) -> Iterator[PlantLine]:
    entries = value_at(known.data, at)
    for i, entry in enumerate(entries if isinstance(entries, list) else ()):
        told = counted_or_none(entry) if isinstance(entry, str) else entry if isinstance(entry, Mapping) else None
        key, path = str((told or {}).get("plant", entry)), dotted((*at, i))
        found = known.catalog.plants.find(key)
        row = None if isinstance(found, tuple) else found
        yield PlantLine(
            path, str((told or {}).get("count", "")), key, row.common_name if row is not None else "",
            swatches(known.catalog, (*row.flower_colours, *row.foliage_colour)[:5]) if row is not None else (),
            tuple(one for one in known.findings if _is_about(one, path)),
        )  # fmt: skip


def swatches(catalog: "Catalog", words: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Colour words with their screen colours."""
    return tuple((word.replace("-", " "), catalog.colours[word].srgb) for word in words if word in catalog.colours)


def _summary(known: Known, path: Path, table: str) -> str:
    """What a section says, in few words."""
    here = value_at(known.data, path) if path else known.data
    if not isinstance(here, Mapping):
        return "the plan is silent"
    said = []
    for field in fields_of(table):
        value = here.get(field.key)
        if value is None or field.key == "name" or (not path and field.kind == "table"):
            continue
        if field.key == "plants":
            said.append(f"{len(value) if isinstance(value, list) else 1} kinds of plant")
        elif isinstance(value, str | int | float) and not isinstance(value, bool):
            said.append(in_brief(known.catalog, f"{table}.{field.key}", value))
    return ", ".join([words for words in said if words][:4])[:90] or ("" if here else "the plan is silent")
