"""docs/guide.md against the code: every field, command, option, table; every plan shown can be read."""

import csv
import re
from pathlib import Path

import click
import pytest
from pydantic import BaseModel

from brimful.catalog import load
from brimful.catalog.rows import TABLES
from brimful.cli import brimful
from brimful.plan import schema
from brimful.plan.read import read_text
from brimful.weather.variables import BY_KEY

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "docs" / "guide.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")
SECTION_OF = {
    "Plan": "The plan", "Site": "site", "Weather": "site.weather", "Supply": "supply", "Timer": "timer",
    "Tubing": "tubing and zone", "Zone": "tubing and zone",
    "Delivery": "tubing and zone", "Tube": "tubing and zone", "Feeder": "tubing and zone",
    "Dripline": "tubing and zone", "Emitters": "tubing and zone", "Containers": "containers",
    "Container": "container", "Planted": "recipe and plants", "Recipe": "recipe and plants", "Table": "The plan",
    "Normals": "site.normals", "Season": "season", "WaterPrice": "water", "Shade": "shade",
    "SetOut": "set_out", "Obstacle": "set_out", "Pads": "pads", "Trench": "trench and gravel",
    "Gravel": "trench and gravel", "Crew": "crew", "Feed": "feed",
}  # fmt: skip


def section(heading: str) -> str:
    """The text below a heading, up to the next."""
    return re.split(r"^#+ ", GUIDE.split(f"# {heading}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


def tables_of_a_plan() -> list[type[BaseModel]]:
    """Every table of the plan's schema."""
    return [
        one
        for one in vars(schema).values()
        if isinstance(one, type) and issubclass(one, BaseModel) and one.__module__ == schema.__name__
    ]


def plans() -> list[str]:
    """Every TOML text in guide and README."""
    return re.findall(r"```toml\n(.*?)```", GUIDE + README, re.DOTALL)


@pytest.mark.parametrize("table", tables_of_a_plan(), ids=lambda table: table.__name__)
def test_every_field_stands_in_its_section(table: type[BaseModel]) -> None:
    """Each field of a table begins a row in the section that tells of that table."""
    told = section(SECTION_OF[table.__name__])
    firsts = re.findall(r"`(\w+)`", " ".join(line.split("|")[1] for line in told.splitlines() if line.startswith("|")))
    if table is schema.Recipe:
        firsts = re.findall(r"`(\w+)`", told)
    assert set(table.model_fields) <= set(firsts)


def test_no_field_is_told_that_is_not_there() -> None:
    """Each field that begins a row of a plan's section is a field of the schema."""
    known = {name for table in tables_of_a_plan() for name in table.model_fields}
    for heading in set(SECTION_OF.values()):
        rows = [line.split("|")[1] for line in section(heading).splitlines() if line.startswith("| `")]
        assert set(re.findall(r"`(\w+)`", " ".join(rows))) <= known, heading


def test_every_command_and_option_is_told() -> None:
    """Each command has a row; each option stands with the commands that take it."""
    told = section("Commands")
    for name, command in brimful.commands.items():
        assert f"| `brimful {name}" in told
        for parameter in command.params:
            if isinstance(parameter, click.Option):
                long = max(parameter.opts, key=len)
                rows = [line.split("|")[2] for line in told.splitlines() if re.match(rf"\| `{long}\b", line)]
                assert any(name in row.strip().split(", ") for row in rows), f"{long} of {name}"
            else:
                assert re.search(rf"`brimful {name}[^`]*{parameter.human_readable_name}", told)


def test_no_command_or_option_is_told_that_is_not_there() -> None:
    """Each command with a row exists, and each option with a row belongs to one."""
    told = section("Commands")
    there = {opt for command in brimful.commands.values() for one in command.params for opt in one.opts}
    assert set(re.findall(r"^\| `brimful (\w+)", told, re.MULTILINE)) <= set(brimful.commands)
    assert set(re.findall(r"^\| `(--[\w-]+)", told, re.MULTILINE)) <= there | {"--version", "--help"}


@pytest.mark.parametrize("text", plans(), ids=lambda text: text.splitlines()[0])
def test_every_plan_shown_can_be_read(text: str) -> None:
    """A plan in guide or README is read without a finding."""
    read = read_text(text, Path("plan.toml"))
    assert [finding.message for finding in read.findings] == []
    assert read.plan is not None


def test_every_plan_shown_can_be_settled() -> None:
    """The types, tubes, mixes and plants that the plans name are in the catalogue, and nothing contradicts itself."""
    from brimful.design.settle import settle
    from brimful.design.settle.notes import Notes

    for text in plans():
        read = read_text(text, Path("plan.toml"))
        assert read.plan is not None
        notes = Notes(read.places)
        settle(read.plan, load(), notes)
        assert [f.message for f in notes.findings if f.severity.value == "error"] == []


def test_every_column_and_table_is_told() -> None:
    """Each key of a weather column map and each table of the catalogue stands in its section."""
    assert {*BY_KEY, "date", "year", "month", "day"} <= set(re.findall(r"`(\w+)`", section("site.weather")))
    assert set(TABLES) <= set(re.findall(r"`(\w+)`", section("Your own tables")))


def test_the_table_shown_can_be_read(tmp_path: Path) -> None:
    """The file shown for a table beside the plan lays its row over the catalogue."""
    lines = [line.strip() for line in section("Your own tables").splitlines() if line.startswith("    ")]
    (tmp_path / "brimful-materials.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    key = next(csv.DictReader(lines))["key"]
    assert load(tmp_path).materials[key].wall_m == pytest.approx(2 * 0.0254)
