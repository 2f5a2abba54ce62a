"""A glance at a journal tells what the journal tells, or leaves the word to it; it leaves nothing behind."""

import random
import sqlite3
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.journal.making import NOON, SHORT, entry

from brimful.journal import Entry
from brimful.journal.forms import FORMS, VERSION_TABLE
from brimful.journal.glance import glanced
from brimful.journal.store import open_journal


def mixed(count: int, seed: int) -> list[Entry]:
    """Entries at few moments, many of which correct or withdraw another."""
    chance = random.Random(seed)
    made: list[Entry] = []
    for number in range(count):
        at = NOON + timedelta(minutes=chance.randrange(5), microseconds=number * chance.randrange(2))
        of = chance.choice(made).id if made and chance.random() < 0.4 else None
        if of and chance.random() < 0.3:
            made.append(entry(kind="withdrawn", made_at=at, corrects=of))
        else:
            made.append(entry(made_at=at, corrects=of, value=float(number % 3), words="Öl 🌱", by="A."))
    return made


@SHORT
@given(count=st.integers(0, 30), seed=st.integers(0, 10_000))
def test_tells_what_the_journal_tells(tmp_path_factory: pytest.TempPathFactory, count: int, seed: int) -> None:
    """Entries, corrections and withdrawals, with the journal open beside it and closed."""
    place = tmp_path_factory.mktemp("glance") / "a plan?#%.journal"
    with open_journal(place) as journal:
        journal.append(mixed(count, seed))
        whole = journal.read()
        assert glanced(place) == whole
    assert glanced(place) == whole


def test_keeps_every_bit_of_a_number(tmp_path: Path) -> None:
    """A value and a span come back as they were."""
    place = tmp_path / "square.journal"
    with open_journal(place) as journal:
        journal.append([entry(kind="catch", value=0.1 + 0.2, during_s=1 / 3)])
        assert glanced(place) == journal.read()
    (back,) = glanced(place) or ()
    assert (back.value, back.during_s) == (0.1 + 0.2, 1 / 3)


def test_leaves_everything_else_to_the_journal(tmp_path: Path) -> None:
    """No file, an older form, another database, a file that is none, a broken one, one that is held."""
    assert glanced(tmp_path / "none.journal") is None
    assert not (tmp_path / "none.journal").exists()
    place = tmp_path / "square.journal"
    with open_journal(place) as journal:
        journal.append([entry(), entry()])
    assert glanced(place) is not None

    older = tmp_path / "older.journal"
    older.write_bytes(place.read_bytes())
    with sqlite3.connect(older) as connection:
        connection.execute(f"UPDATE {VERSION_TABLE} SET version_num = '{FORMS[0]}'")
    assert glanced(older) is None

    broken = tmp_path / "broken.journal"
    broken.write_bytes(place.read_bytes()[:3000])
    assert glanced(broken) is None

    other = tmp_path / "other.journal"
    with sqlite3.connect(other) as connection:
        connection.execute("CREATE TABLE recipes (name)")
    assert glanced(other) is None

    words = tmp_path / "words.journal"
    words.write_text("dear diary")
    assert glanced(words) is None

    held = sqlite3.connect(place, isolation_level=None)
    held.execute("PRAGMA locking_mode = EXCLUSIVE")
    held.execute("BEGIN EXCLUSIVE")
    assert glanced(place) is None
    held.close()


def test_leaves_nothing_behind(tmp_path: Path) -> None:
    """The file and its folder are afterwards as before."""
    place = tmp_path / "square.journal"
    with open_journal(place) as journal:
        journal.append([entry()])
    before = place.read_bytes()
    assert glanced(place) is not None
    assert place.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["square.journal"]
