"""How the journal's table came to its form, step by step; run by Alembic when an older journal is opened."""
