"""How the water gets there: each zone as it is piped."""

from collections.abc import Iterator

from brimful.render.book.blocks import Block, Desk, chapter, picture
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.zone import draw_zone, parts_of

HEAD = 40.0
"""Room that the run at the head of a page takes."""


def pipes(desk: Desk) -> Iterator[Block]:
    """The site where the plan says where things stand, then one chapter a zone."""
    style = desk.style
    if has_site(desk.scene):
        drawn = draw_site(desk.scene, width=style.width, size=style.size, tallest=0.7 * style.height)
        yield chapter("The site", [picture(drawn)])
    for spec, zone in desk.scene.zones:
        parts = parts_of(spec, style.size, style.height - HEAD - 5 * style.size)
        drawn_parts = (
            draw_zone(desk.scene, (spec, zone), width=style.width, size=style.size, laterals=part) for part in parts
        )
        yield chapter(f"Tubes of {zone.name}", [picture(svg) for svg in drawn_parts])
