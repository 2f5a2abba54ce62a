"""The season's work day by day, to the shut-down before the frost."""

from collections.abc import Iterator

from brimful.design.care.model import TaskWorked
from brimful.render.book.blocks import Block, Column, Desk, chapter, say, table
from brimful.render.words import MONTHS

SHUT_DOWN = ("winterise", "strip", "store")
"""Tasks that end the season."""


def tasks(desk: Desk) -> Iterator[Block]:
    """Where the season's tasks are worked out."""
    care = desk.scene.care
    season = care.season if care is not None else None
    if season is None or not season.tasks:
        return
    columns = [
        Column("day", share=1),
        Column("what", share=6),
        Column("min", right=True, share=0.8),
        Column("done, by whom", share=2),
    ]
    order = sorted(season.tasks, key=lambda one: one.day)
    last = [task for task in order if task.key in SHUT_DOWN]
    rounds = [task for task in order if task.key not in SHUT_DOWN]
    lead = say(f"About {season.total_hours:.0f} hours from planting to the frost, most of it weekly rounds.")
    blocks = [lead, table(columns, [_line(task) for task in rounds])]
    if last:
        blocks.append(table(columns, [_line(task) for task in last], title="Shut-down, before the freeze"))
    yield chapter("The season's work", blocks)


def _line(task: TaskWorked) -> tuple[str, ...]:
    return f"{task.day.day} {MONTHS[task.day.month - 1]}", task.name, f"{task.minutes_total:.0f}", ""
