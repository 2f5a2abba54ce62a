"""Text and data: findings in one line each, what is plain stays plain, and what JSON has no word for becomes null."""

import io
import math
from dataclasses import dataclass, field
from enum import Enum

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console
from rich.markup import render
from tests.design.plans import EXAMPLES, design_of, text_of

from brimful.findings import Finding, Place, Severity
from brimful.render.as_json import schema, to_data
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.summary import print_summary


class Colour(Enum):
    """A word from a list."""

    RED = "red"


@dataclass(frozen=True)
class Inner:
    """A small table."""

    length_m: float | None
    start: str = field(default="a", metadata={"json": "from"})


@dataclass(frozen=True)
class Outer:
    """A table with a table in it."""

    parts: tuple[Inner, ...]
    colour: Colour


@pytest.mark.parametrize(
    ("finding", "line"),
    [
        (Finding("c", Severity.ERROR, "it is so", "Do this.", Place("p", 3, 4)), "p:3:4: error: it is so. Do this."),
        (Finding("c", Severity.NOTE, "it is so", "", Place("p")), "p: note: it is so."),
        (Finding("c", Severity.WARNING, "is it so?", "Look."), "warning: is it so? Look."),
    ],
)
def test_a_finding_is_one_line(finding: Finding, line: str) -> None:
    """Place, severity, what is so, what to do: in that order, with one full stop."""
    assert list(finding_lines([finding])) == [line]


def test_data_by_names_of_its_own() -> None:
    """Tables become dictionaries under their published names, lists lists, words words."""
    data = to_data(Outer((Inner(1.5), Inner(None, "b")), Colour.RED))
    assert data == {"parts": [{"length_m": 1.5, "from": "a"}, {"length_m": None, "from": "b"}], "colour": "red"}
    assert to_data({1: (2, True)}) == {"1": [2, True]}


@pytest.mark.parametrize("number", [math.inf, -math.inf, math.nan])
def test_nothing_infinite(number: float) -> None:
    """A number that is not finite is null."""
    assert to_data(Inner(number)) == {"length_m": None, "from": "a"}


def test_schema_follows_the_tables() -> None:
    """The schema has each table once, with all its keys required and described."""
    made = schema(Outer)
    assert made["$defs"]["Inner"]["required"] == ["length_m", "from"]
    assert made["$defs"]["Inner"]["properties"]["length_m"] == {"anyOf": [{"type": "number"}, {"type": "null"}]}
    assert made["$defs"]["Outer"]["properties"]["colour"] == {"enum": ["red"]}
    assert made["$defs"]["Outer"]["description"] == "A table with a table in it."


@given(st.text(st.characters(exclude_characters="\\", exclude_categories=["Cc", "Cs"]), max_size=30))
def test_words_stay_words(words: str) -> None:
    """Whatever a plan calls a thing is printed letter by letter, brackets included."""
    assert as_words((words, 1.0)) == (as_words(words), 1.0)
    assert render(as_words(words), emoji=False).plain == words


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("width", [60, 80, 100, 160])
def test_no_line_is_wider_than_the_page(name: str, width: int) -> None:
    """The summary fits the page it is printed on, down to a narrow terminal."""
    page = io.StringIO()
    print_summary(design_of(text_of(name)), (), None, Console(file=page, width=width, no_color=True, highlight=False))
    assert max(len(line.rstrip()) for line in page.getvalue().splitlines()) <= width
