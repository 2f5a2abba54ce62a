"""The journal in both databases: what goes in comes out, once, in order, and nothing is changed in place."""

import random
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError
from tests.journal.making import NOON, entry

from brimful.errors import EntryRefused
from brimful.journal import Entry, new_id
from brimful.journal.store import Journal, open_journal


def test_what_goes_in_comes_out(journal: Journal) -> None:
    """Each field of an entry comes back as it was, times in UTC, numbers to the last bit."""
    made = datetime(2026, 7, 2, 6, 40, 1, 123456, tzinfo=timezone(timedelta(hours=-7)))
    one = Entry(new_id(), made, "catch", "Öl & «côté» 3", "A. Gärtner", 0.1 + 0.2, 1 / 3, 'drips\n"quick"\té 🌱')
    assert journal.append([one]).new == (one.id,)
    (back,) = journal.read()
    assert (back.value, back.during_s, back.words, back.place, back.by) == (
        0.1 + 0.2, 1 / 3, one.words, one.place, one.by,
    )  # fmt: skip
    assert back.made_at == made
    assert back.made_at.utcoffset() == timedelta(0)
    assert back.received_at is not None
    assert abs(back.received_at - datetime.now(UTC)) < timedelta(minutes=1)


def test_twice_is_once(journal: Journal) -> None:
    """An entry sent again, alone or among others, or twice at once, is there once, and known."""
    one, two = entry(), entry()
    assert journal.append([one, one]).new == (one.id,)
    again = journal.append([two, one])
    assert (again.new, again.known, again.differing) == ((two.id,), (one.id,), ())
    assert journal.count() == 2


def test_the_first_stays(journal: Journal) -> None:
    """Another entry with the same id is not taken down, and told; the first stays."""
    one = entry(words="first")
    journal.append([one])
    other = entry(id=one.id, words="second")
    assert journal.append([other]).differing == (one.id,)
    assert [e.words for e in journal.read()] == ["first"]


def test_order(journal: Journal) -> None:
    """Entries are read by when they were made, then by id; the order in which they came is kept beside it."""
    made = [entry(made_at=NOON + timedelta(minutes=n // 2)) for n in range(20)]
    came = random.Random(1).sample(made, 20)
    journal.append(came[:7])
    journal.append(came[7:])
    assert [e.id for e in journal.read()] == [e.id for e in sorted(made, key=lambda e: (e.made_at, e.id))]
    assert [e.id for e in journal.as_received()] == [e.id for e in came]


def test_asked_for(journal: Journal) -> None:
    """Place, kind and a span of time choose among the entries; the span has its first moment and not its last."""
    at_three = entry(place="water side 3")
    fed = entry(kind="fed", place="zone 1", made_at=NOON + timedelta(hours=1))
    last = entry(kind="fed", place="water side 3", made_at=NOON + timedelta(hours=2))
    journal.append([at_three, fed, last])
    assert journal.read(place="water side 3") == tuple(e for e in journal.read() if e.place == "water side 3")
    assert [e.id for e in journal.read(kind="fed")] == [fed.id, last.id]
    assert [e.id for e in journal.read(since=fed.made_at, until=last.made_at)] == [fed.id]


def test_corrections(journal: Journal) -> None:
    """A correction stands for what it corrects, a withdrawal takes it out; as taken down, all of them are there."""
    wrong, kept, gone = entry(words="wrong"), entry(), entry()
    right = entry(words="right", corrects=wrong.id, place="water side 4")
    away = entry(kind="withdrawn", corrects=gone.id)
    journal.append([wrong, kept, gone, right, away])
    assert {e.id for e in journal.read()} == {kept.id, right.id}
    assert journal.read(place=wrong.place) == journal.read(place=kept.place)
    assert len(journal.read(raw=True)) == journal.count() == 5


def test_journals_of_one_database_are_apart(journal: Journal, place: Path | str) -> None:
    """Two names in one database are two journals, even for the same id."""
    one = entry()
    journal.append([one])
    with open_journal(place, "other") as other:
        assert (other.count(), other.append([one]).new) == (0, (one.id,))
    assert journal.count() == 1


@pytest.mark.parametrize(
    "statement",
    ["UPDATE journal_entries SET words = 'x'", "DELETE FROM journal_entries",
     "INSERT INTO journal_entries SELECT * FROM journal_entries WHERE true "
     "ON CONFLICT (plan, id) DO UPDATE SET words = 'x'"],
)  # fmt: skip
def test_the_database_itself_refuses(journal: Journal, statement: str) -> None:
    """Whoever writes past the program cannot change or take away an entry either."""
    journal.append([entry(words="first")])
    with journal._engine.connect() as connection, connection.begin():
        try:
            connection.execute(text(statement))
        except DBAPIError:
            connection.rollback()
    assert [e.words for e in journal.read()] == ["first"]


def test_all_or_none(journal: Journal) -> None:
    """Where one entry is bad none is taken down, and all that is wrong is told."""
    with pytest.raises(EntryRefused) as refused:
        journal.append([entry(), entry(kind="fingr", id="7"), entry(value=float("nan"))])
    said = str(refused.value)
    assert all(words in said for words in ('Did you mean "finger"?', "entry 2, id: '7'", "entry 3, finger test"))
    assert journal.count() == 0


def test_clocks(journal: Journal) -> None:
    """A date far ahead, one long ago, and a clock that went back are taken down and told."""
    ahead, never_set, fine = entry(made_at=NOON + timedelta(days=400)), entry(made_at=NOON.replace(year=1970)), entry()
    remarks = journal.append([ahead, never_set, fine], now=NOON).remarks
    assert ["ahead of the clock" in remarks[0], "long ago" in remarks[1], len(remarks)] == [True, True, 2]
    (back,) = journal.append([entry(made_at=NOON - timedelta(days=9))], now=NOON - timedelta(days=3)).remarks
    assert "look whether one of the clocks is wrong" in back
    assert journal.count() == 4
