"""README.md against the world: its excerpt is what the demo prints, and what it points to is there."""

import re
from pathlib import Path

from click.testing import CliRunner

from brimful.cli import brimful

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def squeezed(text: str) -> str:
    """The text with each run of white space as one blank."""
    return " ".join(text.split())


def test_the_excerpt_is_what_the_demo_prints() -> None:
    """Each line of the excerpt occurs in the demo's output, in that order, white space aside."""
    printed = squeezed(CliRunner().invoke(brimful, ["demo"], env={"COLUMNS": "100"}).output)
    excerpt = README.split("<!-- demo -->")[1].split("<!-- end -->")[0]
    at = 0
    for line in filter(None, map(squeezed, excerpt.splitlines())):
        found = printed.find(line, at)
        assert found >= 0, f"the demo does not print, or not here: {line}"
        at = found + len(line)


def test_the_two_commands_stand_first() -> None:
    """The first indented lines are the two commands that do everything."""
    commands = [line.strip() for line in README.splitlines() if line.startswith("    ")]
    assert commands[:2] == ["python3 run.py demo", "python3 run.py test"]


def test_what_it_points_to_is_there() -> None:
    """Each file and folder that README and docs name in backticks or links exists."""
    for page in (ROOT / "README.md", *(ROOT / "docs").rglob("*.md")):
        text = page.read_text(encoding="utf-8")
        for name in re.findall(r"\]\(([\w./-]+)\)", text):
            assert (page.parent / name).exists(), f"{page.name}: {name}"
        for name in re.findall(r"`((?:docs|src|tests|benchmarks)/[\w./-]*)`", text):
            assert (ROOT / name).exists(), f"{page.name}: {name}"
