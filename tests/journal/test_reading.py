"""What a person writes becomes kind, value and words; what is doubtful is refused."""

import re
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.journal.making import NOON, SHORT, entry

from brimful.errors import EntryRefused
from brimful.journal import KINDS, Entry, new_id, problems, told, told_entry
from brimful.journal.moments import read_moment
from brimful.journal.reading import Said, read_said
from brimful.quantities import System

SAID = [
    ("dry", Said("finger", 0.0)), ("Moist, at the edge", Said("finger", 1.0, None, "at the edge")),
    ("feels wet", Said("finger", 2.0)), ("finger test dry", Said("finger", 0.0)), ("40 %", Said("probe", 0.4)),
    ("probe 0.4", Said("probe", 0.4)), ("weight 20 kg soaked", Said("weight", 20.0, None, "soaked")),
    ("caught 300 mL in 5 min", Said("catch", 0.3, 300.0)), ("0 mL in 300 s", Said("catch", 0.0, 300.0)),
    ("catch 2 L", Said("catch", 2.0)), ("meter 12 m3", Said("meter", 12000.0)), ("0.4 in", Said("rain", 10.16)),
    ("½ in overnight", Said("rain", 12.7, None, "overnight")), ("ran 1 h 30 min", Said("ran", 5400.0)),
    ("12 min", Said("ran", 720.0)), ("watered by hand 5 L", Said("hand-watered", 5.0)), ("FED", Said("fed")),
    ("fed half strength", Said("fed", words="half strength")), ("trimmed", Said("trimmed")),
    ("problem: drips", Said("problem", words="drips")), ("note 7 bees", Said("note", words="7 bees")),
    ("leaves hang", Said("note", words="leaves hang")), ("feds", None), ("weihgt 20 kg", None), ("20 kgs 5", None),
    ("300 mL", None), ("7", None), ("", None), ("ran", None), ("ran 12", None), ("ran 12 in", None),
    ("problem", None), ("replaced", None), ("probe 40", None), ("rain 1 kg", None), ("catch 5 min", None),
    ("dry 5 days now", Said("finger", 0.0, None, "5 days now")),
]  # fmt: skip


@pytest.mark.parametrize(("text", "said"), SAID, ids=[text or "nothing" for text, _ in SAID])
def test_what_was_said(text: str, said: Said | None) -> None:
    """Values with or without the word before them, words after them; None is refused."""
    if said is None:
        with pytest.raises(EntryRefused):
            read_said(text)
    else:
        assert read_said(text) == Said(said.kind, said.value and pytest.approx(said.value), said.during_s, said.words)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_examples_are_understood(kind: object) -> None:
    """Each kind's own example, which messages show, is read as that kind and makes a sound entry."""
    one = KINDS[kind.key]  # type: ignore[attr-defined]
    example = one.example if one.example.startswith(one.name) else f"{one.name} {one.example}"
    said = read_said(example)
    assert said.kind == one.key
    corrects = new_id() if one.key == "withdrawn" else None
    made = Entry(new_id(), NOON, said.kind, "", "", said.value, said.during_s, said.words, corrects)
    assert problems(made) == ()
    assert told(made.kind, made.value, made.during_s, System.US).startswith(one.name)


def test_the_guide_tells_every_kind() -> None:
    """Each kind stands in the guide's table of the journal, with the scope of places where it belongs, and no other."""
    text = (Path(__file__).parents[2] / "docs" / "guide.md").read_text(encoding="utf-8")
    rows = [line.split("|") for line in text.split("\n## The journal\n")[1].split("\n## ")[0].splitlines()]
    told_at = {key: row[3].strip() for row in rows if len(row) == 5 for key in re.findall(r"`([\w-]+)`", row[1])}
    words = {"container": "container", "zone": "zone", "whole": "all"}
    at = {kind.key: ", ".join(words.get(one, one) for one in kind.at) for kind in KINDS.values()}
    belongs = {key: "any" if one.count(",") == 3 else one for key, one in at.items()}
    assert told_at == belongs


@SHORT
@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    """Whatever is written is understood or refused, and loses no letter when it is taken for a note."""
    try:
        said = read_said(text)
    except EntryRefused as refused:
        assert str(refused)
        return
    if said.kind == "note" and not text.lower().split()[0].startswith("note"):
        assert said.words == " ".join(text.split())


@pytest.mark.parametrize(
    ("text", "moment"),
    [("2026-07-02 6:40", datetime(2026, 7, 2, 6, 40)), ("2026-07-02T06:40", datetime(2026, 7, 2, 6, 40)),
     ("6:40", datetime(2026, 7, 2, 6, 40)), ("6:40 pm", datetime(2026, 7, 2, 18, 40)),
     ("7 AM", datetime(2026, 7, 2, 7)),
     ("2026-06-30", datetime(2026, 6, 30, 12)), ("2026-06-30 12:15 am", datetime(2026, 6, 30, 0, 15))],
)  # fmt: skip
def test_moments(text: str, moment: datetime) -> None:
    """Day and time by the clock of this place; a day alone is its noon, a time alone is today's."""
    now = datetime(2026, 7, 2, 20, 0).astimezone()
    assert read_moment(text, now) == moment.astimezone()


def test_a_moment_with_an_offset() -> None:
    """A moment that says its offset from UTC is that moment."""
    assert read_moment("2026-07-02T06:40:00-07:00", NOON) == datetime(2026, 7, 2, 13, 40, tzinfo=UTC)


@pytest.mark.parametrize("text", ["", "noon", "2026-02-30 6:40", "25:00", "0001-01-01T00:00+14:00", "02/07/2026"])
def test_no_moment(text: str) -> None:
    """What is no moment, or one that can be read two ways, is refused with an example."""
    with pytest.raises(EntryRefused, match="for example"):
        read_moment(text, NOON)


def test_told() -> None:
    """An entry on one line, by the clock and in the units asked for; a kind of a newer program by its key."""
    zone = timezone(timedelta(hours=-7))
    one = entry(kind="rain", value=10.16, place="", by="Ann", words="two\nlines")
    line = told_entry(one, System.US, zone)
    assert line == f"2026-07-02 05:00  all  rain 0.4 in: two lines, Ann  [{one.id[:8]}]"
    assert told("leaf-colour", 3.25, None, System.US) == "leaf-colour 3.25"
