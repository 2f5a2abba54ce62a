"""Both databases, one after the other, for every test that asks for a journal."""

from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest
from tests.journal.server import Server

from brimful.journal.store import Journal, open_journal


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """A PostgreSQL server for the whole run; where it is missing the tests fail."""
    one = Server()
    yield one
    one.remove()


@pytest.fixture
def database(server: Server) -> Iterator[str]:
    """The address of an empty database."""
    with psycopg.connect(server.address, autocommit=True) as connection:
        connection.execute("CREATE DATABASE journal")
    yield server.address.removesuffix("postgres") + "journal"
    with psycopg.connect(server.address, autocommit=True) as connection:
        connection.execute("DROP DATABASE journal WITH (FORCE)")


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Path | str:
    """Where a journal is to be kept: a file, then a database."""
    return tmp_path / "square.journal" if request.param == "sqlite" else request.getfixturevalue("database")


@pytest.fixture
def journal(place: Path | str) -> Iterator[Journal]:
    """An empty journal."""
    with open_journal(place, "" if isinstance(place, Path) else "square") as one:
        yield one
