"""`brimful note`: what was seen is written down and read again; what is wrong is one plain sentence."""

import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from brimful.cli import brimful
from brimful.services import example


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A plan with rows of several containers and zones of the same names; a clock in UTC; no shared database."""
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    monkeypatch.delenv("BRIMFUL_JOURNAL", raising=False)
    path = tmp_path / "square.toml"
    path.write_text(example("courthouse_square").read_text(encoding="utf-8"), encoding="utf-8")
    yield path
    monkeypatch.undo()
    time.tzset()


def run(*arguments: str | Path) -> Result:
    """One command, run in this process; an exception that is not an exit is a failure."""
    result = CliRunner().invoke(brimful, ["note", *map(str, arguments)])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def listed(plan: Path, *options: str) -> list[dict[str, object]]:
    """The entries of a plan, as data."""
    return [json.loads(line) for line in run(plan, "--list", "--json", *options).stdout.splitlines() if line]


def test_written_and_read(plan: Path) -> None:
    """What is noted is listed with time, place, kind, value, words and who, in the plan's units."""
    said = run(plan, "steps 3", "caught", "16 fl oz in 5 min,", "slow", "--by", "Ann", "--at", "2026-07-02 6:40")
    assert (said.exit_code, said.stderr) == (0, "")
    told = "2026-07-02 06:40  steps 3  catch 16 fl oz in 5 min: slow, Ann  ["
    assert said.stdout.startswith(f"Noted: {told}")
    assert run(plan, "--list").stdout.startswith(told)
    assert plan.with_name("square.journal").exists()


@pytest.mark.parametrize("words", [("steps", "3", "dry"), ("steps", "10", "40", "%"), ("zone", "steps", "ran 5 min")])
def test_a_name_that_the_shell_took_apart_wants_quotes(plan: Path, words: tuple[str, ...]) -> None:
    """A place of several words without quotes is refused, and the words to quote are told; nothing is noted."""
    said = run(plan, *words)
    assert said.exit_code == 1
    assert f'For the place "{words[0]} {words[1]}" put its name in quotes' in said.stderr
    assert not plan.with_name("square.journal").exists()


def test_a_refusal_without_such_a_name_speaks_of_no_quotes(plan: Path) -> None:
    """A slip that has another cause is told by that cause alone."""
    assert "quotes" not in run(plan, "steps 3", "40 kilos of").stderr + run(plan, "stops 3", "dry").stderr


def test_nothing_noted_makes_no_file(plan: Path) -> None:
    """To ask for entries where there are none says so, and leaves nothing behind."""
    assert run(plan, "--list").stdout == "Nothing is noted.\n"
    assert run(plan, "--export", plan.with_name("out.jsonl")).stdout.startswith("Wrote 0 entries")
    assert [one.name for one in sorted(plan.parent.iterdir())] == ["out.jsonl", "square.toml"]


@pytest.mark.parametrize(
    ("place", "what", "kept"),
    [("steps 10", "dry", "steps 10"), ("STEPS  2", "wet", "steps 2"), ("steps", "ran 12 min", "zone steps"),
     ("steps", "fed", "steps"), ("zone flagpole", "fed", "zone flagpole"), ("all", "0.4 in", ""),
     ("All", "rain 3 mm", ""), ("flagpole", "meter 1,234 gal", "zone flagpole")],
)  # fmt: skip
def test_places(plan: Path, place: str, what: str, kept: str) -> None:
    """A place is found in small and capital letters, and a name of both row and zone by what belongs there."""
    assert run(plan, place, *what.split()).exit_code == 0
    assert [one["place"] for one in listed(plan)] == [kept]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [(("stesp 3", "dry"), 'Did you mean "steps 3"'), (("steps 11", "dry"), 'no place of the plan is called "steps 11"'),
     (("xyzzy", "dry"), 'There are "steps", "flagpole"'), (("zone steps", "dry"), "it belongs to a container"),
     (("steps 3", "rain", "1 in"), "it belongs to the whole place"), (("steps 3", "wieght", "61 lb"), '"weight"'),
     (("steps 3", "300 mL"), "say first what it is"), (("steps 3", "weight", "61"), "needs a unit"),
     (("steps 3", "weight", "61 in"), "is a length; a weight was expected"), (("steps 3", "finger", "dr"), "dry or mo"),
     (("steps 3", "-5 kg"), "No such option"), (("steps 3", "dry", "--at", "yesterdayish"), "a day and a time were"),
     (("steps 3", "dry", "--corrects", "abc"), "no entry has an id"), (("--withdraw", "abc"), "no entry has an id"),
     (("steps 3",), "give PLACE and WHAT"), (("steps 3", "x" * 3000), "at most 2000 were expected"),
     (("steps 3", "dry", "--by", "A\nB"), "without control characters"), (("--import", "/none"), "cannot be read"),
     (("steps 3", "catch", "1 L in 0 min"), "more than nothing"), (("steps 3", "withdrawn"), "id of the one")],
)  # fmt: skip
def test_refused(plan: Path, arguments: tuple[str, ...], words: str) -> None:
    """What cannot be understood is refused in plain words, and nothing is taken down."""
    said = run(plan, *arguments)
    assert said.exit_code in (1, 2)
    assert said.stdout == ""
    assert words in said.stderr
    assert "Traceback" not in said.stderr
    assert listed(plan) == []


