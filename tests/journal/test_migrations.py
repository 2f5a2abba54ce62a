"""Journals of older forms are brought to the newest, all or not at all; newer ones and other files are left alone."""

import random
import sqlite3
import time
from datetime import UTC, datetime
from pathlib import Path

import psycopg
import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, inspect, text
from tests.journal.making import entry
from tests.journal.writing import ALL, open_and_close, start

import brimful.journal
from brimful.errors import JournalError
from brimful.journal.forms import FORMS, VERSION_TABLE
from brimful.journal.opening import WRITES, postgresql_engine, sqlite_engine, upgrade
from brimful.journal.store import open_journal
from brimful.journal.tables import ENTRIES

FIRST = Path(__file__).with_name("form_0001.sql")
ONE, TWO, THREE, FOUR = (f"{n * 8}-{n * 4}-4{n * 3}-8{n * 3}-{n * 12}" for n in "1234")
INSERT = text(
    'INSERT INTO journal_entries (plan, id, made_at, received_at, kind, place, "by", value, words) '
    "VALUES ('square', :id, :at, :at, 'weight', 'gate 1', '', 27.5, 'old')"
)


def engine_of(place: Path | str) -> Engine:
    """An engine that opens a database as it is."""
    return sqlite_engine(place) if isinstance(place, Path) else postgresql_engine(place)[0]


def first_form(place: Path) -> bytes:
    """Write a journal of the first form, as it was kept; gives its bytes."""
    connection = sqlite3.connect(place)
    connection.executescript(FIRST.read_text(encoding="utf-8"))
    connection.close()
    return place.read_bytes()


def old_entry(place: Path | str) -> str:
    """Make a journal of the first form with one entry, in either database; gives the entry's id."""
    engine, old = engine_of(place), entry()
    with engine.connect().execution_options(**WRITES) as connection, connection.begin():
        upgrade(connection, FORMS[0])
        connection.execute(INSERT, {"id": old.id, "at": "2026-05-20T13:00:00.000000+00:00"})
    engine.dispose()
    return old.id


def form_of(place: Path | str) -> str:
    """The form that a database says it has."""
    engine = engine_of(place)
    with engine.connect() as connection:
        form: str = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar_one()
    engine.dispose()
    return form


def test_a_kept_journal_of_the_first_form(tmp_path: Path) -> None:
    """A file of the first form is brought to the newest with all it holds; a copy as it was stands beside it."""
    place = tmp_path / "square.journal"
    first_form(place)
    with open_journal(place, "square") as journal:
        assert [one.id for one in journal.as_received()] == [ONE, TWO, THREE, FOUR]
        assert [(one.id, one.value, one.during_s) for one in journal.read()] == [
            (THREE, 10.16, None), (TWO, 0.3, None), (FOUR, 1.0, None),
        ]  # fmt: skip
        assert journal.read()[1].made_at == datetime(2026, 5, 20, 13, 5, 0, 250_000, UTC)
        assert journal.append([entry(kind="catch", value=0.3, during_s=300.0)]).new
    assert form_of(place) == FORMS[-1]
    copies = [one for one in tmp_path.iterdir() if ".form-" in one.name]
    assert [one.name for one in copies] == ["square.journal.form-0001"]
    kept = sqlite3.connect(copies[0])
    assert "\n".join(kept.iterdump()) + "\n" == FIRST.read_text(encoding="utf-8")
    kept.close()


def test_an_old_journal(place: Path | str) -> None:
    """In both databases what the first form holds is there in the newest."""
    old = old_entry(place)
    assert form_of(place) == FORMS[0]
    with open_journal(place, "square") as journal:
        (back,) = journal.read()
        assert (back.id, back.value, back.words) == (old, 27.5, "old")
        assert back.made_at == datetime(2026, 5, 20, 13, tzinfo=UTC)
        assert journal.append([entry()]).new
    assert form_of(place) == FORMS[-1]


