"""Tasks as calendar days: all-day events with identifiers that stay the same from one export to the next."""

from collections.abc import Sequence
from datetime import date, timedelta

from brimful.domains.work.season import SeasonTask
from brimful.records import record

DOMAIN = "brimful"


@record
class DayEvent:
    """One all-day event: lasting identifier, first day, the day after the last, title and text."""

    uid: str
    first: date
    after_last: date
    title: str
    text: str


def day_events(tasks: Sequence[SeasonTask], *, plan_id: str, zone: str = "") -> tuple[DayEvent, ...]:
    """The season's tasks as all-day events whose identifiers outlast a change of dates.

    Formula: identifier = plan, zone, task and its number, never its day; the end is the day after, not included.
    Args: tasks: of the season. plan_id: lasting name of the plan. zone: where, if tasks are by zone.
    Returns: one event a task, by day.
    Valid: plan_id not empty; each task's key and number only once.
    Source: RFC 5545 sections 3.6.1 and 3.8.4.7 (all-day events end before DTEND; UID is lasting and unique).
    """
    if not plan_id:
        raise ValueError("plan_id is empty; expected a lasting name of the plan")
    events = tuple(
        DayEvent(
            uid="/".join([plan_id, *([zone] if zone else []), task.key, str(task.number)]) + "@" + DOMAIN,
            first=task.day,
            after_last=task.day + timedelta(days=1),
            title=f"{task.name} ({zone})" if zone else task.name,
            text=" ".join([f"About {task.minutes:.0f} minutes.", task.reason]).strip(),
        )
        for task in sorted(tasks, key=lambda task: task.day)
    )
    if len({event.uid for event in events}) < len(events):
        raise ValueError("two tasks share key and number; expected each only once")
    return events
