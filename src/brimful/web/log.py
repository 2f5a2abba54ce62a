"""The journal as the pages read it: read once while it stays as it is."""

import threading
import time
from collections import OrderedDict
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.errors import BrimfulError

if TYPE_CHECKING:
    from brimful.journal import Entry

KEPT = 8
COUNT_AGAIN_S = 2.0
_read: "OrderedDict[tuple[Path, str], tuple[Entry, ...]]" = OrderedDict()
_counted: dict[Path, tuple[float, str]] = {}
_lock = threading.Lock()


def mark_of(path: Path) -> str:
    """A mark of what a plan's journal holds: another after each entry. "" where nothing was ever written.

    Raises:
        BrimfulError: the journal's database cannot be reached.
    """
    from brimful.services import journal_place

    where = journal_place(path)
    if not isinstance(where, Path):
        return _count(path)
    marks = []
    for one in (where, where.with_name(f"{where.name}-wal")):
        try:
            stat = one.stat()
        except OSError:
            continue
        marks.append(f"{stat.st_size:x}.{stat.st_mtime_ns:x}")
    return "-".join(marks)


def _count(path: Path) -> str:
    """How many entries the crew's database holds, asked for every other second."""
    from brimful.services import journal_of

    now = time.monotonic()
    with _lock:
        if path in _counted and now - _counted[path][0] < COUNT_AGAIN_S:
            return _counted[path][1]
    with journal_of(path) as journal:
        count = str(journal.count())
    with _lock:
        _counted[path] = (now, count)
    return count


def entries(path: Path) -> "tuple[Entry, ...]":
    """The entries that stand, by time; what was corrected or withdrawn is left out.

    Raises:
        BrimfulError: the journal cannot be read.
    """
    from brimful.services import entries_of

    key = (path, mark_of(path))
    with _lock:
        if key in _read:
            _read.move_to_end(key)
            return _read[key]
    read = entries_of(path)
    with _lock:
        _read[key] = read
        while len(_read) > KEPT:
            _read.popitem(last=False)
    return read


def noted(path: Path, id_: str) -> "Entry | None":
    """The entry of an id, where it stands and the journal can be read."""
    try:
        return next((one for one in entries(path) if one.id == id_), None)
    except BrimfulError:
        return None
