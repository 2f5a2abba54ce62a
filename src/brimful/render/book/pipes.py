"""How the water gets there: each zone as it is piped."""

from collections.abc import Iterator

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Desk, chapter, pairs, picture
from brimful.render.charts.budget import budget
from brimful.render.charts.sun_hours import sun_hours
from brimful.render.charts.vega import printed
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.zone import draw_zone, parts_of
from brimful.render.words import supply_words

HEAD = 40.0
"""Room that the run at the head of a page takes."""


def pipes(desk: Desk) -> Iterator[Block]:
    """The site where the plan says where things stand, then one chapter a zone."""
    style = desk.style
    if has_site(desk.scene):
        drawn = draw_site(desk.scene, width=style.width, size=style.size, tallest=0.5 * style.height)
        yield chapter("The site", [picture(drawn), *sun(desk)])
    for spec, zone in desk.scene.zones:
        parts = parts_of(spec, style.size, style.height - HEAD - 5 * style.size)
        drawn_parts = (
            draw_zone(desk.scene, (spec, zone), width=style.width, size=style.size, laterals=part) for part in parts
        )
        blocks = [picture(svg) for svg in drawn_parts]
        if zone.flow_l_h > 0:
            blocks += [picture(printed(budget(zone, desk.system), style.width, style.size)), _figures(desk, zone)]
        yield chapter(f"Tubes of {zone.name}", blocks)


def sun(desk: Desk) -> Iterator[Block]:
    """Hours of sun by month, where something shades."""
    season, style = desk.scene.season, desk.style
    if season is not None and season.sun:
        yield picture(printed(sun_hours(season), style.width, style.size))


def _figures(desk: Desk, zone: ZoneWorked) -> Block:
    after = show(zone.head_after_regulator_m, Dimension.PRESSURE, desk.system)
    rows = [
        ("takes", supply_words(zone.supply_share)),
        ("regulator", zone.regulator.removeprefix("regulator ")),
        ("pressure after it", after),
        ("emission uniformity", f"{zone.emission_uniformity_percent:.0f} %"),
        ("distribution uniformity, low quarter", f"{zone.distribution_uniformity_percent:.0f} %"),
        ("fastest water", f"{speed(zone.most_velocity_m_s, desk.system)} in {zone.most_velocity_where}"),
    ]
    return pairs(rows, columns=1 if desk.style.large else 2)


def speed(speed_m_s: float, system: System) -> str:
    """Speed of water, in metres or feet a second."""
    return f"{speed_m_s:.2f} m/s" if system is System.METRIC else f"{speed_m_s / 0.3048:.1f} ft/s"
