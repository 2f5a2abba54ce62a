"""The season's tasks as a calendar (RFC 5545): all-day events, and identifiers that last over exports."""

from datetime import UTC, datetime, timedelta

from brimful.design.care.model import Care

EPOCH = datetime(2020, 1, 1, tzinfo=UTC)


def season_ics(care: Care, changed: datetime) -> bytes:
    """The calendar; `changed` is when the plan last changed: later means a higher sequence.

    Args: care: with its season. changed: with its time zone.
    """
    from icalendar import Calendar, Event

    stamp = changed.astimezone(UTC).replace(microsecond=0)
    book = Calendar()
    book.add("prodid", "-//Brimful//season//EN")
    book.add("version", "2.0")
    book.add("calscale", "GREGORIAN")
    book.add("x-wr-calname", care.title)
    for task in care.season.tasks if care.season is not None else ():
        event = Event()
        event.add("uid", task.uid)
        event.add("dtstamp", stamp)
        event.add("last-modified", stamp)
        event.add("sequence", max(0, int((stamp - EPOCH).total_seconds() // 60)))
        event.add("dtstart", task.day)
        event.add("dtend", task.day + timedelta(days=1))
        event.add("summary", task.name)
        event.add("description", task.text)
        event.add("transp", "TRANSPARENT")
        book.add_component(event)
    return bytes(book.to_ical())
