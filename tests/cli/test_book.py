"""`brimful book` and `brimful draw` on the command line."""

from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from brimful.cli import brimful
from brimful.services import example

PLAN = str(example("balcony"))


def test_a_book_is_written(tmp_path: Path) -> None:
    """A4 for a metric plan, and the file is a PDF with the plan's title."""
    out = tmp_path / "book.pdf"
    result = CliRunner().invoke(brimful, ["book", PLAN, "-o", str(out)])
    assert result.exit_code == 0, result.output
    reader = PdfReader(out)
    assert round(float(reader.pages[0].mediabox.width)) == 595
    assert reader.metadata is not None and reader.metadata.title == "Three pots on a balcony"


def test_drawings_are_written(tmp_path: Path) -> None:
    """Every file is an SVG that parses."""
    result = CliRunner().invoke(brimful, ["draw", PLAN, "--out", str(tmp_path / "pictures")])
    assert result.exit_code == 0, result.output
    files = sorted((tmp_path / "pictures").iterdir())
    assert {"run-week-00.svg", "chart-bloom.svg"} <= {file.name for file in files}
    for file in files:
        ElementTree.parse(file)


@pytest.mark.parametrize("arguments", [["book", "{}", "-o", "{}.out"], ["draw", "{}", "--out", "{}.out"]])
def test_a_plan_that_cannot_be_worked_out_is_said(tmp_path: Path, arguments: list[str]) -> None:
    """Exit code 1, the finding, and nothing written."""
    plan = tmp_path / "plan.toml"
    plan.write_text('[[containers]]\nname = "a"\ncontainer = "no-such"\n', encoding="utf-8")
    result = CliRunner().invoke(brimful, [word.format(plan) for word in arguments])
    assert result.exit_code == 1
    assert "Mend these first" in result.output
    assert not Path(f"{plan}.out").exists()


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """One sentence, exit code 1."""
    result = CliRunner().invoke(brimful, ["book", PLAN, "-o", str(tmp_path / "none" / "book.pdf")])
    assert result.exit_code == 1
    assert "cannot be written" in result.output
