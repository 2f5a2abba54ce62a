"""Nothing that was acknowledged is lost, and nothing is there twice, whatever happens to writer, disk or server."""

import random
import sqlite3
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest
from sqlalchemy import Connection
from sqlalchemy.exc import OperationalError
from tests.journal.making import entry
from tests.journal.server import Server
from tests.journal.writing import ALL, named, start, try_as_nobody, write, write_within

from brimful.errors import JournalError
from brimful.journal.store import Appended, Journal, open_journal

KILLS = 1000 if ALL else 20
pytestmark = pytest.mark.long


def ids(told: list[str]) -> list[str]:
    """The ids that were acknowledged."""
    return [id_ for words in told for id_ in words.split("\n") if id_ and not id_.startswith("!")]


def sound(place: Path | str) -> bool:
    """Whether the file holds together by SQLite's own check; a server looks after its own."""
    if not isinstance(place, Path):
        return True
    connection = sqlite3.connect(place)
    try:
        return bool(connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok")
    finally:
        connection.close()


def test_killed_while_writing(place: Path | str) -> None:
    """A writer killed at any moment has lost nothing that it acknowledged; what is there is whole."""
    chance, acknowledged = random.Random(7), list[str]()
    for kill in range(KILLS):
        writer = start(write, place, kill, range(100_000), 1 + kill % 5)
        if kill % 4:
            writer.hear(30)
        time.sleep(chance.uniform(0, 0.03))
        acknowledged += ids(writer.finish(kill=True))
    assert len(acknowledged) >= KILLS // 2
    with open_journal(place, "square") as journal:
        there = {one.id: one for one in journal.read()}
        assert journal.count() == len(there)
    assert set(acknowledged) <= set(there)
    for one in there.values():
        same = named(int(one.by.split()[1]), int(one.words.split(":")[0]))
        assert (one.id, one.words, one.value) == (same.id, same.words, same.value)
    assert sound(place)


@pytest.mark.parametrize(
    ("kind", "writers", "each"), [("postgresql", 20, 500 if ALL else 25), ("sqlite", 5, 2000 if ALL else 60)]
)
def test_a_crowd(kind: str, writers: int, each: int, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """Many writers at once, killed and started again, who send again what they had no answer for: all is there once."""
    place = tmp_path / "square.journal" if kind == "sqlite" else request.getfixturevalue("database")
    chance = random.Random(3)
    crowd = {number: start(write, place, number, range(each)) for number in range(writers)}
    answered: dict[int, set[str]] = {number: set() for number in crowd}
    kills = 0
    while crowd:
        number, writer = chance.choice(sorted(crowd.items()))
        kill = kills < 2 * writers and chance.random() < 0.5
        if kill:
            heard = len(writer.told)
            while len(writer.told) < heard + 3 and writer.hear(5):
                pass
        answered[number] |= set(ids(writer.finish(kill=kill)))
        if kill:
            kills += 1
            left = [n for n in range(each) if named(number, n).id not in answered[number]]
            crowd[number] = start(write, place, number, left)
        else:
            assert writer.process.exitcode == 0
            del crowd[number]
    with open_journal(place, "square") as journal:
        there = [one.id for one in journal.read()]
    assert sorted(there) == sorted(named(w, n).id for w in range(writers) for n in range(each))
    assert all(len(one) == each for one in answered.values())
    assert sound(place)


def test_a_full_disk(tmp_path: Path) -> None:
    """Where the disk is full that is said; what was acknowledged is there, and with room again writing goes on."""
    place = tmp_path / "square.journal"
    writer = start(write_within, place, 300_000)
    told = writer.finish()
    assert writer.process.exitcode == 0
    assert "disk" in told[-1]
    assert "write it again" in told[-1]
    with open_journal(place, "square") as journal:
        there = {one.id for one in journal.read()}
        assert there == set(ids(told))
        assert len(there) >= 50
        assert journal.append([named(1, 1)]).new
    assert sound(place)


def test_no_room_for_one_page_more(tmp_path: Path) -> None:
    """SQLite's own word for a full disk is passed on in plain words, and the batch is not there by half."""
    with open_journal(tmp_path / "square.journal") as journal:
        with journal._engine.connect() as connection:
            connection.exec_driver_sql("PRAGMA max_page_count = 12")
        first = [entry(words="x" * 100) for _ in range(10)]
        journal.append(first)
        with pytest.raises(JournalError, match="full; make room"):
            journal.append([entry(words="x" * 1000) for _ in range(100)])
        assert {one.id for one in journal.read()} == {one.id for one in first}


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user can look into."""
    with tempfile.TemporaryDirectory() as name:
        Path(name).chmod(0o755)
        yield Path(name)
        Path(name).chmod(0o755)


def test_a_file_that_may_not_be_written(open_folder: Path) -> None:
    """A journal that may only be read is read; to write into it is refused in plain words."""
    place = open_folder / "square.journal"
    with open_journal(place, "square") as journal:
        journal.append([entry(), entry()])
    place.chmod(0o444)
    open_folder.chmod(0o555)
    told = start(try_as_nobody, place).finish()
    assert told[0] == "2"
    assert "give yourself the right to write" in told[1]


def test_each_commit_reaches_the_disk(place: Path | str) -> None:
    """Both databases are told to answer only once the entry is on the disk."""
    with open_journal(place) as journal, journal._engine.connect() as connection:
        ask = "PRAGMA synchronous" if isinstance(place, Path) else "SHOW synchronous_commit"
        assert connection.exec_driver_sql(ask).scalar_one() in (2, "on")


def test_the_server_goes_and_comes(server: Server, database: str) -> None:
    """Through stops, even like a power cut, an append waits and tries again: each entry is there once."""
    with open_journal(database, "square", patience_s=60) as journal:
        done: list[Appended] = []
        sent = [named(0, number) for number in range(600 if ALL else 120)]
        work = threading.Thread(target=lambda: done.extend(journal.append([one]) for one in sent))
        work.start()
        for how in ("immediate", "fast"):
            time.sleep(0.2)
            server.stop(how)
            time.sleep(0.3)
            server.start()
        work.join(120)
        assert [id_ for one in done for id_ in (*one.new, *one.known)] == [one.id for one in sent]
        assert [one.id for one in journal.as_received()] == [one.id for one in sent]


def test_an_answer_that_was_lost(database: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the connection broke after the entry was written, it is known when sent again, and there once."""
    with open_journal(database, "square") as journal, open_journal(database, "square") as other:
        real, times = Journal._append, list[int]()

        def break_once(self: Journal, connection: Connection, *rest: object) -> Appended:
            times.append(1)
            if len(times) == 1:
                with other._engine.begin() as elsewhere:
                    real(other, elsewhere, *rest)  # type: ignore[arg-type]
                raise OperationalError("", {}, psycopg.OperationalError("server closed the connection"))
            return real(self, connection, *rest)  # type: ignore[arg-type]

        monkeypatch.setattr(Journal, "_append", break_once)
        one = entry()
        assert journal.append([one]).known == (one.id,)
        assert journal.count() == 1


def test_patience_ends(server: Server, database: str) -> None:
    """A server that stays away is told in plain words, and the same entry can be sent once it is back."""
    one = entry()
    with open_journal(database, "square", patience_s=0.5) as journal:
        server.stop()
        try:
            with pytest.raises(JournalError, match="the journal in the database"):
                journal.append([one])
            with pytest.raises(JournalError):
                journal.read()
            with pytest.raises(JournalError):
                open_journal(database)
        finally:
            server.start()
        assert journal.append([one]).new == (one.id,)
