"""The journal as JSON lines: there and back without loss; what is no entry is told by its line's number."""

import json
import string
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.journal.making import NOON, SHORT, entry

from brimful.journal import KINDS, Entry, Kind, problems
from brimful.journal.lines import LONGEST_LINE, entry_of, read_lines, to_line, to_lines
from brimful.journal.store import Journal, open_journal
from brimful.render.as_json import schema, to_data

FILE = Path(__file__).parents[2] / "docs" / "journal-schema.json"
MOMENTS = st.datetimes(
    datetime(1900, 1, 1), datetime(9998, 1, 1), timezones=st.just(UTC) | st.just(timezone(timedelta(hours=5.75)))
)
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=50)


def of_kind(kind: Kind) -> st.SearchStrategy[Entry]:
    """Any sound entry of one kind."""
    values: st.SearchStrategy[float | None] = st.none()
    if kind.choices:
        values = st.sampled_from([float(at) for at in range(len(kind.choices))])
    elif kind.dimension is not None:
        values = st.floats(0, kind.most)
    ids, words = st.uuids().map(str), TEXTS.filter(str.strip) | st.just("two\nlines")
    return st.builds(
        Entry, id=ids, made_at=MOMENTS, kind=st.just(kind.key), place=TEXTS, by=TEXTS, value=values,
        during_s=st.floats(0, 86_400, exclude_min=True) | st.none() if kind.timed else st.none(), words=words,
        corrects=ids if kind.key == "withdrawn" else ids | st.none(), received_at=MOMENTS | st.none(),
    )  # fmt: skip


ENTRIES = st.sampled_from(list(KINDS.values())).flatmap(of_kind)


@SHORT
@given(st.lists(ENTRIES, max_size=20))
def test_there_and_back(entries: list[Entry]) -> None:
    """What is written as lines is read as the same entries, every bit of every number."""
    read = read_lines(to_lines(entries).encode())
    assert (read.entries, read.problems) == (tuple(entries), ())


@SHORT
@given(st.lists(ENTRIES, max_size=5), st.binary(max_size=300).filter(lambda b: b.strip()))
def test_whatever_a_file_holds(entries: list[Entry], rubbish: bytes) -> None:
    """Rubbish between sound lines is told, and takes no sound line with it."""
    text = to_lines(entries).encode()
    read = read_lines(text + b"\n" + rubbish + b"\n" + text)
    assert read.entries == (*entries, *entries)
    assert bool(read.problems) == any(part.strip() for part in rubbish.split(b"\n"))


def test_a_journal_handed_on(journal: Journal, tmp_path: Path) -> None:
    """A journal written out and brought into an empty one is written out the same, byte for byte."""
    moments = (NOON + timedelta(minutes=m) for m in (3, 1, 2))
    for moment in moments:
        journal.append([entry(made_at=moment, value=float(moment.minute % 3)), entry(kind="fed", words="é\n½")])
    lines = to_lines(journal.as_received())
    with open_journal(tmp_path / "other.journal") as other:
        for _ in range(2):
            other.append(read_lines(lines.encode()).entries)
        assert to_lines(other.as_received()) == lines


GOOD = json.loads(to_line(entry()))


RAW = json.dumps(GOOD)
WRONG: list[tuple[object, str]] = [
    ("{", "not JSON"), ("[]", "one entry"), ('"x"', "one entry"), ("null", "one entry"), ("{}", "missing: id, made_at"),
    ({"id": 7}, "a UUID"), ({"id": GOOD["id"].upper()}, "a UUID"), ({"corrects": GOOD["id"]}, "cannot correct itself"),
    ({"made_at": "noon"}, "made_at"), ({"made_at": "2026-07-02T12:00"}, "offset"), ({"made_at": 5}, "made_at"),
    ({"made_at": "0001-01-01T00:00+05:00"}, "made_at"), ({"received_at": "late"}, "received_at"),
    ({"kind": ["finger"]}, "kind"), ({"kind": "probed"}, 'Did you mean "probe"'), ({"x": 1}, "unknown: x"),
    ({"value": "dry"}, "a value was expected"), ({"value": 1.5}, "0 for dry, 1 for moist, 2 for wet"),
    ({"value": True}, "a value was expected"), ({"value": None}, "nothing was given"),
    ({"during_s": 5}, "none was expected"), ({"words": None}, "words were expected"),
    ({"words": "\x00"}, "control characters"), (RAW.replace("water", "\\ud800"), "control characters"),
    (RAW[:-1] + ', "id": "x"}', "stands twice"), ("[" * 99_999, "nested too deep"),
    (RAW.replace("0.0", "NaN"), "a value was expected"), (RAW.replace("0.0", "1" * 300), "0 for dry"),
    (RAW.replace("0.0", "1" * 5000), "5000 digits"), ('"' + "x" * LONGEST_LINE + '"', "bytes were given"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "words"), WRONG, ids=[words for _, words in WRONG])
def test_what_is_no_entry(line: object, words: str) -> None:
    """Each is told with its line's number, what was given and what was expected."""
    text = line if isinstance(line, str) else json.dumps(GOOD | line) if isinstance(line, dict) else ""
    read = read_lines(f"{json.dumps(GOOD)}\n{text}\n".encode())
    assert len(read.entries) == len(read.problems) == 1
    assert read.problems[0].startswith("line 2: ")
    assert words in read.problems[0]
    assert len(read.problems[0]) < 400


def test_everything_wrong_with_an_entry() -> None:
    """All that is wrong with one entry is told at once."""
    wrong = entry(id="x", made_at=NOON.replace(tzinfo=None), kind="weight", value=-1.0, during_s=3.0, by="a\nb")
    assert len(problems(wrong)) == 5


def test_the_published_schema() -> None:
    """docs/journal-schema.json is read off the entry itself."""
    assert FILE.read_text(encoding="utf-8") == json.dumps(
        schema(Entry), indent=1, sort_keys=True, ensure_ascii=False
    ) + "\n"  # fmt: skip


@SHORT
@given(ENTRIES)
def test_lines_fit_the_schema(one: Entry) -> None:
    """A line is valid against the schema and says the same as the entry's data; a key too many is not valid."""
    data, checker = json.loads(to_line(one)), Draft202012Validator(schema(Entry))
    assert checker.is_valid(data)
    assert entry_of(data) == one
    assert set(data) == set(to_data(one))
    assert not checker.is_valid({**data, string.ascii_letters: 1})
