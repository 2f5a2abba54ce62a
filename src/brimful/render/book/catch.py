"""The test to do on the day, with the value to expect."""

from collections.abc import Iterator

from brimful.design.model import ContainerWater, ZoneWorked
from brimful.quantities import Dimension, System, show, unit_of
from brimful.render.book.blocks import Block, Desk, chapter, form, picture, say, text
from brimful.render.charts.flows import flows
from brimful.render.charts.vega import printed

CATCH_L = 1.0
"""A catch is long enough that a jug is worth reading: about so much from the weakest container."""
READING_SHARE = 0.1
"""A jug is read to about a tenth (common practice, no source)."""
TESTED = 8
ALIKE = 0.02
"""Containers whose emitters give within this of one another need no chart."""
FLUID_OUNCE_L = 0.0295735295625


def water_test(desk: Desk) -> Iterator[Block]:
    """One chapter a zone that has water."""
    wet = [zone for _, zone in desk.scene.zones if zone.flow_l_h > 0]
    for zone in wet:
        yield chapter(f"Water test of {zone.name}", list(_blocks(desk, zone)), joins="whole")


def _blocks(desk: Desk, zone: ZoneWorked) -> Iterator[Block]:
    system = desk.system
    yield say(
        f"{show(zone.flow_l_h, Dimension.FLOW, system)} together; at the last emitter, in {zone.worst_container}, "
        f"{show(zone.least_head_m, Dimension.PRESSURE, system)} is left."
    )
    yield from _test(zone, system)
    shares = [one.share_of_mean for one in zone.containers]
    if max(shares) - min(shares) > ALIKE:
        yield picture(printed(flows(zone, system), desk.style.width, desk.style.size))


def _test(zone: ZoneWorked, system: System) -> Iterator[Block]:
    """Which containers to catch, for how long, and what should be in the jug."""
    minutes = catch_minutes(zone)
    unit = unit_of(Dimension.VOLUME, system, small=True)
    yield text(
        f"On the day: run the zone until every line is full, then catch all the water of one container for {minutes} "
        f"minutes: lift its dripline over a tub. Do it at the containers below, and read the pressure behind the last "
        f"emitter of one of them. A jug is read to a tenth: within that, the zone is built as drawn. One short: "
        f"look for a kink or a plugged feeder. All short alike: look at the filter and the regulator."
    )
    rows = [
        (
            one.container,
            jug(caught_l(one.flow_l_h, minutes), system),
            _between(one, minutes, system),
            "",
            show(one.head_m, Dimension.PRESSURE, system),
            "",
        )
        for one in tested(zone)
    ]
    heads = (
        "container",
        f"expect in {minutes} min",
        "good between",
        f"caught, {unit}",
        "expect at last emitter",
        "read",
    )
    yield form(heads, rows, shares=(2.4, 1.5, 2.2, 1.2, 1.6, 1.0))


def tested(zone: ZoneWorked) -> list[ContainerWater]:
    """First and last of each row, the weakest and the strongest: each once, in order."""
    chosen = {
        min(zone.containers, key=lambda c: c.flow_l_h).container,
        max(zone.containers, key=lambda c: c.flow_l_h).container,
    }
    for row in dict.fromkeys(c.row for c in zone.containers):
        own = [c.container for c in zone.containers if c.row == row]
        if len(chosen) < TESTED:
            chosen |= {own[0], own[-1]}
    return [c for c in zone.containers if c.container in chosen]


def catch_minutes(zone: ZoneWorked) -> int:
    """Whole minutes in which the weakest container gives about a litre; from 2 to 30."""
    least = min((c.flow_l_h for c in zone.containers if c.flow_l_h > 0), default=1.0)
    return max(2, min(30, round(CATCH_L / least * 60)))


def caught_l(flow_l_h: float, minutes: float) -> float:
    """What a flow brings in so many minutes [L]."""
    return flow_l_h * minutes / 60


def _between(one: ContainerWater, minutes: int, system: System) -> str:
    low = caught_l(min(one.flow_low_l_h or one.flow_l_h, one.flow_l_h), minutes) * (1 - READING_SHARE)
    high = caught_l(max(one.flow_high_l_h or one.flow_l_h, one.flow_l_h), minutes) * (1 + READING_SHARE)
    return f"{jug(low, system).split()[0]} and {jug(high, system)}"


def jug(volume_l: float, system: System) -> str:
    """Water in a jug, as its marks say: whole fluid ounces, or tens of millilitres."""
    return f"{volume_l / FLUID_OUNCE_L:.0f} fl oz" if system is System.US else f"{round(100 * volume_l) * 10} mL"