def test_the_steps_make_the_table(place: Path | str) -> None:
    """The steps end in the table that the store works with, column for column; each form is a step of Alembic's."""
    open_journal(place).close()
    engine = engine_of(place)
    made = {one["name"]: one["nullable"] for one in inspect(engine).get_columns(ENTRIES.name)}
    engine.dispose()
    assert made == {column.name: column.nullable for column in ENTRIES.columns}
    config = Config()
    config.set_main_option("script_location", str(Path(brimful.journal.__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    steps = [step.revision for step in ScriptDirectory.from_config(config).walk_revisions()]
    assert tuple(reversed(steps)) == FORMS


def test_a_step_that_fails(tmp_path: Path) -> None:
    """Where a step fails half way nothing of it stays, and the old journal holds all it held."""
    place = tmp_path / "square.journal"
    first_form(place)
    connection = sqlite3.connect(place)
    connection.execute(
        "CREATE TRIGGER journal_entries_no_replace BEFORE INSERT ON journal_entries WHEN 0 BEGIN SELECT 1; END"
    )
    connection.close()
    for _ in range(2):
        with pytest.raises(JournalError, match="already exists"):
            open_journal(place, "square")
    connection = sqlite3.connect(place)
    columns = [row[1] for row in connection.execute("PRAGMA table_info(journal_entries)")]
    assert "during_s" not in columns
    assert connection.execute("SELECT count(*) FROM journal_entries").fetchone() == (4,)
    connection.close()
    assert form_of(place) == "0001"
    assert len([one for one in tmp_path.iterdir() if ".form-" in one.name]) == 2


def test_a_step_that_fails_on_a_server(database: str) -> None:
    """The same on a server: of a step that fails nothing stays."""
    with psycopg.connect(database) as connection:
        connection.execute("CREATE FUNCTION journal_entries_only_added() RETURNS int LANGUAGE sql AS 'SELECT 1'")
    with pytest.raises(JournalError, match="already exists"):
        open_journal(database)
    with psycopg.connect(database) as connection:
        assert connection.execute("SELECT count(*) FROM pg_tables WHERE schemaname = 'public'").fetchone() == (0,)


def test_a_newer_journal(place: Path | str) -> None:
    """A journal of a newer program is left as it is, and what to do is said."""
    with open_journal(place) as journal:
        journal.append([entry()])
    engine = engine_of(place)
    with engine.begin() as connection:
        connection.execute(text(f"UPDATE {VERSION_TABLE} SET version_num = '0999'"))
    engine.dispose()
    before = place.read_bytes() if isinstance(place, Path) else b""
    with pytest.raises(JournalError, match=r"newer Brimful \(form 0999.*bring Brimful up to date"):
        open_journal(place)
    assert form_of(place) == "0999"
    assert not isinstance(place, Path) or place.read_bytes() == before


@pytest.mark.parametrize("content", [b"shopping list " * 99, b"SQLite format 3\x00" + b"x" * 99, b"\x00" * 4096])
def test_a_file_that_is_no_database(tmp_path: Path, content: bytes) -> None:
    """Another file in the journal's place stays as it is."""
    place = tmp_path / "square.journal"
    place.write_bytes(content)
    with pytest.raises(JournalError, match=r"something else|damaged"):
        open_journal(place)
    assert place.read_bytes() == content


def test_a_database_that_is_no_journal(tmp_path: Path) -> None:
    """A database of another program stays as it is."""
    place = tmp_path / "square.journal"
    connection = sqlite3.connect(place)
    connection.execute("CREATE TABLE songs (name)")
    connection.close()
    before = place.read_bytes()
    with pytest.raises(JournalError, match="no journal"):
        open_journal(place)
    assert place.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == [place.name]


def test_no_folder(tmp_path: Path) -> None:
    """A folder that is not there is told."""
    with pytest.raises(JournalError, match="look whether the folder is there"):
        open_journal(tmp_path / "none" / "square.journal")


@pytest.mark.parametrize("old", [False, True], ids=["new", "old"])
def test_many_open_at_once(place: Path | str, old: bool) -> None:
    """Many programs that open a journal at the same moment make or mend it once, and all of them get it."""
    if old:
        old_entry(place)
    told = [writer.finish() for writer in [start(open_and_close, place) for _ in range(6)]]
    assert {words[-1] for words in told} == {str(int(old))}
    if isinstance(place, Path):
        assert len([one for one in place.parent.iterdir() if ".form-" in one.name]) == int(old)


@pytest.mark.long
def test_killed_while_it_is_mended(tmp_path: Path) -> None:
    """A program killed while it brings an old journal to its form leaves the old or the new one, whole."""
    chance, forms = random.Random(5), set[str]()
    for kill in range(300 if ALL else 15):
        place = tmp_path / f"{kill}.journal"
        first_form(place)
        writer = start(open_and_close, place)
        writer.hear(30)
        time.sleep(chance.uniform(0, 0.25))
        writer.finish(kill=True)
        forms.add(form_of(place))
        with open_journal(place, "square") as journal:
            assert [one.id for one in journal.as_received()] == [ONE, TWO, THREE, FOUR]
            assert journal.append([entry()]).new
    assert forms <= set(FORMS)
