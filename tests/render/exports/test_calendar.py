"""The calendar, parsed back: RFC 5545 (2009) on folding, all-day dates, UID and stamps [memory]."""

from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from icalendar import Calendar
from tests.design.care.desks import made, with_top
from tests.design.plans import EXAMPLES, FIXED, text_of

from brimful.render.exports.calendar import season_ics

CHANGED = datetime(2027, 4, 1, 12, 30, tzinfo=UTC)


@pytest.mark.parametrize("name", EXAMPLES)
def test_parsed_back_it_is_the_season(name: str) -> None:
    """Every task comes back with its day, title and text, as an all-day event that ends before the next day."""
    care = made(text_of(name))
    assert care.season is not None
    events = {str(e["uid"]): e for e in Calendar.from_ical(season_ics(care, CHANGED)).walk("VEVENT")}
    assert len(events) == len(care.season.tasks)
    for task in care.season.tasks:
        event = events[task.uid]
        first, after = event["dtstart"].dt, event["dtend"].dt
        assert type(first) is date
        assert (first, after - first) == (task.day, timedelta(days=1))
        assert (str(event["summary"]), str(event["description"])) == (task.name, task.text)


@pytest.mark.parametrize("name", EXAMPLES)
def test_lines_are_folded(name: str) -> None:
    """No line is longer than 75 octets, every line ends in CR LF, every continuation starts with a blank (3.1)."""
    data = season_ics(made(text_of(name)), CHANGED)
    lines = data.split(b"\r\n")
    assert lines[-1] == b""
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75
    assert any(line.startswith(b" ") for line in lines)


def test_stamps_are_utc_and_all_days_have_no_zone() -> None:
    """DTSTAMP is in UTC (3.8.7.2) whatever zone the clock was in; whole days need no VTIMEZONE (3.2.19)."""
    local = CHANGED.astimezone(timezone(timedelta(hours=-7)))
    data = season_ics(made(), local)
    assert data == season_ics(made(), CHANGED)
    assert b"DTSTAMP:20270401T123000Z" in data
    assert b"TZID" not in data
    assert b"DTSTART;VALUE=DATE:" in data


def test_a_second_export_updates_and_does_not_double() -> None:
    """The same plan gives the same bytes; a changed plan the same identifiers with a higher sequence (3.8.7.4)."""
    first = season_ics(made(), CHANGED)
    assert first == season_ics(made(), CHANGED)
    text = FIXED.replace("latitude = 45", 'latitude = 45\nplanting_day = "16 May"')
    later = season_ics(made(text), CHANGED + timedelta(days=1))
    before, after = (
        {str(e["uid"]): int(e["sequence"]) for e in Calendar.from_ical(data).walk("VEVENT")} for data in (first, later)
    )
    same = set(before) & set(after)
    assert len(same) >= len(after) - 3
    assert all(after[uid] > before[uid] for uid in same)


def test_needed_properties_stand_once() -> None:
    """PRODID and VERSION stand once in the calendar (3.6), UID and DTSTAMP once in each event (3.6.1)."""
    book = Calendar.from_ical(season_ics(made(with_top('title = "Commas, and; marks\\\\"')), CHANGED))
    assert str(book["version"]) == "2.0"
    assert str(book["prodid"])
    assert str(book["x-wr-calname"]) == "Commas, and; marks\\"
    events = list(book.walk("VEVENT"))
    assert len({str(event["uid"]) for event in events}) == len(events)
    assert all(not isinstance(event["dtstamp"], list) for event in events)
