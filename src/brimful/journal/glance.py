"""A journal in a file read by Python's own SQLite alone: what is asked each morning, without a library's start."""

import os
import sqlite3
from contextlib import closing
from dataclasses import fields
from datetime import datetime
from pathlib import Path
from typing import Any

from brimful.journal.corrections import standing, superseded
from brimful.journal.entries import Entry
from brimful.journal.forms import FORMS, TABLE, VERSION_TABLE

_NAMES = tuple(field.name for field in fields(Entry))
_MOMENTS = ("made_at", "received_at")


def glanced(path: Path) -> tuple[Entry, ...] | None:
    """The entries that stand, as Journal.read gives them; None where the file asks for more than a glance.

    An older form, a file that is none of ours, one that is held or broken: all these are left to the journal, which
    mends them or says what is wrong. Nothing is made where nothing is. (To read only would leave the files beside it
    that SQLite needs meanwhile; who may write takes them away again.)
    """
    if not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)):
        return None
    columns = ", ".join(f'"{name}"' for name in _NAMES)
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True, timeout=1.0)) as connection:
            if connection.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchall() != [(FORMS[-1],)]:
                return None
            rows = connection.execute(f"SELECT {columns} FROM {TABLE} WHERE plan = '' ORDER BY seq").fetchall()
        entries = [_entry(dict(zip(_NAMES, row, strict=True))) for row in rows]
        return standing(entries, superseded([(e.id, e.corrects, e.made_at) for e in entries if e.corrects is not None]))
    except (sqlite3.Error, ValueError, TypeError):
        return None


def _entry(row: dict[str, Any]) -> Entry:
    return Entry(**{**row, **{name: datetime.fromisoformat(row[name]) for name in _MOMENTS}})