def test_a_plan_with_errors(plan: Path) -> None:
    """Without a plan that can be read nobody knows its places; that is said, and nothing is taken down."""
    plan.write_text("units = 7", encoding="utf-8")
    said = run(plan, "steps 3", "dry")
    assert (said.exit_code, said.stdout) == (1, "")
    assert "brimful check" in said.stderr


def test_corrected_and_withdrawn(plan: Path) -> None:
    """A correction stands for the old entry, a withdrawal takes it out; --raw shows them all."""
    run(plan, "steps 3", "dry")
    run(plan, "steps 4", "wet")
    first, second = (str(one["id"]) for one in listed(plan))
    run(plan, "steps 3", "moist", "--corrects", first[:8])
    assert [one["value"] for one in listed(plan)] == [2.0, 1.0]
    run(plan, "--withdraw", second)
    assert [one["value"] for one in listed(plan)] == [1.0]
    assert len(listed(plan, "--raw")) == 4


def test_list_of_a_place(plan: Path) -> None:
    """A row's or zone's list holds what was noted for it and for the containers in it."""
    for place, what in (("steps 3", "dry"), ("flagpole 1", "dry"), ("zone steps", "ran 5 min"), ("steps", "trimmed")):
        run(plan, place, what)
    lists = {place: [one["place"] for one in listed(plan, place)] for place in ("steps", "zone steps", "steps 3")}
    assert lists == {"steps": ["steps 3", "steps"], "zone steps": ["steps 3", "zone steps"], "steps 3": ["steps 3"]}


def test_handed_on(plan: Path) -> None:
    """Lines that were written out are brought in once; twice does no harm; bad lines are told by number."""
    for at in range(3):
        run(plan, f"steps {at + 1}", "dry")
    out, other = plan.with_name("out.jsonl"), plan.with_name("other.toml")
    other.write_bytes(plan.read_bytes())
    assert run(plan, "--export", out).exit_code == 0
    assert "stays as it is" in run(plan, "--export", out).stderr
    good = out.read_text(encoding="utf-8").splitlines()
    out.write_text("\n".join([good[0], "{", good[1], '{"id": 7}', good[2]]), encoding="utf-8")
    first = run(other, "--import", out)
    assert (first.exit_code, first.stdout) == (1, "Brought in 3 entries; 0 were there already.\n")
    assert [line.split(":")[1].strip() for line in first.stderr.splitlines()] == ["line 2", "line 4"]
    assert run(other, "--import", out).stdout == "Brought in 0 entries; 3 were there already.\n"
    assert listed(other) == listed(plan)


def test_a_date_ahead(plan: Path) -> None:
    """A date far ahead is taken down, and said."""
    said = run(plan, "steps 3", "dry", "--at", "2199-01-01 8:00")
    assert said.exit_code == 0
    assert "ahead of the clock" in said.stderr
    assert len(listed(plan)) == 1


def test_a_file_that_is_no_journal(plan: Path) -> None:
    """Where something else stands in the journal's place, it stays as it is, and that is said."""
    plan.with_name("square.journal").write_text("shopping list " * 99)
    said = run(plan, "steps 3", "dry")
    assert (said.exit_code, said.stdout) == (1, "")
    assert "is something else" in said.stderr
    assert plan.with_name("square.journal").read_text() == "shopping list " * 99
