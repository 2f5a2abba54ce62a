"""Reading a plan file: every problem at once with its place, and nothing but a plain sentence for what is no plan."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.errors import PlanUnreadable
from brimful.findings import Place
from brimful.plan import read
from brimful.plan.read import MOST_FINDINGS, read_plan, read_text

HERE = Path("plan.toml")
MANY = """\
titel = "x"
units = "imperial"
[site]
latitude = "95 N"
  elevation = "12 psi"
[supply]
bucket_tests = ["5 gal in 45 s", "5 gal"]
[[containers]]
name = "a"
count = 2
apart = "0 ft"
container = { shape = "round", top = "31 in", hieght = "25 in" }
[[containers]]
container = "round-concrete-31x25"
plants = ["1 canna", "canna"]
[recipe.x]
plants = []
"""


def at(text: str) -> list[tuple[int, int, str]]:
    """Line, column and field of every finding."""
    return [(f.where.line, f.where.column, f.where.field) for f in read_text(text, HERE).findings]


def test_every_problem_at_once_each_in_its_place() -> None:
    """One reading finds all the problems, in the order of the file, at the key or entry that is wrong."""
    assert at(MANY) == [
        (1, 1, "titel"),
        (2, 1, "units"),
        (4, 1, "site.latitude"),
        (5, 3, "site.elevation"),
        (7, 34, "supply.bucket_tests.2"),
        (11, 1, "containers.1.apart"),
        (12, 47, "containers.1.container.hieght"),
        (13, 3, "containers.2.name"),
        (15, 22, "containers.2.plants.2"),
        (17, 1, "recipe.x.plants"),
    ]


def test_each_says_what_was_given_and_expected() -> None:
    """The messages name the key, or the entry of a list by its number, and offer the nearest word."""
    said = {f.where.field: f"{f.message} {f.remedy}" for f in read_text(MANY, HERE).findings}
    assert 'Did you mean "title"' in said["titel"]
    assert said["units"].startswith("units: 'imperial' was given; one of US, metric was expected.")
    assert said["site.elevation"].startswith('elevation: "12 psi" is a pressure; a length was expected')
    assert said["supply.bucket_tests.2"].startswith('bucket_tests entry 2: "5 gal" is not a bucket test')
    assert 'Did you mean "height"' in said["containers.1.container.hieght"]
    assert said["containers.2.name"] == '"name" is missing Add it here.'
    assert said["recipe.x.plants"].startswith("plants: [] was given; at least one entry was expected")


def test_the_file_is_named() -> None:
    """A place prints as file:line:column."""
    assert str(read_text(MANY, Path("folder/plan.toml")).findings[0].where) == "plan.toml:1:1"


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a = ", (1, 5)),
        ("a = 1\n\n  b = oops\n", (3, 7)),
        ('x = "never closed', (1, 18)),
        ("a = 1\na = 2\n", (2, 6)),
        ("\x00\x01\x02", (1, 1)),
        ("just words, no plan", (1, 6)),
        ("height = 25 in\n[[containers]]\n", (1, 13)),
        ("count = 3\nn = " + "9" * 5000, (2, 5)),
    ],
    ids=lambda value: repr(value)[:20],
)
def test_not_toml(text: str, place: tuple[int, int]) -> None:
    """What TOML cannot read is one error where the reader stopped, and no plan."""
    file = read_text(text, HERE)
    (finding,) = file.findings
    assert (file.plan, finding.code) == (None, "not-toml")
    assert (finding.where.line, finding.where.column) == place


@pytest.mark.parametrize("text", ["a = " + "[" * 100_000, "a = " + "[" * 5000 + "]" * 5000, "a = " + "{a=" * 90_000])
def test_nested_too_deep(text: str) -> None:
    """A text nested without end is said to be no plan."""
    (finding,) = read_text(text, HERE).findings
    assert finding.message == "not a plan: nested too deep"


@pytest.mark.parametrize("key", ["count", "title", "coastal", "site", "headspace", "timer.most_starts", "units"])
def test_numbers_longer_than_python_prints(key: str) -> None:
    """A hexadecimal number of any length is read, refused, and not printed out."""
    findings = read_text(f"{key} = 0x{'F' * 9000}\n", HERE).findings
    assert findings
    assert all(len(f.message) < 300 for f in findings)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[containers]\nname = "a"\n', "Write [[containers]], with double brackets, above each."),
        ('[zone]\nname = "a"\n[[containers]]\nname="a"\ncontainer="x"\n', "Write [[zone]], with double brackets"),
        ('[[site]]\nplace = "a"\n[[containers]]\nname="a"\ncontainer="x"\n', "Write [site], with single brackets."),
    ],
)
def test_single_and_double_brackets(text: str, words: str) -> None:
    """The commonest slip of all is told apart and mended in so many words."""
    (finding,) = read_text(text, HERE).findings
    assert words in finding.remedy


def test_an_empty_file_lacks_its_containers() -> None:
    """Nothing at all is not a plan: containers are missing."""
    (finding,) = read_text("", HERE).findings
    assert finding.message == '"containers" is missing'
    (finding,) = read_text("containers = []", HERE).findings
    assert "at least one entry was expected" in finding.message


def test_a_flood_of_problems_is_counted() -> None:
    """Beyond a couple of hundred, problems are counted and not listed."""
    findings = read_text("\n".join(f"key{i} = 1" for i in range(1000)), HERE).findings
    assert len(findings) == MOST_FINDINGS + 1
    assert findings[-1].message == f"{1001 - MOST_FINDINGS} more problems were found"


GOOD = '# ä\ntitle = "Ä"\n[[containers]]\nname = "a"\ncontainer = "round-concrete-31x25"\nbad = 1\n'


@pytest.mark.parametrize(
    "data", [GOOD.encode(), GOOD.encode("utf-8-sig"), GOOD.replace("\n", "\r\n").encode()], ids=["LF", "BOM", "CRLF"]
)
def test_byte_order_mark_and_line_ends(tmp_path: Path, data: bytes) -> None:
    """A file from any editor reads alike, and lines and columns stay right."""
    path = tmp_path / "plan.toml"
    path.write_bytes(data)
    (finding,) = read_plan(path).findings
    assert finding.where == Place("plan.toml", 6, 1, "containers.1.bad")
    path.write_bytes(data.replace(b"bad", b"# bad"))
    plan = read_plan(path).plan
    assert plan is not None
    assert plan.title == "Ä"


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"# " + b"noise " * 1_700_000, "more than 2 MB was given; a plan has at most 2 MB"),
        (bytes(range(256)), "byte 128 is not text"),
        ("title = 'é'".encode("latin-1"), "byte 9 is not text"),
        ("title = 'a'".encode("utf-16"), "byte 0 is not text"),
    ],
    ids=["10 MB", "binary", "latin-1", "UTF-16"],
)
def test_no_text_file(tmp_path: Path, data: bytes, said: str) -> None:
    """Noise, pictures and other encodings are refused in one sentence."""
    path = tmp_path / "plan.toml"
    path.write_bytes(data)
    with pytest.raises(PlanUnreadable, match=said):
        read_plan(path)


def test_no_file_and_no_permission(tmp_path: Path) -> None:
    """A missing file, a folder, a name that is too long: one sentence each, with what to do where it helps."""
    with pytest.raises(PlanUnreadable, match=r"no such file. `brimful new .*` writes a starter there"):
        read_plan(tmp_path / "none.toml")
    with pytest.raises(PlanUnreadable, match="a folder was given"):
        read_plan(tmp_path)
    with pytest.raises(PlanUnreadable, match="too long"):
        read_plan(tmp_path / ("x" * 999))
    (tmp_path / "file").write_text("")
    with pytest.raises(PlanUnreadable, match="Not a directory"):
        read_plan(tmp_path / "file" / "plan.toml")
    with pytest.raises(PlanUnreadable, match="null byte"):
        read_plan(Path("nul\0byte"))


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="the system has no endless file")
def test_an_endless_file_is_left_off() -> None:
    """A device that never ends is refused at the limit."""
    with pytest.raises(PlanUnreadable, match="more than 2 MB"):
        read_plan(Path("/dev/zero"))


LINES = st.sampled_from(
    [*MANY.split("\n"), "[site]", "[[zone]]", "a.b.c = 1", "x = [", "]", '"""', "count = 1e400", "y = nan"]
)


