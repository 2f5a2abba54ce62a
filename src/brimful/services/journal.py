"""The journal of a plan: where it is kept, and what is taken down, read, handed on and brought in."""

import os
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.errors import EntryRefused, JournalError
from brimful.plan.read import read_plan
from brimful.records import record
from brimful.services.places import Spot, spot_named, spots_of
from brimful.services.saving import save_whole

if TYPE_CHECKING:
    from brimful.journal import Entry
    from brimful.journal.store import Appended, Journal
    from brimful.plan.schema import Plan
    from brimful.quantities import System

VARIABLE = "BRIMFUL_JOURNAL"
"""The environment variable that holds the address of a crew's PostgreSQL database, with its password."""


@record
class Noted:
    """An entry that was taken down, and what is to be said about it."""

    entry: "Entry"
    remarks: tuple[str, ...]


@record
class Imported:
    """What came of bringing lines in: what was taken down, and a sentence for each line that is no entry."""

    appended: "Appended"
    problems: tuple[str, ...]


@record
class NoteWish:
    """What is to be noted: where, what in a person's words, by whom, when, and the id of an entry it stands for."""

    place: str
    what: str
    by: str = ""
    at: str = ""
    corrects: str = ""


def journal_place(path: Path, environment: Mapping[str, str] | None = None) -> Path | str:
    """Where a plan's journal is kept: the database that the environment names, or else a file beside the plan."""
    address = (os.environ if environment is None else environment).get(VARIABLE, "").strip()
    return address or path.with_suffix(".journal")


def journal_of(path: Path) -> "Journal":
    """The journal of the plan at `path`, open; close it, or use it in a `with`.

    A database keeps the journals of several plans apart by the names of their files.

    Raises:
        JournalError: it cannot be opened.
    """
    from brimful.journal.store import open_journal

    where = journal_place(path)
    return open_journal(where, "" if isinstance(where, Path) else path.stem)


def spots(path: Path) -> tuple[Spot, ...]:
    """The places of the plan at `path` that an entry can name.

    Raises:
        BrimfulError: the plan cannot be read.
    """
    return spots_of(_plan(path))


def note(path: Path, wish: NoteWish, *, now: datetime | None = None) -> Noted:
    """Take down what a person saw or did; when this returns, it is on the disk. `now` is the clock.

    Raises:
        EntryRefused: it cannot be understood or the plan has no such place; nothing was taken down.
        BrimfulError: plan or journal cannot be read or written; nothing was taken down.
    """
    from brimful.journal import KINDS, Entry, new_id
    from brimful.journal.moments import read_moment
    from brimful.journal.reading import read_said

    plan, clock = _plan(path), now or datetime.now(UTC)
    spots_here = spots_of(plan)
    try:
        said = read_said(wish.what)
        place = spot_named(spots_here, wish.place, KINDS[said.kind]).name
    except EntryRefused as refused:
        raise EntryRefused(f"{refused}{_quotes_missed(spots_here, wish)}") from refused
    made = read_moment(wish.at, clock) if wish.at else clock
    with journal_of(path) as journal:
        corrects = _whole_id(journal, wish.corrects) if wish.corrects else None
        entry = Entry(
            new_id(), made.astimezone(UTC), said.kind, place, wish.by.strip(), said.value, said.during_s, said.words,
            corrects,
        )  # fmt: skip
        return Noted(entry, journal.append([entry], now=clock).remarks)


def _quotes_missed(spots_here: tuple[Spot, ...], wish: NoteWish) -> str:
    """A hint where place and what follows begin with a name of several words: a shell takes it apart unless quoted."""
    whole = " ".join(f"{wish.place} {wish.what}".split()).casefold()
    names = [name for spot in spots_here for name in (spot.name, *spot.said) if " " in name]
    meant = [name for name in names if whole.startswith(f"{name.casefold()} ") and len(name) > len(wish.place)]
    return f'. For the place "{max(meant, key=len)}" put its name in quotes' if meant else ""


