"""How the planting grows: the run at planting and by weeks, the bloom calendar, sun on each row."""

from collections.abc import Iterator

from brimful.design.growing import WEEKS
from brimful.render.book.blocks import Block, Desk, abreast, chapter, picture, text
from brimful.render.book.pipes import sun
from brimful.render.charts.bloom import bloom
from brimful.render.charts.vega import printed
from brimful.render.drawings.above import draw_above
from brimful.render.drawings.site import has_site
from brimful.render.drawings.weeks import draw_weeks


def planting(desk: Desk) -> Iterator[Block]:
    """Where anything is planted."""
    if any(row.plants for row in desk.scene.rows):
        yield chapter("How it grows", list(_blocks(desk)))


def _blocks(desk: Desk) -> Iterator[Block]:
    scene, style = desk.scene, desk.style
    seen: set[object] = set()
    for row in scene.rows:
        key = (row.worked.container, row.worked.plants)
        if row.plants and key not in seen:
            seen.add(key)
            yield picture(draw_weeks(scene, row, width=style.width, size=style.size))
            half = 0.44 * style.width
            yield abreast([draw_above(scene, row, width=half, size=style.size, week=week) for week in (8, 16)])
    grown = scene.planting.growth_taken_as if scene.planting else "mean days of the place"
    weeks = ", ".join(str(week) for week in WEEKS[1:])
    yield text(
        f"On planting day and after {weeks} weeks, as warmth lets the plants grow: {grown}. A cool year takes longer. "
        f"The tint of a flower is one of the colours sold."
    )
    chart = bloom(scene)
    if chart is not None:
        yield picture(printed(chart, style.width, style.size))
    if not has_site(scene):
        yield from sun(desk)
