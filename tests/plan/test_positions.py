"""Positions: line and column of every key and value in a TOML document."""

import tomllib
from datetime import date, datetime, time
from textwrap import dedent
from typing import Any

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from brimful.plan.positions import DEEPEST, Path, Spot, locate_toml_error, positions

PLAN = dedent(
    """\
    # a plan
    title = "Gate # [not a table]"   # with a comment

    [site]
    place = "the drive"
    "quoted key" = 1
    size.height = '31 in'
    size . "wi\\u0064th" = 12

    [[containers]]
    count = 3
    plants = [
      { plant = "canna", count = 2 },  # tall
      { plant = "ivy", count = 6 },
    ]
    [containers.mix]
    name = '''
    two
    = lines'''
    after = 2027-05-15 07:30:00
    last = true

    [[containers]]
    count = 4
    [[containers.feeds]]
    dose = 1.5
    """
)


def _text_at(text: str, line: int, column: int) -> str:
    """What stands at a place, to the end of the document."""
    lines = text.split("\n")
    return "\n".join([lines[line - 1][column - 1 :], *lines[line:]])


def _paths(value: Any, path: Path = ()) -> dict[Path, Any]:
    """Every path of a loaded document and what it holds."""
    found = {path: value} if path else {}
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, one in inner:
        found |= _paths(one, (*path, key))
    return found


def _read_back(rest: str) -> Any:
    """The TOML value that the text starts with: the longest beginning that is one."""
    for end in sorted({i for i in range(1, len(rest) + 1) if i == len(rest) or rest[i] in ",]} \n\r#"}, reverse=True):
        try:
            return tomllib.loads(f"value = {rest[:end]}")["value"]
        except tomllib.TOMLDecodeError:
            continue
    raise AssertionError(f"no value at {rest[:40]!r}")


@pytest.mark.parametrize(
    ("path", "spot"),
    [
        (("title",), (2, 1, 2, 9)),
        (("site",), (4, 2, 4, 2)),
        (("site", "place"), (5, 1, 5, 9)),
        (("site", "quoted key"), (6, 1, 6, 16)),
        (("site", "size"), (7, 1, 7, 1)),
        (("site", "size", "height"), (7, 6, 7, 15)),
        (("site", "size", "width"), (8, 8, 8, 23)),
        (("containers",), (10, 3, 10, 3)),
        (("containers", 0), (10, 3, 10, 3)),
        (("containers", 0, "plants"), (12, 1, 12, 10)),
        (("containers", 0, "plants", 1), (14, 3, 14, 3)),
        (("containers", 0, "plants", 1, "count"), (14, 20, 14, 28)),
        (("containers", 0, "mix", "name"), (17, 1, 17, 8)),
        (("containers", 0, "mix", "after"), (20, 1, 20, 9)),
        (("containers", 0, "mix", "last"), (21, 1, 21, 8)),
        (("containers", 1), (23, 3, 23, 3)),
        (("containers", 1, "feeds", 0, "dose"), (26, 1, 26, 8)),
    ],
)
def test_each_kind_of_key_has_its_place(path: Path, spot: tuple[int, int, int, int]) -> None:
    """Tables, arrays of tables, dotted, quoted and inline keys stand where a person counts them."""
    assert positions(PLAN)[path] == Spot(*spot)


def test_the_paths_are_those_of_tomllib() -> None:
    """Exactly the paths that tomllib loads have a place, no more and no fewer."""
    assert set(positions(PLAN)) == set(_paths(tomllib.loads(PLAN)))


def test_line_ends_and_byte_order_mark_do_not_move_anything() -> None:
    """CRLF line ends and a byte order mark leave every place as it was."""
    assert positions("\ufeff" + PLAN.replace("\n", "\r\n")) == positions(PLAN)


def test_a_table_is_where_its_header_is_though_mentioned_before() -> None:
    """A table's own header beats an earlier mention in another header."""
    assert positions("[a.b]\nc = 1\n[a]\nd = 2")[("a",)] == Spot(3, 2, 3, 2)


