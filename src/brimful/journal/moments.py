"""When something was seen or done, as a person writes it."""

from datetime import datetime
from itertools import product

from brimful.errors import EntryRefused

DAYS = ("%Y-%m-%d ", "%Y-%m-%dT", "")
HOURS = ("%H:%M", "%H:%M:%S", "%I:%M %p", "%I:%M%p", "%I %p", "%I%p")


def read_moment(text: str, now: datetime) -> datetime:
    """A moment from "2026-07-02 6:40", "6:40 pm" (today), "2026-07-02" (its noon) or ISO 8601 with an offset.

    Args:
        text: what was written, by the clock of this place where it has no offset
        now: the clock, with its offset

    Raises:
        EntryRefused: it is no such moment.
    """
    given = " ".join(text.split())
    moment = _by_the_clock(given, now) or _with_offset(given)
    try:
        if moment is not None:
            return moment.astimezone()
    except (OverflowError, ValueError, OSError):
        pass  # a year that no clock shows
    expected = 'a day and a time were expected, for example "2026-07-02 6:40"'
    raise EntryRefused(f'"{given[:40]}" was given; {expected}')


def _by_the_clock(given: str, now: datetime) -> datetime | None:
    for day, hour in (*product(DAYS, HOURS), ("%Y-%m-%d", "")):
        try:
            read = datetime.strptime(given, day + hour)
        except ValueError:
            continue
        today = now.astimezone().date()
        date = read.date() if day else today
        return datetime.combine(date, read.time()) if hour else read.replace(hour=12)
    return None


def _with_offset(given: str) -> datetime | None:
    try:
        read = datetime.fromisoformat(given)
    except ValueError:
        return None
    return read if read.tzinfo is not None else None
