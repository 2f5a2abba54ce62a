"""Writers in processes of their own, that can be killed: each says which entries were acknowledged."""

import multiprocessing
import os
import resource
import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from tests.journal.making import entry

from brimful.errors import JournalError
from brimful.journal import Entry
from brimful.journal.store import open_journal

ALL = bool(os.environ.get("BRIMFUL_TEST_ALL"))
CONTEXT = multiprocessing.get_context("forkserver")
CONTEXT.set_forkserver_preload(["tests.journal.writing", "alembic.command", "psycopg"])


def named(writer: int, number: int) -> Entry:
    """The same entry each time for a writer and a number."""
    id_ = str(uuid.uuid5(uuid.NAMESPACE_URL, f"{writer}/{number}"))
    return entry(id=id_, by=f"writer {writer}", words=f"{number}: {'é' * (number % 200)}", value=float(number % 3))


@dataclass
class Writer:
    """A process at work, and what it told."""

    process: BaseProcess
    ear: Connection
    told: list[str] = field(default_factory=list)

    def hear(self, wait_s: float = 0.0) -> bool:
        """Take in what was told; whether there was something within the wait."""
        if not self.ear.poll(wait_s):
            return False
        try:
            self.told.append(self.ear.recv_bytes().decode())
        except (EOFError, OSError):
            return False
        return True

    def finish(self, *, kill: bool = False) -> list[str]:
        """Everything it told until its end, which is now if it is killed."""
        if kill:
            self.process.kill()
        while self.ear.poll(60) and self.hear():
            pass
        self.process.join(60)
        assert self.process.exitcode is not None
        return self.told


def start(work: Callable[..., None], *arguments: Any) -> Writer:
    """Set a process to work."""
    ear, mouth = CONTEXT.Pipe(duplex=False)
    process = CONTEXT.Process(target=work, args=(mouth, *arguments), daemon=True)
    process.start()
    mouth.close()
    return Writer(process, ear)


def write(mouth: Connection, place: Path | str, writer: int, numbers: Sequence[int], at_once: int = 1) -> None:
    """Append a writer's entries in order, so many at once, and tell the id of each that was acknowledged."""
    with open_journal(place, "square") as journal:
        for first in range(0, len(numbers), at_once):
            entries = [named(writer, number) for number in numbers[first : first + at_once]]
            done = journal.append(entries)
            assert not done.differing
            mouth.send_bytes("\n".join((*done.new, *done.known)).encode())


def write_within(mouth: Connection, place: Path, most_bytes: int) -> None:
    """Append on a disk that has no more room from some size on; tells the ids, then what was said."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))
    try:
        write(mouth, place, 0, range(10_000), 7)
    except JournalError as error:
        mouth.send_bytes(f"! {error}".encode())


def try_as_nobody(mouth: Connection, place: Path) -> None:
    """Read, then append, as a user who may not write; tells how many were read, then what was said."""
    if os.geteuid() == 0:
        os.setgid(65534)
        os.setuid(65534)
    try:
        with open_journal(place, "square") as journal:
            mouth.send_bytes(str(journal.count()).encode())
            journal.append([named(9, 9)])
    except JournalError as error:
        mouth.send_bytes(f"! {error}".encode())


def open_and_close(mouth: Connection, place: Path | str) -> None:
    """Open a journal, which brings it to its form; tells how many entries it has, or what went wrong."""
    mouth.send_bytes(b"here")
    try:
        with open_journal(place, "square") as journal:
            mouth.send_bytes(str(journal.count()).encode())
    except JournalError as error:
        mouth.send_bytes(f"! {error}".encode())
