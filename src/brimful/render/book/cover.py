"""The cover: the run as it will stand in summer, and what a person would say of it."""

from collections.abc import Iterator
from dataclasses import replace

from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.book.words import occasion_words, starts_words
from brimful.render.drawings.elevation import draw_elevation
from brimful.render.drawings.kinds import draw_kinds
from brimful.render.words import capital

MOST_ROWS, MOST_ZONES, LONG_TITLE = 5, 4, 60
"""What a cover has room for."""


def cover(desk: Desk) -> list[Block]:
    """The blocks under the title."""
    scene, style = desk.scene, desk.style
    tallest, size = (0.3 if len(scene.design.title) > LONG_TITLE else 0.42) * style.height, style.size
    bare = len(scene.rows) > MOST_ROWS
    drawn = draw_elevation(scene, width=style.width, size=size, week=8, tallest=tallest, bare=bare)
    large = draw_kinds(scene, width=style.width, size=size, tallest=0.2 * style.height)
    said = [say(_zone_sentence(desk, i)) for i in range(min(len(scene.zones), MOST_ZONES))]
    return [picture(drawn), picture(large), *said]


def run(desk: Desk) -> Iterator[Block]:
    """The rows one by one, where there are too many for the cover to name them."""
    scene, style = desk.scene, desk.style
    if len(scene.rows) > MOST_ROWS:
        each = (replace(scene, rows=(row,)) for row in scene.rows)
        drawn = [draw_elevation(one, width=style.width, size=style.size, week=8) for one in each]
        yield chapter("The run in summer", [picture(svg) for svg in drawn])


def _zone_sentence(desk: Desk, index: int) -> str:
    zone = desk.scene.zones[index][1]
    if not zone.run_times:
        return f"{capital(zone.name)}: no water arrives. See what to mind."
    times = ", ".join(f"{starts_words(t)} {occasion_words(t.occasion)}" for t in zone.run_times)
    flow = show(zone.flow_l_h, Dimension.FLOW, desk.system)
    return f"{capital(zone.name)}: run {times}. Its {zone.containers_count} containers draw {flow} together."


def opening(desk: Desk) -> list[Block]:
    """What stands below the contents: the place and the rows."""
    rows = [(row.spec.name, str(row.spec.count), row.worked.container, row.worked.zone) for row in desk.scene.rows]
    columns = [
        Column("row", share=2),
        Column("how many", right=True, share=1),
        Column("container", share=4),
        Column("zone", share=2),
    ]
    weather = f"Weather: {desk.scene.design.site.weather}."
    return [table(columns, rows, title="The rows"), text(weather)]
