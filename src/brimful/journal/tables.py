"""The journal's table, as the newest form has it; how it came there stands in `migrations/`."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import BigInteger, Column, DateTime, Dialect, Double, Integer, MetaData, Table, Text, TypeDecorator
from sqlalchemy.types import TypeEngine

from brimful.journal.forms import TABLE


class Utc(TypeDecorator[datetime]):
    """A moment in UTC: PostgreSQL keeps it as such, SQLite as text that sorts by time."""

    impl = DateTime
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """The column's type in this database."""
        return dialect.type_descriptor(Text() if dialect.name == "sqlite" else DateTime(timezone=True))

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> Any:
        """A moment as the database keeps it."""
        if value is None:
            return None
        moment = value.astimezone(UTC)
        return moment.isoformat(timespec="microseconds") if dialect.name == "sqlite" else moment

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """A moment as Python keeps it."""
        if value is None:
            return None
        return datetime.fromisoformat(value) if dialect.name == "sqlite" else value.astimezone(UTC)


ENTRIES = Table(
    TABLE,
    MetaData(),
    Column("seq", BigInteger().with_variant(Integer(), "sqlite"), primary_key=True, autoincrement=True),
    Column("plan", Text, nullable=False),
    Column("id", Text, nullable=False),
    Column("made_at", Utc, nullable=False),
    Column("received_at", Utc, nullable=False),
    Column("kind", Text, nullable=False),
    Column("place", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("value", Double),
    Column("during_s", Double),
    Column("words", Text, nullable=False),
    Column("corrects", Text),
)
