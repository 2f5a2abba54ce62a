"""The cover: the run as it will stand in summer, and what a person would say of it."""

from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, picture, say, table, text
from brimful.render.book.words import occasion_words, starts_words
from brimful.render.drawings.elevation import draw_elevation


def cover(desk: Desk) -> list[Block]:
    """The blocks under the title."""
    scene, style = desk.scene, desk.style
    drawn = draw_elevation(scene, width=style.width, size=style.size, week=8, tallest=0.48 * style.height)
    return [picture(drawn), *(say(_zone_sentence(desk, i)) for i in range(len(scene.zones)))]


def _zone_sentence(desk: Desk, index: int) -> str:
    zone = desk.scene.zones[index][1]
    if not zone.run_times:
        return f"{zone.name}: no water arrives. See what to mind."
    times = ", ".join(f"{starts_words(t)} {occasion_words(t.occasion)}" for t in zone.run_times)
    flow = show(zone.flow_l_h, Dimension.FLOW, desk.system)
    return f"{zone.name}: run {times}. Its {zone.containers_count} containers draw {flow} together."


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
