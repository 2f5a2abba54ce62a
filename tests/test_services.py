"""The use cases: whatever a plan file holds, the answer is a design, findings, or one plain sentence."""

import json
import os
import re
import shutil
import stat
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.cli.bad_plans import GOOD

from brimful import services
from brimful.design.model import Design
from brimful.errors import BrimfulError, CatalogError
from brimful.findings import Severity
from brimful.render.as_json import schema, to_data
from brimful.render.as_text import finding_lines
from brimful.render.summary import summary_text
from brimful.services import Answer, example, figures_like, save_whole, work_out, write_design, write_starter

MANY = 1500 if os.environ.get("BRIMFUL_TEST_ALL") else 120
EXAMPLES = ("alder_point_landing", "courthouse_square", "balcony")
SHORT = settings(
    max_examples=MANY, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck), phases=[Phase.generate]
)
VALUES = [
    '"0 m"', '"1 mm"', '"19 m"', '"-1 m"', '"31 psi"', '"0.1 psi"', '"200 psi"', '"2 gph"', '"1e9 m"', '"5 gal in 1 s"',
    "0", "1", "-1", "2.5", "1e308", "nan", "inf", "true", '""', '"x"', '"[/]"', "[]", "{}", "[[]]", "2024-02-29",
    '"round"', '"urn"', '"bowl"', '"round-concrete-31x25"', '"square-steel-24x30"', '"urn-cast-iron-18x18"',
    '"balcony-box-24x8x8"', '"pc-4gph"', '{ type = "microtube-0.9x1.5m", count = 9 }', '{ loops = 6 }',
    '{ length = "40 m" }', '{ tube = "feeder-quarter-0.170", length = "60 m" }', '"feeder-quarter-0.170"',
    '"50 %"', '"1 %"', '"15 January"', '"35 °F"', '"200 °F"', '["500 m"]', '["1 angelonia"]', '["150 canna-dwarf"]',
    '"massed"', '"sheltered"', "12", "40", "-45", "89.9", '"4000 m"', '"metric"',
]  # fmt: skip
KEYS = [
    "count", "apart", "rise", "rise_last", "approach", "headspace", "raised", "levels", "leaves_main_at", "zone", "mix",
    "recipe", "plants", "emitters", "dripline", "feeder", "regulator", "lateral", "main", "pressure", "share", "units",
    "bucket_tests", "latitude", "elevation", "coastal", "wind_height", "height", "top", "wall", "base", "reservoir",
]  # fmt: skip
CHANGES = st.tuples(
    st.sampled_from(["drop", "double", "swap", "value", "key", "add", "letter"]),
    st.integers(0, 10_000),
    st.integers(0, 10_000),
    st.sampled_from(VALUES),
    st.sampled_from(KEYS),
)


def changed(text: str, change: tuple[str, int, int, str, str]) -> str:
    """The text with one line, value, key or letter changed."""
    kind, one, two, value, key = change
    lines = text.split("\n")
    at, other = one % len(lines), two % len(lines)
    if kind == "drop":
        del lines[at]
    elif kind == "double":
        lines.insert(other, lines[at])
    elif kind == "swap":
        lines[at], lines[other] = lines[other], lines[at]
    elif kind == "value":
        lines[at] = re.sub(r"(?<== ).*", lambda _: value, lines[at], count=1)
    elif kind == "key":
        lines[at] = re.sub(r"^\w+(?= =)", key, lines[at])
    elif kind == "add":
        lines.insert(at, f"{key} = {value}")
    else:
        at = one % len(text)
        return text[:at] + chr(32 + two % 95) + text[at + 1 :]
    return "\n".join(lines)