def withdraw(path: Path, id_: str, by: str = "", *, now: datetime | None = None) -> Noted:
    """Take an entry out by a new one that says so; `id_` is its id or the beginning of it. `now` is the clock.

    Raises:
        BrimfulError: there is no such entry, or the journal cannot be read or written.
    """
    from brimful.journal import Entry, new_id

    clock = now or datetime.now(UTC)
    with journal_of(path) as journal:
        of = _whole_id(journal, id_)
        place = next(one.place for one in journal.as_received() if one.id == of)
        entry = Entry(new_id(), clock, "withdrawn", place, by.strip(), corrects=of)
        return Noted(entry, journal.append([entry], now=clock).remarks)


def entries_of(
    path: Path, *, since: datetime | None = None, until: datetime | None = None, place: str = "", raw: bool = False
) -> tuple["Entry", ...]:
    """The entries of a plan by time; a journal that was never written has none.

    Args:
        path: the plan
        since: from this moment on
        until: up to and without this moment
        place: at this place, or what is inside it; "" for every place
        raw: corrections beside what they correct

    Raises:
        BrimfulError: the journal cannot be read, or the plan has no such place.
    """
    if not _is_there(path):
        return ()
    whole = since is None and until is None and not raw
    entries = _glanced(path) if whole else None
    if entries is None:
        with journal_of(path) as journal:
            entries = journal.read(since=since, until=until, raw=raw)
    if not place:
        return entries
    names = _inside(path, place)
    return tuple(entry for entry in entries if entry.place in names)


def _glanced(path: Path) -> "tuple[Entry, ...] | None":
    """What stands in a journal of a file of its own, where a glance is enough."""
    from brimful.journal.glance import glanced

    where = journal_place(path)
    return glanced(where) if isinstance(where, Path) else None


def export_journal(path: Path, out: Path) -> int:
    """Write every entry, as it was taken down, as JSON lines; gives how many. The file is whole or not there.

    Raises:
        BrimfulError: the journal cannot be read or the file not be written.
    """
    from brimful.journal.lines import to_lines

    entries: tuple[Entry, ...] = ()
    if _is_there(path):
        with journal_of(path) as journal:
            entries = journal.as_received()
    try:
        save_whole(out, to_lines(entries))
    except OSError as error:
        raise JournalError(f"{out} cannot be written: {error.strerror}") from error
    return len(entries)


def import_journal(path: Path, lines: Path) -> Imported:
    """Bring JSON lines into the journal; what is there already stays as it is, so that twice does no harm.

    Raises:
        BrimfulError: the file cannot be read or the journal not be written; then nothing was brought in.
    """
    from brimful.journal.lines import read_lines

    try:
        read = read_lines(lines.read_bytes())
    except OSError as error:
        raise JournalError(f"{lines} cannot be read: {error.strerror}") from error
    with journal_of(path) as journal:
        return Imported(journal.append(read.entries), read.problems)


def system_of(path: Path) -> "System":
    """The units of a plan; US where it cannot be read."""
    from brimful.quantities import System

    plan = read_plan(path).plan
    return System.METRIC if plan is not None and plan.units == "metric" else System.US


def _plan(path: Path) -> "Plan":
    plan = read_plan(path).plan
    if plan is None:
        raise JournalError(f"{path}: the plan has errors; `brimful check {path}` lists them. Nothing was taken down")
    return plan


def _is_there(path: Path) -> bool:
    where = journal_place(path)
    return not isinstance(where, Path) or where.exists()


def _inside(path: Path, place: str) -> frozenset[str]:
    """The names of a place and of the containers in it."""
    from brimful.journal import KINDS

    spot = spot_named(spots(path), place, replace(KINDS["note"], name="the list"))
    return frozenset((spot.name, *spot.containers))


def _whole_id(journal: "Journal", beginning: str) -> str:
    """The id that begins so, of the one entry that has it."""
    found = [one.id for one in journal.as_received() if one.id.startswith(beginning.strip().lower())]
    if len(found) != 1:
        many = f"{len(found)} entries have ids that begin" if found else "no entry has an id that begins"
        raise EntryRefused(f'{many} with "{beginning[:40]}"; `--list` shows the ids, give as much as tells one apart')
    return found[0]