def test_quotes_at_the_end_of_multi_line_strings() -> None:
    """Up to five quotes may close a multi-line string; what follows is still found."""
    text = 'a = """x"""""\nb = """\\"""" # "\nc = \'\'\'\'\'x\'\'\'\'\'\nd = ""\ne = 1'
    assert set(positions(text)) == {(key,) for key in tomllib.loads(text)} == {("a",), ("b",), ("c",), ("d",), ("e",)}
    assert positions(text)[("e",)] == Spot(5, 1, 5, 5)


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment", "[table]", "\ufeff", "a={}", "a=[]", "a=[[],[{}],]"])
def test_small_documents(text: str) -> None:
    """Nearly empty documents have just their own paths."""
    assert set(positions(text)) == set(_paths(tomllib.loads(text.removeprefix("\ufeff"))))


@pytest.mark.parametrize("text", ["a = " + "[" * 300 + "]" * 300, "a" + ".a" * 3000 + " = 1", "[" + "a." * 900 + "a]"])
def test_deep_nesting_costs_little(text: str) -> None:
    """Paths deeper than the limit are left out, so that a hostile document cannot fill the memory."""
    tomllib.loads(text)
    assert max(len(path) for path in positions(text)) == DEEPEST


keys = st.text("abz_-9", min_size=1, max_size=4) | st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=5)
strings = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x7f"), max_size=12)
leaves = (
    st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False)
    | strings
    | st.dates(min_value=date(1000, 1, 1))
    | st.times().map(lambda t: time(t.hour, t.minute, t.second))
    | st.datetimes(min_value=datetime(1000, 1, 1)).map(lambda d: d.replace(microsecond=0))
)
values = st.recursive(leaves, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(keys, inner, max_size=3))
documents = st.dictionaries(keys, values, max_size=4)


@given(documents)
def test_every_path_is_found_and_its_value_starts_there(document: dict[str, Any]) -> None:
    """Whatever tomlkit writes, every path that tomllib reads has a place, and the value can be read there."""
    text = tomlkit.dumps(document)
    loaded = _paths(tomllib.loads(text))
    spots = positions(text)
    assert set(spots) == set(loaded)
    for path, value in loaded.items():
        spot = spots[path]
        if not isinstance(value, dict | list):
            assert _read_back(_text_at(text, spot.value_line, spot.value_column)) == value
        if isinstance(path[-1], str):
            assert _key_starts(_text_at(text, spot.line, spot.column), path[-1])


def _key_starts(rest: str, key: str) -> bool:
    """Whether the text starts with the key, bare or quoted in any way."""
    ends = [i for i in range(1, len(rest.split("\n", maxsplit=1)[0]) + 1) if i == len(rest) or rest[i] in "=.] \n"]
    for end in ends:
        try:
            if tomllib.loads(f"{rest[:end]} = 0") == {key: 0}:
                return True
        except tomllib.TOMLDecodeError:
            continue
    return False


lines = st.sampled_from(
    [
        "a = 1",
        "[t]",
        "[[x]]",
        "[x.y]",
        "[[x.y]]",
        "b.c = [1, {d = 2}]",
        "'q' = '''",
        "'''",
        '"e" = """\\',
        '"""',
        "# c",
        "",
        "f = {g.h = 1}",
        "i = 1979-05-27 07:32:00Z # d",
        "j = [",
        "]",
        "1, 2,",
        "k = inf",
        "[t.u]",
        "b.d = 2",
    ]
)


@given(st.lists(lines, max_size=8).map("\n".join))
def test_any_accepted_mixture_of_lines_has_all_its_paths(text: str) -> None:
    """Lines thrown together: where tomllib accepts the whole, the paths are the same."""
    try:
        loaded = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert set(positions(text)) == set(_paths(loaded))


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a = 1\nb = ?", (2, 5)),
        ("a = 1\r\nb = ?\r\n", (2, 5)),
        ("a = [1,\n", (2, 1)),
        ("a = 1\n\n[t", (3, 3)),
        ('a = "x', (1, 7)),
    ],
)
def test_a_toml_error_is_located(text: str, place: tuple[int, int]) -> None:
    """What tomllib complains of has a line and column, also where the document just ends."""
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        tomllib.loads(text)
    assert locate_toml_error(text, caught.value) == place


def test_an_error_without_a_place_is_the_file_as_a_whole() -> None:
    """A message that names no place gives 0, 0."""
    assert locate_toml_error("a", tomllib.TOMLDecodeError("no place")) == (0, 0)
