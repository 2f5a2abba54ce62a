"""Alembic's entry: runs the steps on the connection, and in the transaction, that `opening.py` hands over."""

from alembic import context

from brimful.journal.forms import VERSION_TABLE

context.configure(
    connection=context.config.attributes["connection"], version_table=VERSION_TABLE, transactional_ddl=True
)
with context.begin_transaction():
    context.run_migrations()