@given(st.lists(LINES, max_size=12).map("\n".join) | st.text(max_size=200))
def test_any_text_is_a_plan_or_findings(text: str) -> None:
    """Whatever the text, reading it gives a plan or at least one finding within the text."""
    file = read_text(text, HERE)
    assert (file.plan is None) == bool(file.findings)
    lines = text.count("\n") + 1
    assert all(0 <= f.where.line <= lines and f.message for f in file.findings)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    """Whatever the bytes, the file is read or refused as unreadable."""
    path = tmp_path_factory.getbasetemp() / "noise.toml"
    path.write_bytes(data)
    try:
        assert read_plan(path).text is not None
    except PlanUnreadable as error:
        assert str(path) in str(error)


def test_places_fall_back_to_the_table_around() -> None:
    """A key that the file lacks is placed at the nearest table around it; the dotted path is kept."""
    places = read_text("[site]\nplace = 'x'\n", HERE).places
    assert places.at("site", "latitude") == Place("plan.toml", 1, 2, "site.latitude")
    assert places.at("tubing", 3) == Place("plan.toml", 0, 0, "tubing.4")


def test_limits_are_tomllibs_own() -> None:
    """The length at which a number is too long is the one that Python sets."""
    with pytest.raises(ValueError, match="4300"):
        tomllib.loads("a = " + "9" * 4301)
    assert read._DIGITS.pattern.startswith("[0-9_]{4301")
