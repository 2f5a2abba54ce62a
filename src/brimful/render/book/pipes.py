"""How the water gets there: each zone as it is piped."""

from collections.abc import Iterator

from brimful.render.book.blocks import Block, Desk, chapter, picture
from brimful.render.drawings.zone import draw_zone


def pipes(desk: Desk) -> Iterator[Block]:
    """One chapter a zone."""
    for spec, zone in desk.scene.zones:
        drawn = draw_zone(desk.scene, spec, zone, width=desk.style.width, size=desk.style.size)
        yield chapter(f"Tubes of {zone.name}", [picture(drawn)])
