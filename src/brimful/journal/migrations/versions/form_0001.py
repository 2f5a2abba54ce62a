"""The first form: entries that can be added, never changed or taken away."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

MOMENT = sa.DateTime(timezone=True).with_variant(sa.Text(), "sqlite")
ONLY_ADDED = "the journal is only added to; write a correction as a new entry"
SQLITE = """
CREATE TRIGGER journal_entries_no_{name} BEFORE {what} ON journal_entries
BEGIN SELECT RAISE(ABORT, '{words}'); END
"""
FUNCTION = """
CREATE FUNCTION journal_entries_only_added() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION '{words}' USING ERRCODE = 'restrict_violation'; END $$
"""
POSTGRESQL = """
CREATE TRIGGER journal_entries_only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON journal_entries
FOR EACH STATEMENT EXECUTE FUNCTION journal_entries_only_added()
"""


def upgrade() -> None:
    """Make the table and its guards."""
    op.create_table(
        "journal_entries",
        sa.Column("seq", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), sa.Identity(), primary_key=True),
        sa.Column("plan", sa.Text(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("made_at", MOMENT, nullable=False),
        sa.Column("received_at", MOMENT, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("value", sa.Double()),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("corrects", sa.Text()),
        sa.UniqueConstraint("plan", "id"),
        sqlite_autoincrement=True,
    )
    op.create_index("journal_entries_made", "journal_entries", ["plan", "made_at", "id"])
    if op.get_bind().dialect.name == "sqlite":
        for name in ("update", "delete"):
            op.execute(SQLITE.format(name=name, what=name.upper(), words=ONLY_ADDED))
    else:
        op.execute(FUNCTION.format(words=ONLY_ADDED))
        op.execute(POSTGRESQL)