@cache
def validator() -> Draft202012Validator:
    """The schema of a design, ready to use."""
    return Draft202012Validator(schema(Design))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the weather files of the examples."""
    folder = tmp_path_factory.mktemp("plans")
    for path in example("balcony").parent.glob("*.csv"):
        shutil.copy(path, folder)
    return folder


def plan_at(folder: Path, text: str) -> Path:
    """A plan file with this text."""
    path = folder / "p.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", EXAMPLES)
@settings(SHORT)
@given(changes=st.lists(CHANGES, min_size=1, max_size=2))
def test_a_changed_plan_is_answered(folder: Path, name: str, changes: list[tuple[str, int, int, str, str]]) -> None:
    """Whatever is dropped, doubled or altered in an example, a design or an error in words comes of it and prints."""
    text = example(name).read_text(encoding="utf-8")
    for change in changes:
        text = changed(text, change)
    try:
        answer = work_out(plan_at(folder, text))
    except BrimfulError as error:
        assert len(str(error)) > 20
        return
    assert (answer.design is not None) or any(f.severity is Severity.ERROR for f in answer.findings)
    assert all(f.message and f.code for f in answer.findings)
    assert list(finding_lines(answer.findings)) == [line for line in finding_lines(answer.findings) if line.strip()]
    if answer.design is not None:
        assert summary_text(answer.design, answer.findings)
        validator().validate(json.loads(json.dumps(to_data(answer.design), allow_nan=False)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_are_sound(name: str) -> None:
    """Each example is worked out, the tap carries it, the water is even, and the timer manages it."""
    answer = work_out(example(name))
    assert answer.sound
    codes = {f.code for f in answer.findings}
    assert not codes & {"supply-short", "uneven-water", "no-water", "start-floods", "run-time-short"}


def test_sound_means_no_error(tmp_path: Path) -> None:
    """An answer is sound with a design and no error among its findings."""
    assert work_out(plan_at(tmp_path, GOOD)).sound
    assert not work_out(plan_at(tmp_path, GOOD + 'rise = "50 m"\n')).sound
    assert not work_out(plan_at(tmp_path, GOOD + "x = 1\n")).sound


def test_units_of_the_reader_go_before_the_plans(tmp_path: Path) -> None:
    """Findings too speak in the units that are asked for."""
    text = GOOD.replace("count = 3", "count = 60") + 'emitters = { type = "pc-4gph", count = 4 }\n'
    path = plan_at(tmp_path, text)

    def short(units: str | None) -> str:
        return next(f.message for f in work_out(path, units).findings if f.code == "supply-short")

    assert "gpm" in short(None)
    assert "L/h" in short("metric")
    assert "gp" not in short("metric")


def test_a_users_table_that_is_wrong(tmp_path: Path) -> None:
    """A wrong table beside the plan is one error with the file's name and line; a right one is used."""
    path = plan_at(tmp_path, GOOD)
    table = tmp_path / "brimful-mixes.csv"
    table.write_text("key,name\nmine,my mix\n")
    with pytest.raises(CatalogError, match="brimful-mixes"):
        work_out(path)
    table.rename(tmp_path / "brimful-mixers.csv")
    with pytest.raises(CatalogError, match="mixers"):
        work_out(path)


def test_same_plan_same_answer(tmp_path: Path) -> None:
    """Worked out twice, a plan gives the same design to the last digit."""
    path = example("alder_point_landing")
    assert to_data(work_out(path).design) == to_data(work_out(path).design)


def test_starter_is_never_written_over(tmp_path: Path) -> None:
    """A file that is there stays as it is."""
    path = tmp_path / "plan.toml"
    write_starter(path)
    with pytest.raises(FileExistsError):
        write_starter(path)


def test_files_are_whole_or_not_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A save that fails half way leaves the old file and nothing else; one that succeeds can be read by others."""
    path = tmp_path / "design.json"
    save_whole(path, "old")
    assert stat.S_IMODE(path.stat().st_mode) == 0o644

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(services.saving.os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        save_whole(path, "new")
    assert [(one.name, one.read_text()) for one in tmp_path.iterdir()] == [("design.json", "old")]


def test_no_design_writes_nothing(tmp_path: Path) -> None:
    """Without a design no folder is made."""
    answer = work_out(plan_at(tmp_path, ""))
    assert write_design(answer, tmp_path / "out") == []
    assert not (tmp_path / "out").exists()


@pytest.fixture(scope="module")
def balcony() -> Answer:
    """The smallest example, worked out."""
    return work_out(example("balcony"))


def test_figures_by_path_by_end_and_by_table(balcony: Answer) -> None:
    """A figure is found by its whole path, by its name, and all figures of a row by the row."""
    whole, _ = figures_like(balcony.workings, "rows/rail/fill_volume_l")
    by_name, _ = figures_like(balcony.workings, "fill_volume_l")
    of_row, _ = figures_like(balcony.workings, "rows/rail")
    assert [one.figure for one in whole] == [one.figure for one in by_name] == ["rows/rail/fill_volume_l"]
    assert whole[0] in of_row
    assert len(of_row) > 5


def test_figures_that_are_not(balcony: Answer) -> None:
    """A slip offers the nearest figures, first by path and then by name."""
    for slip, meant in (("rows/rail/fil_volume_l", "rows/rail/fill_volume_l"), ("fill_volme_l", "fill_volume_l")):
        found, near = figures_like(balcony.workings, slip)
        assert found == []
        assert any(one.endswith(meant) for one in near)
    assert figures_like(balcony.workings, "zzzzz") == ([], [])
