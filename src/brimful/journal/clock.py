"""What clocks and dates look wrong; such entries are taken down all the same."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from brimful.journal.entries import Entry

SLACK = timedelta(hours=1)
"""Clocks of phones differ by so much without a word."""
FIRST_DAY = datetime(2000, 1, 1, tzinfo=UTC)
"""A date before it comes from a clock that was never set."""


def clock_remarks(entries: Iterable[Entry], now: datetime, last_received: datetime | None) -> tuple[str, ...]:
    """A sentence for each date that can hardly be, and one where this machine's clock went back.

    Args:
        entries: what is being taken down
        now: this machine's clock
        last_received: when the entry before these was taken down, None where there is none
    """
    remarks = []
    if last_received is not None and now < last_received - SLACK:
        said = f"the clock here says {_said(now)}, but the entry before was taken down at {_said(last_received)}"
        remarks.append(f"{said}; look whether one of the clocks is wrong")
    for entry in entries:
        if entry.made_at > now + SLACK:
            remarks.append(f"{_said(entry.made_at)} lies ahead of the clock here, {_said(now)}; {_MEND}")
        elif entry.made_at < FIRST_DAY:
            remarks.append(f"{_said(entry.made_at)} is long ago; {_MEND}")
    return tuple(dict.fromkeys(remarks))


_MEND = "it was taken down as given; correct the entry where the date is wrong"


def _said(moment: datetime) -> str:
    return f"{moment.astimezone(UTC):%Y-%m-%d %H:%M} UTC"
