"""Entries as a person reads them, in the plan's units and the clock of this place."""

from datetime import tzinfo

from brimful.journal.entries import Entry
from brimful.journal.kinds import KINDS, Kind
from brimful.quantities import Dimension, System, show

WHOLE = "all"
"""How the whole place is named."""


def told(kind: str, value: float | None, during_s: float | None, system: System) -> str:
    """Kind and value as a person reads them; a kind that this program does not know is told by its key.

    >>> told("catch", 0.3, 300.0, System.METRIC), told("finger", 0.0, None, System.US)
    ('catch 300 mL in 5 min', 'finger test dry')
    """
    known = KINDS.get(kind)
    name = known.name if known else kind
    if value is None:
        return name
    amount = _amount(known, value, system)
    during = "" if during_s is None else f" in {show(during_s, Dimension.TIME, system)}"
    return f"{name} {amount}{during}"


def _amount(known: Kind | None, value: float, system: System) -> str:
    if known and known.choices and value in range(len(known.choices)):
        return known.choices[int(value)]
    return show(value, known.dimension, system) if known and known.dimension else f"{value:g}"


def told_entry(entry: Entry, system: System, zone: tzinfo | None = None) -> str:
    """An entry on one line: when, where, what, its words, who, and the beginning of its id.

    Args:
        entry: what is told
        system: whose units
        zone: time zone of the clock, None for this machine's
    """
    words = f": {' '.join(entry.words.split())}" if entry.words else ""
    who = f", {entry.by}" if entry.by else ""
    what = told(entry.kind, entry.value, entry.during_s, system)
    when = f"{entry.made_at.astimezone(zone):%Y-%m-%d %H:%M}"
    return f"{when}  {entry.place or WHOLE}  {what}{words}{who}  [{entry.id[:8]}]"
