"""How the water gets there: each zone as it is piped."""

from collections.abc import Iterator

from brimful.render.book.blocks import Block, Desk, chapter, picture
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.zone import draw_zone


def pipes(desk: Desk) -> Iterator[Block]:
    """The site where the plan says where things stand, then one chapter a zone."""
    style = desk.style
    if has_site(desk.scene):
        drawn = draw_site(desk.scene, width=style.width, size=style.size, tallest=0.7 * style.height)
        yield chapter("The site", [picture(drawn)])
    for spec, zone in desk.scene.zones:
        drawn = draw_zone(desk.scene, spec, zone, width=desk.style.width, size=desk.style.size)
        yield chapter(f"Tubes of {zone.name}", [picture(drawn)])
