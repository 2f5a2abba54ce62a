"""The second form: how long a catch ran; and no entry is replaced by way of an insert."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

# "INSERT OR REPLACE" takes a row away without asking the guard against DELETE.
NO_REPLACE = """
CREATE TRIGGER journal_entries_no_replace BEFORE INSERT ON journal_entries
WHEN EXISTS (SELECT 1 FROM journal_entries WHERE seq = NEW.seq OR (plan = NEW.plan AND id = NEW.id))
BEGIN SELECT RAISE(IGNORE); END
"""


def upgrade() -> None:
    """Add the column, and in SQLite the guard; PostgreSQL has no such insert."""
    op.add_column("journal_entries", sa.Column("during_s", sa.Double()))
    if op.get_bind().dialect.name == "sqlite":
        op.execute(NO_REPLACE)
