"""The command line: exit code 0, 1 or 2, words for people, and never a traceback."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.cli.bad_plans import CANNOT_START, GOOD, WEATHERS, WORKED_OUT

from brimful.cli import brimful
from brimful.cli.demo import EXAMPLES
from brimful.services import example

IN_FILE = re.compile(r"p\.toml:\d+:\d+: (error|warning|note): ")


def run(*arguments: str | Path) -> Result:
    """One command, run in this process; an exception that is not an exit is a failure."""
    result = CliRunner().invoke(brimful, [str(one) for one in arguments])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def process(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """One command, run as a person runs it."""
    command = [sys.executable, "-m", "brimful", *map(str, arguments)]
    env = {**os.environ, **environment}
    return subprocess.run(command, capture_output=True, encoding="utf-8", errors="replace", env=env, check=False)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """Where a plan is to stand."""
    return tmp_path / "p.toml"


@pytest.mark.parametrize("case", CANNOT_START)
def test_a_plan_that_cannot_be_worked_out(plan: Path, case: str) -> None:
    """Check and design both say what is wrong and where, with exit code 1."""
    text, words = CANNOT_START[case]
    plan.write_text(text, encoding="utf-8")
    check = run("check", plan)
    assert (check.exit_code, check.stderr) == (1, "")
    assert words in check.stdout
    assert IN_FILE.search(check.stdout)
    design = run("design", plan)
    assert (design.exit_code, design.stdout) == (1, "")
    assert words in design.stderr
    assert "Mend these first" in design.stderr


@pytest.mark.parametrize("case", WORKED_OUT)
def test_a_plan_worked_out_with_a_word(plan: Path, case: str) -> None:
    """A plan that can be worked out is, and what is doubtful about it is said; an error among it gives exit code 1."""
    text, words, code = WORKED_OUT[case]
    plan.write_text(text, encoding="utf-8")
    check, design = run("check", plan), run("design", plan)
    assert words in check.stdout
    assert (check.exit_code, design.exit_code) == (code, code)
    assert "To mind" in design.stdout
    assert "Assumed, because the plan does not say" in design.stdout


@pytest.mark.parametrize("case", WEATHERS)
def test_weather_files(plan: Path, case: str) -> None:
    """A weather file with gaps is used and told; one that cannot be right is refused, at its line in the plan."""
    text, words, code = WEATHERS[case]
    lines = '[site]\nlatitude = 45\nweather = "w.csv"\n\n[[containers]]'
    plan.write_text(GOOD.replace("[[containers]]", lines), encoding="utf-8")
    plan.with_name("w.csv").write_text(text, encoding="utf-8")
    check = run("check", plan)
    assert check.exit_code == code
    assert words in check.stdout
    assert "p.toml:9:1: " in check.stdout


def test_all_problems_at_once(plan: Path) -> None:
    """Several mistakes in different tables are listed by one run, in the order of the file."""
    text = GOOD.replace('"3 bar"', '"3 in"').replace("apart", "aprat").replace("2 zonal", "0 zonal")
    plan.write_text(text, encoding="utf-8")
    places = re.findall(r"p\.toml:(\d+):(\d+): error", run("check", plan).stdout)
    assert places == [("4", "1"), ("10", "1"), ("12", "26")]


def test_several_names_at_once(plan: Path) -> None:
    """Unknown names are all listed too, once each."""
    text = GOOD.replace("angelonia", "angelica-x").replace("calibrachoa", "calibri").replace("terracotta", "terra")
    plan.write_text(text, encoding="utf-8")
    said = run("check", plan).stdout
    assert [said.count(f'"{word}"') for word in ("angelica-x", "calibri", "terra")] == [1, 1, 1]


@pytest.mark.parametrize("command", ["check", "design", "explain"])
@pytest.mark.parametrize(
    ("content", "words"),
    [(None, "no such file"), (b"\xff" * 99, "not text"), (b"# " + b"x" * 10_000_000, "more than 2 MB"), ("", "folder")],
    ids=["missing", "binary", "10 MB", "folder"],
)
def test_a_file_that_cannot_be_read(plan: Path, command: str, content: bytes | str | None, words: str) -> None:
    """What is no text file at all is one sentence on the error stream, with exit code 1."""
    if isinstance(content, bytes):
        plan.write_bytes(content)
    elif content is not None:
        plan.mkdir()
    result = run(command, plan)
    assert (result.exit_code, result.stdout) == (1, "")
    assert words in result.stderr
    assert str(plan) in result.stderr
    assert len(result.stderr.splitlines()) == 1


@pytest.mark.parametrize(
    "arguments",
    [("check",), ("design",), ("new",), ("explain",), ("nonsense",), ("demo", "--example", "moon"), ("--nonsense",),
     ("design", "p.toml", "--units", "furlongs"), ("check", "a", "b")],
    ids=" ".join,
)  # fmt: skip
def test_wrong_usage(arguments: tuple[str, ...]) -> None:
    """Wrong usage is exit code 2, with the usage."""
    result = run(*arguments)
    assert result.exit_code == 2
    assert "Usage:" in result.stderr


def test_no_command_shows_the_help() -> None:
    """Without a command the commands are listed."""
    for command in ("new", "check", "design", "explain", "demo"):
        assert command in run("--help").stdout
        assert run(command, "-h").exit_code == 0


def test_new_writes_a_plan_that_works(plan: Path) -> None:
    """The starter is written once, is sound as it stands, and is never overwritten."""
    assert run("new", plan).exit_code == 0
    assert run("check", plan).exit_code == 0
    assert run("design", plan).exit_code == 0
    text = plan.read_text(encoding="utf-8")
    again = run("new", plan)
    assert (again.exit_code, plan.read_text(encoding="utf-8")) == (1, text)
    assert "stays as it is" in again.stderr


def test_new_asks_until_the_answers_hold(plan: Path) -> None:
    """A wrong answer is told and asked for again, alone; the plan made is sound; a plan that is there asks nothing."""
    answers = "metric\nQuay\n4\n\n60 psi\n50 cm\n" + 10 * "\n" + "60 cm\n"
    result = CliRunner().invoke(brimful, ["new", str(plan), "--ask"], input=answers)
    assert result.exit_code == 0
    assert "is a pressure; a length was expected" in result.stderr
    assert 'title = "Quay"' in plan.read_text(encoding="utf-8")
    assert run("check", plan).exit_code == 0
    again = CliRunner().invoke(brimful, ["new", str(plan), "--ask"], input=answers)
    assert (again.exit_code, "Which units" in again.stdout) == (1, False)


def test_every_line_of_the_starter_can_be_uncommented(plan: Path) -> None:
    """The choices that the starter holds as comments are choices that exist."""
    assert run("new", plan).exit_code == 0
    plan.with_name("weather.csv").write_text(WEATHERS["gaps"][0], encoding="utf-8")
    text = re.sub(r"(?m)^# (\w+ = )", r"\1", plan.read_text(encoding="utf-8"))
    assert '\nweather = "weather.csv"' in text
    plan.write_text(text, encoding="utf-8")
    assert run("check", plan).exit_code == 0


def test_new_where_nothing_can_be_written(tmp_path: Path) -> None:
    """A folder that is not there, or a folder in place of the file, is one sentence and exit code 1."""
    for path in (tmp_path / "no" / "p.toml", tmp_path):
        result = run("new", path)
        assert (result.exit_code, len(result.stderr.splitlines())) == (1, 1)


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples(name: str) -> None:
    """Each example is sound, prints its summary in both systems of units, and its plan can be printed and used."""
    us, metric = (run("demo", "--example", name, "--units", units) for units in ("US", "metric"))
    assert (us.exit_code, metric.exit_code) == (0, 0)
    assert " gph" in us.stdout or " gpm" in us.stdout
    assert " L/h" in metric.stdout
    assert not re.search(r" (gph|gpm|psi|gal|lb|cu ft)\b", metric.stdout.partition("To have before")[0])
    assert run("demo", "--example", name, "--plan").stdout == example(name).read_text(encoding="utf-8")


def test_demo_is_design_of_its_plan() -> None:
    """The demo is nothing but the design of its plan."""
    assert run("demo").stdout == run("design", example(EXAMPLES[0])).stdout


def test_json_and_files(plan: Path, tmp_path: Path) -> None:
    """The JSON is one document, the same on the screen and in the folder, beside the summary."""
    plan.write_text(GOOD, encoding="utf-8")
    result = run("design", plan, "--json", "--out", tmp_path / "new" / "folder")
    assert result.exit_code == 0
    files = {path.name: path.read_text(encoding="utf-8") for path in (tmp_path / "new" / "folder").iterdir()}
    assert set(files) == {"design.json", "summary.txt"}
    assert json.loads(files["design.json"]) == json.loads(result.stdout)
    assert json.loads(result.stdout)["title"] == "Bad plans"
    assert files["summary.txt"].startswith("Bad plans")


def test_out_that_is_a_file(plan: Path) -> None:
    """A file in place of the folder is one sentence, exit code 1, and stays as it is."""
    plan.write_text(GOOD, encoding="utf-8")
    result = run("design", plan, "--out", plan)
    assert result.exit_code == 1
    assert "cannot be written" in result.stderr
    assert plan.read_text(encoding="utf-8") == GOOD


def test_check_as_json(plan: Path) -> None:
    """Findings as JSON carry code, severity, message, remedy and place."""
    plan.write_text(GOOD.replace("apart", "aprat"), encoding="utf-8")
    result = run("check", plan, "--json")
    (finding,) = json.loads(result.stdout)
    assert (result.exit_code, finding["code"], finding["severity"]) == (1, "unknown-key", "error")
    assert finding["where"] == {"file": "p.toml", "line": 10, "column": 1, "field": "containers.1.aprat"}


def test_check_of_a_sound_plan(plan: Path) -> None:
    """A plan with warnings alone is sound: the count of findings, exit code 0."""
    plan.write_text(GOOD, encoding="utf-8")
    result = run("check", plan)
    assert result.exit_code == 0
    assert re.search(r"^\d+ findings?\.$", result.stdout, re.MULTILINE)


def test_explain(plan: Path) -> None:
    """A figure is explained with its formula, its inputs and its source; a list is given without one."""
    plan.write_text(GOOD, encoding="utf-8")
    listed = run("explain", plan).stdout.split()
    assert "rows/rail/fill_volume_l" in listed
    said = run("explain", plan, "fill_volume_l").stdout
    assert said.startswith("rows/rail/fill_volume_l = ")
    for words in ("Formula:", "Inputs:", "Source: "):
        assert words in said


def test_explain_a_figure_that_is_not(plan: Path) -> None:
    """A figure with a slip in it offers the nearest; one like nothing says how to list them."""
    plan.write_text(GOOD, encoding="utf-8")
    near, far = run("explain", plan, "fill_volum_l"), run("explain", plan, "zzzzzz")
    assert (near.exit_code, far.exit_code) == (1, 1)
    assert "Did you mean" in near.stderr
    assert "fill_volume_l" in near.stderr
    assert "lists the figures" in far.stderr


@pytest.mark.parametrize(
    "names", ["[bold]", "[red]a[", "[]", ":rose:", "\\[x]", "a: b%s{}", "ä😀", "#1 'x' \"y\"", "x" * 200]
)
def test_names_are_shown_as_they_are(plan: Path, names: str) -> None:
    """Brackets, signs and long words in titles and names are text, not instructions to the screen."""
    text = GOOD.replace("[[containers]]", '[[zone]]\nname = "rail"\n\n[[containers]]')
    quoted = json.dumps(names, ensure_ascii=False)
    plan.write_text(text.replace('"Bad plans"', quoted).replace('"rail"', quoted), encoding="utf-8")
    result = run("design", plan)
    assert result.exit_code == 0
    assert result.stdout.replace("\n", "").startswith(names)
    assert f"{names}: run " in result.stdout or len(names) > 99


class TestRealProcess:
    """The few things that only a process of its own can show."""

    def test_exit_codes(self, plan: Path) -> None:
        """0 for a sound plan, 1 for a wrong one, 2 for wrong usage."""
        assert process("new", plan).returncode == 0
        assert process("check", plan).returncode == 0
        assert process("check", plan.with_name("none")).returncode == 1
        assert process("check").returncode == 2

    def test_a_terminal_that_lacks_signs(self) -> None:
        """A terminal in an old encoding shows what it can."""
        result = process("demo", PYTHONIOENCODING="ascii")
        assert (result.returncode, result.stderr) == (0, "")
        assert "?" in result.stdout

    def test_nothing_but_json(self) -> None:
        """With --json nothing else stands on the output."""
        result = process("demo", "--json")
        assert json.loads(result.stdout)["title"] == "Alder Point landing"
        assert result.stderr == ""

    def test_version(self) -> None:
        """The version is the package's."""
        assert re.fullmatch(r"Brimful \d+\.\d+\.\d+\n", process("--version").stdout)
