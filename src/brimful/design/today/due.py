"""What is due: the season's tasks of today and those of late that nobody has written down as done."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from brimful.design.care.model import SeasonTasks, TaskWorked
from brimful.design.today.model import DueWorked
from brimful.design.today.told import Told

LATE_DAYS = 6
"""A task of last week is due anew by then, or no longer worth doing."""
COMING_DAYS = 3
DONE_BY = {"feed": ("fed",), "groom": ("trimmed", "deadheaded"), "catch": ("catch",), "catch-late": ("catch",)}
"""What in the journal tells that a task is done; a trim of a taxon by "trimmed", others by a note that begins so."""


def due_of(tasks: SeasonTasks | None, told: Sequence[Told], on: date) -> tuple[tuple[DueWorked, ...], ...]:
    """Tasks that are due today, the latest first where late, and those of the next days."""
    if tasks is None:
        return (), ()
    due = tuple(_open(tasks.tasks, told, on))
    coming = tuple(_as_due(task, on) for task in tasks.tasks if on < task.day <= on + timedelta(days=COMING_DAYS))
    return due, coming


def _open(tasks: Sequence[TaskWorked], told: Sequence[Told], on: date) -> Iterator[DueWorked]:
    latest: dict[str, TaskWorked] = {}
    for task in tasks:
        if on - timedelta(days=LATE_DAYS) <= task.day <= on:
            latest[task.key] = task
    for task in latest.values():
        if not any(_tells(one, task) and task.day <= one.at.date() <= on for one in told):
            yield _as_due(task, on)


def _tells(one: Told, task: TaskWorked) -> bool:
    if task.key.startswith("trim-"):
        return one.kind == "trimmed"
    if task.key in DONE_BY:
        return one.kind in DONE_BY[task.key]
    return one.kind == "note" and one.words.lower().startswith(task.key)


def _as_due(task: TaskWorked, on: date) -> DueWorked:
    return DueWorked(task.key, task.name, task.day, max((on - task.day).days, 0), task.minutes_total, task.text)
