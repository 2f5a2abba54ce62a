"""The season's work day by day, to the shut-down before the frost."""

from collections.abc import Iterator

from brimful.render.book.blocks import Block, Column, Desk, chapter, say, table
from brimful.render.words import MONTHS


def tasks(desk: Desk) -> Iterator[Block]:
    """Where the season's tasks are worked out."""
    care = desk.scene.care
    season = care.season if care is not None else None
    if season is None or not season.tasks:
        return
    rows = [
        (f"{task.day.day} {MONTHS[task.day.month - 1]}", task.name, f"{task.minutes_total:.0f}", "")
        for task in sorted(season.tasks, key=lambda one: one.day)
    ]
    columns = [
        Column("day", share=1),
        Column("what", share=6),
        Column("min", right=True, share=0.8),
        Column("done, by whom", share=2),
    ]
    lead = say(f"About {season.total_hours:.0f} hours from planting to the frost, most of it weekly rounds.")
    yield chapter("The season's work", [lead, table(columns, rows)])
