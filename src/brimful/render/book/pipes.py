"""How the water gets there: each zone as it is piped."""

from collections.abc import Iterator

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Desk, chapter, picture, say
from brimful.render.charts.budget import budget
from brimful.render.charts.sun_hours import sun_hours
from brimful.render.charts.vega import printed
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.zone import draw_zone, parts_of
from brimful.render.words import supply_words, tube_words

HEAD = 40.0
"""Room that the run at the head of a page takes."""


def pipes(desk: Desk) -> Iterator[Block]:
    """The site where the plan says where things stand, then one chapter a zone."""
    style = desk.style
    if has_site(desk.scene):
        drawn = draw_site(desk.scene, width=style.width, size=style.size, tallest=0.42 * style.height)
        yield chapter("The site", [picture(drawn), *sun(desk)], joins="whole")
    for i, (spec, zone) in enumerate(desk.scene.zones):
        parts = parts_of(spec, style.size, style.height - HEAD - 8 * style.size)
        drawn_parts = (
            draw_zone(desk.scene, (spec, zone), width=style.width, size=style.size, laterals=part) for part in parts
        )
        blocks = [picture(svg) for svg in drawn_parts]
        if zone.flow_l_h > 0:
            blocks = [
                say(_answer(desk, zone)),
                *blocks,
                picture(printed(budget(zone, desk.system), style.width, style.size)),
            ]
        yield chapter(f"Tubes of {zone.name}", blocks, joins="at once" if i and style.large else "")


def _answer(desk: Desk, zone: ZoneWorked) -> str:
    speed = zone.most_velocity_m_s
    fast = f"{speed:.2f} m/s" if desk.system is System.METRIC else f"{speed / 0.3048:.1f} ft/s"
    return (
        f"{show(zone.flow_l_h, Dimension.FLOW, desk.system)}, {supply_words(zone.supply_share)}. Emission uniformity "
        f"{zone.emission_uniformity_percent:.0f} %, low quarter {zone.distribution_uniformity_percent:.0f} %; fastest "
        f"water {fast} in {tube_words(zone.most_velocity_where)}."
    )


def sun(desk: Desk) -> Iterator[Block]:
    """Hours of sun by month, where something shades."""
    season, style = desk.scene.season, desk.style
    if season is not None and season.sun:
        yield picture(printed(sun_hours(season), style.width, style.size))
