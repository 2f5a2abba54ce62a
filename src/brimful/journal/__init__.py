"""The season log: what the crew saw and did, appended and never changed.

`entries.py`, `kinds.py`, `reading.py`, `lines.py` and `glance.py` need nothing but Python; `store.py` brings the
database library in.
"""

from brimful.journal.entries import Entry, new_id, problems
from brimful.journal.kinds import KINDS, Kind
from brimful.journal.showing import told, told_entry

__all__ = ["KINDS", "Entry", "Kind", "new_id", "problems", "told", "told_entry"]
