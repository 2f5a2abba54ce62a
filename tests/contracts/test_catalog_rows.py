"""Contracts over every row of every table."""

import csv
import re
from pathlib import Path

import pytest

import brimful.catalog as package
from brimful.catalog import CERTAINTIES, TABLES, Row, load

FOLDER = Path(package.__file__).parent / "tables"
CATALOG = load()
ROWS = [pytest.param(row, id=f"{name}/{row.key}") for name in TABLES for row in CATALOG.table(TABLES[name]).values()]


def lines(name: str) -> list[dict[str, str]]:
    """A table as it stands in its file."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_file_is_a_table() -> None:
    """Each CSV belongs to a row class and each row class has its CSV."""
    assert {path.stem for path in FOLDER.glob("*")} == set(TABLES)


@pytest.mark.parametrize("name", TABLES)
def test_no_row_is_lost(name: str) -> None:
    """As many rows come out as stand in the file, in its order and under its keys."""
    assert [line["key"] for line in lines(name)] == list(CATALOG.table(TABLES[name]))


@pytest.mark.parametrize("row", ROWS)
def test_source_and_certainty(row: Row) -> None:
    """Each row says where it is from and how sure it is, and the two agree."""
    assert len(row.source) >= 6
    assert row.certainty in CERTAINTIES
    if row.certainty == "read":
        assert "read" in row.source
    if row.certainty == "practice":
        assert "common practice, no source" in row.source
    if row.certainty == "memory":
        assert "memory" in row.source


@pytest.mark.parametrize("row", ROWS)
def test_fits_together_and_is_findable(row: Row) -> None:
    """Each row is sound within itself and is found by its key."""
    assert list(row.faults()) == []
    assert CATALOG.find(row.table, row.key) is row
    assert re.fullmatch(r"[#a-z0-9][a-z0-9.\-]*", row.key)


@pytest.mark.parametrize("name", TABLES)
def test_plain_text(name: str) -> None:
    """A table has no stray blanks, no trade signs and no line that is only nearly CSV."""
    text = (FOLDER / f"{name}.csv").read_text(encoding="utf-8")
    assert not re.search(r"[®™©\t\r]| ,|, ,| $", text, re.MULTILINE)
    assert text.endswith("\n")
