"""The season's work day by day, to the shut-down before the frost."""

from collections.abc import Iterator

from brimful.design.care.model import TaskWorked
from brimful.render.book.blocks import Block, Column, Desk, chapter, say, table
from brimful.render.words import MONTHS

NARROW = "\u00a0"
TRIM = "trim-"
SHUT_DOWN = ("winterise", "strip", "store")
"""Tasks that end the season."""


def tasks(desk: Desk) -> Iterator[Block]:
    """Where the season's tasks are worked out."""
    care = desk.scene.care
    season = care.season if care is not None else None
    if season is None or not season.tasks:
        return
    columns = [
        Column("day"),
        Column("what", share=7),
        Column("min", right=True),
        Column("done, by whom", share=1.8),
    ]
    order = sorted(season.tasks, key=lambda one: one.day)
    last = [task for task in order if task.key in SHUT_DOWN]
    rounds = [task for task in order if task.key not in SHUT_DOWN]
    lead = say(
        f"About {season.total_hours:.0f} hours from planting to the frost of {season.tasks[-1].day.year}, most of it "
        f"weekly rounds."
    )
    blocks = [lead, table(columns, _visits(rounds))]
    if last:
        blocks.append(table(columns, _visits(last), title="Shut-down, before the freeze"))
    yield chapter("The season's work", blocks)


def _visits(tasks: list[TaskWorked]) -> Iterator[tuple[str, ...]]:
    """One line a day: everything that is due on it, plants to trim named together, and the minutes of all."""
    for day in dict.fromkeys(task.day for task in tasks):
        own = [task for task in tasks if task.day == day]
        trims = [task.name.partition(" ")[2] for task in own if task.key.startswith(TRIM)]
        names = [task.name for task in own if not task.key.startswith(TRIM)]
        names += [f"Trim {', '.join(trims)}"] if trims else []
        minutes = sum(task.minutes_total for task in own)
        yield f"{day.day}{NARROW}{MONTHS[day.month - 1]}", ". ".join(names), f"{minutes:.0f}", ""
