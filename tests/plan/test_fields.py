"""Fields of the plan described for a page, and values checked as typed."""

import json
import os
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.docs.test_guide import SECTION_OF, section

from brimful.plan.fields import HELP, check_field, field_at, fields_of, tables
from brimful.plan.read import read_text
from brimful.plan.write import Set, rewrite

FIELDS = [field for table in tables() for field in fields_of(table)]
OF = {"Dripline": "dripline", "Emitters": "emitters", "Obstacle": "obstacles", "Trench": "trench", "Gravel": "gravel"}
RECIPE = ["what stands in each container that names this recipe", "needed"]


def _told_in_guide() -> dict[str, list[str]]:
    """What the guide says of each field: its row in the table for its section, or for its own kind of field."""
    told = {"Recipe.plants": RECIPE}
    for table in tables():
        head, rows = "", {}
        for line in section(SECTION_OF[table]).splitlines():
            cells = [cell.strip() for cell in line.strip("|").split("|")] if line.startswith("|") else []
            if cells and cells[0].startswith("field"):
                head = "".join(re.findall(r"`(\w+)`", cells[0]))
            elif len(cells) == 3 and not cells[0].startswith("-"):
                for key in re.findall(r"`(\w+)`", cells[0]):
                    rows.setdefault((head, key), cells[1:])
        for key in tables()[table].model_fields:
            cells = rows.get((OF.get(table, ""), key)) or rows.get(("", key))
            if cells is not None:
                told[f"{table}.{key}"] = cells
    return told


def test_help_is_what_the_guide_says() -> None:
    """The help of each field is its row in the guide; BRIMFUL_WRITE_DOCS=1 writes it anew."""
    data = json.dumps(_told_in_guide(), indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    if os.environ.get("BRIMFUL_WRITE_DOCS"):
        Path(HELP).write_text(data, encoding="utf-8")
    assert HELP.read_text(encoding="utf-8") == data


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: f"{field.table}.{field.key}")
def test_every_field_has_a_label_and_help(field: Any) -> None:
    """A page can draw any field: it has a label, words of help, a kind, and choices where it chooses."""
    assert field.label[0].isupper() or not field.label[0].isalpha()
    assert len(field.help) > 3
    assert (field.kind == "choice") == bool(field.choices)
    assert (field.kind == "table") == bool(field.inner)


@pytest.mark.parametrize("field", [one for one in FIELDS if one.example and one.kind != "list"], ids=str)
def test_an_example_is_such_a_value(field: Any) -> None:
    """The example of a field is read by it, wherever the example lies within its limits."""
    path = _PATHS.get(field.table)
    if path is None:
        return
    checked = check_field((*path, field.key), field.example)
    assert not checked.problem or "was expected" in checked.problem


_PATHS: dict[str, tuple[str | int, ...]] = {
    "Plan": (), "Site": ("site",), "Supply": ("supply",), "Containers": ("containers", 0), "Tubing": ("tubing",),
    "Container": ("containers", 0, "container"), "Timer": ("timer",), "Pads": ("pads",), "Shade": ("shade", 0),
}  # fmt: skip


@pytest.mark.parametrize(
    ("path", "typed", "understood"),
    [
        (("containers", 2, "apart"), "6 ft", "6 ft = 1.83 m"),
        (("containers", 2, "apart"), "1.83 m", "1.83 m = 72 in"),
        (("supply", "pressure"), "50 psi", "50 psi = 3.45 bar"),
        (("containers", 0, "count"), "12", "12"),
        (("units",), "metric", "metric"),
        (("site", "coastal"), "yes", "yes"),
        (("supply", "bucket_tests"), "5 gal in 45 s at 30 psi", "5 gal"),
    ],
)
def test_a_value_is_told_as_understood(path: tuple[Any, ...], typed: str, understood: str) -> None:
    """A quantity is repeated in the other system's units, so that a slip is seen."""
    checked = check_field(path, typed)
    assert checked.problem == ""
    assert checked.understood.startswith(understood)


@pytest.mark.parametrize(
    ("path", "typed", "problem"),
    [
        (("containers", 2, "apart"), "6 psi", "6 psi"),
        (("containers", 2, "apart"), "-6 ft", "more than 0"),
        (("containers", 0, "count"), "two", "whole number from 1 to 5000"),
        (("units",), "metrc", 'Did you mean "metric"?'),
        (("containers", 0, "name"), "", "needed"),
        (("site",), "x", "not a field"),
        (("nothing",), "x", "not a field"),
        (("site", "coastal"), "perhaps", "was given"),
    ],
)
def test_a_wrong_value_is_told_in_words(path: tuple[Any, ...], typed: str, problem: str) -> None:
    """What was given and what was expected."""
    assert problem in check_field(path, typed).problem


@given(st.sampled_from([("containers", 0, field.key) for field in FIELDS if field.table == "Containers"]), st.text())
def test_what_passes_the_field_passes_the_plan(path: tuple[Any, ...], typed: str) -> None:
    """What the field takes can be written into a plan, and the plan then finds nothing wrong with it."""
    field = field_at(path)
    assert field is not None
    checked = check_field(path, typed)
    if checked.problem or checked.value is None:
        return
    text = '[[containers]]\nname = "a"\ncontainer = "round-concrete-31x25"\n'
    edit = rewrite(text, Set(path, checked.value))
    assert edit.done
    codes = {finding.code for finding in read_text(edit.text, Path("a.toml")).findings}
    assert "not-toml" not in codes
    assert not [f for f in read_text(edit.text, Path("a.toml")).findings if f.where.field.endswith(field.key)]
