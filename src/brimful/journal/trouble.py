"""What a database says, in plain words, and without the password."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from brimful.errors import JournalError

LOST = ("08", "57P", "40")
"""Classes of PostgreSQL's error codes after which the same may be tried again: connection, shut-down, deadlock."""
ADVICE = (
    ("disk is full", "make room on the disk, then write it again"),
    ("disk I/O error", "look whether the disk is full or failing, then write it again"),
    ("readonly", "give yourself the right to write the file and its folder"),
    ("unable to open", "look whether the folder is there and may be written"),
    ("not a database", "the file is something else; move it away or give the plan another name"),
    ("malformed", "the file is damaged; put a copy or an export back in its place"),
    ("is locked", "another program holds it; close that, then write it again"),
    ("no password supplied", "put the password into BRIMFUL_JOURNAL or a password file"),
    ("authentication failed", "look at user and password in BRIMFUL_JOURNAL"),
)


@contextmanager
def in_plain_words(where: str) -> Iterator[None]:
    """Turn what a database raises into a JournalError of one sentence."""
    try:
        yield
    except (SQLAlchemyError, sqlite3.Error) as error:
        raise JournalError(words_of(error, where)) from None


def words_of(error: Exception, where: str) -> str:
    """One sentence of what a database raised. The statement and its values are left out."""
    said = str(getattr(error, "orig", None) or error)
    first = next((line.strip() for line in said.splitlines() if line.strip()), type(error).__name__)
    advice = next((advice for sign, advice in ADVICE if sign in said), "nothing half was written; try again")
    return f"{where}: {first}; {advice}"


def may_be_tried_again(error: SQLAlchemyError) -> bool:
    """Whether a connection was lost or two writers stood in each other's way, so that the same may well succeed."""
    if not isinstance(error, DBAPIError) or type(error.orig).__module__.startswith("sqlite3"):
        return False
    state = getattr(error.orig, "sqlstate", None)
    lost = state is None and type(error).__name__ in ("OperationalError", "InterfaceError")
    return error.connection_invalidated or lost or (state or "").startswith(LOST)
