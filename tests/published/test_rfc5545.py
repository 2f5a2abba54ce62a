"""RFC 5545, Internet Calendaring and Scheduling (2009): what all-day events and their identifiers must be [memory].

Section 3.6.1: an event of DATE values without a time lasts whole days, and its end day is not part of it.
Section 3.8.4.7: UID is lasting and globally unique.
"""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.work.events import day_events
from brimful.domains.work.season import RULES, season_tasks

FIRST, FROST = date(2026, 5, 15), date(2026, 10, 20)


def test_the_end_day_is_not_part_of_the_event() -> None:
    """A one-day task ends on the next day, which does not belong to it (section 3.6.1)."""
    tasks = season_tasks(RULES, planted=FIRST, frost=FROST, containers=10)
    for event, task in zip(day_events(tasks, plan_id="p"), tasks, strict=True):
        assert event.first == task.day
        assert event.after_last - event.first == timedelta(days=1)


@given(st.integers(-60, 60))
def test_identifiers_outlast_a_change_of_dates(shift: int) -> None:
    """A second export after planting on another day updates the same events (section 3.8.4.7)."""
    moved = timedelta(days=shift)
    one, other = (
        {e.uid for e in day_events(season_tasks(RULES, planted=FIRST + d, frost=FROST + d, containers=3), plan_id="p")}
        for d in (timedelta(0), moved)
    )
    assert one == other


def test_identifiers_are_unique_over_plans_and_zones() -> None:
    """No two events of two plans and two zones share an identifier (section 3.8.4.7)."""
    tasks = season_tasks(RULES, planted=FIRST, frost=FROST, containers=3)
    uids = [e.uid for plan in ("p", "q") for zone in ("", "a", "b") for e in day_events(tasks, plan_id=plan, zone=zone)]
    assert len(set(uids)) == len(uids) == 6 * len(tasks)


def test_the_written_calendar_folds_escapes_and_keeps_whole_days() -> None:
    """Lines of at most 75 octets (3.1), commas escaped (3.3.11), DATE values (3.3.4), DTSTAMP in UTC (3.8.7.2)."""
    from datetime import UTC, datetime

    from icalendar import Calendar
    from tests.design.care.desks import made

    from brimful.render.exports.calendar import season_ics

    data = season_ics(made(), datetime(2027, 4, 1, tzinfo=UTC))
    assert max(map(len, data.split(b"\r\n"))) <= 75
    assert b"SUMMARY:Start-up: flush\\, leak test\\, set the timer\r\n" in data
    assert b"DTSTAMP:20270401T000000Z\r\n" in data
    events = list(Calendar.from_ical(data).walk("VEVENT"))
    assert all(event["dtend"].dt - event["dtstart"].dt == timedelta(days=1) for event in events)
