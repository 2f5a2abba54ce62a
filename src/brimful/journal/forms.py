"""The forms a journal has had and what its table is called, without the database library: a glance needs them."""

TABLE = "journal_entries"
VERSION_TABLE = "journal_version"
FORMS = ("0001", "0002")
"""Every form the table has had, oldest first; the last is what this program reads and writes."""
