"""Water: what each container gets, where the pressure goes, how long to run, week by week."""

from collections.abc import Iterator
from functools import partial

from brimful.design.model import ZoneWorked
from brimful.design.season.model import SeasonWorked, ZoneSeason
from brimful.quantities import Dimension, System, in_unit, show, unit_of
from brimful.records import record
from brimful.render.drawings.every import zone_name
from brimful.render.drawings.scene import Scene
from brimful.render.numbers import alike
from brimful.render.words import MONTHS, tube_words, zone_words
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, Share, chosen_of, peak_of, shares_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.shown import charts_of
from brimful.web.words import flow, joined, month_name, surplus, volume, zones_answer

TOO_LITTLE, TOO_MUCH = 0.90, 1.15
"""Beyond these shares of what it should get a container is to mind."""
OCCASIONS = {"planting_day": "after planting", "mid_season": "mid-season", "peak": "hottest days"}

HELD = {
    "regulating": ", which holds",
    "inlet too low": ", which gets too little pressure to hold",
    "flow below its minimum": ", which passes too little water to hold",
}
"""By the state of a regulator, what is said of it."""
TOLD = "Flow into each in {unit}, and how far what it gets is off on the hottest days"
SEASON_CHARTS = ("minutes", "water", "hot-week")


@record
class ZoneShown:
    """One zone as the page shows it: drawing, charts there are, containers spoken of, and its season."""

    number: int
    zone: ZoneWorked
    drawing: str
    charts: tuple[str, ...]
    shares: tuple[Share, ...]
    season: ZoneSeason | None
    season_charts: tuple[str, ...]


def look(sight: Sight, asked: Asked) -> Leaf:
    """Sentences, the flow into each container, zone by zone where the water goes, and the season."""
    scene = sight.scene
    assert scene is not None
    chosen = chosen_of(scene, asked)
    marks: dict[str, Mark] = {}
    for _, zone in scene.zones:
        peak = {one.water.container: one for one in shares_of(zone, peak_of(zone))}
        marks |= {one.container: _mark(one.flow_l_h, peak.get(one.container), scene.system) for one in zone.containers}
    charts = charts_of(sight)
    zones = tuple(_shown(scene, number, zone, chosen, charts) for number, zone in chosen.zones)
    inside = {
        "chosen": chosen,
        "zones": zones,
        "occasions": OCCASIONS,
        "charts": charts,
        "months": MONTHS,
        "month_name": month_name,
    }
    unit = unit_of(Dimension.FLOW, scene.system, small=True)
    inside |= {
        "months_of": months_of, "spread_out": spread_out, "flow_unit": unit, "flows": _flows(scene),
        "in_tube": partial(speed_in_tube, system=scene.system), "tube_words": tube_words,
        "regulator_words": regulator_words,
    }  # fmt: skip
    return Leaf(tuple(_said(scene, chosen, zones)), marks, inside, TOLD.format(unit=unit))


def _mark(flow_l_h: float, at_peak: Share | None, system: System) -> Mark:
    words = f"{in_unit(flow_l_h, Dimension.FLOW, system, small=True):.1f}"
    if at_peak is None:
        return Mark(words, "bad")
    if TOO_LITTLE <= at_peak.share <= TOO_MUCH:
        return Mark(words, "good")
    return Mark(f"{words}\n{100 * (at_peak.share - 1):+.0f} %".replace("-", "−"), "mind")


def _flows(scene: Scene) -> dict[str, str]:
    """The flow into each container, those of a zone with as many decimals as one another."""
    told: dict[str, str] = {}
    for _, zone in scene.zones:
        words = alike([one.flow_l_h for one in zone.containers], Dimension.FLOW, scene.system, small=True)
        told |= {one.container: word for one, word in zip(zone.containers, words, strict=True)}
    return told


def speed_in_tube(speed_m_s: float, system: System) -> str:
    """How fast water runs in a tube.

    >>> speed_in_tube(0.5, System.METRIC), speed_in_tube(0.5, System.US)
    ('0.50 m/s', '1.6 ft/s')
    """
    return f"{speed_m_s:.2f} m/s" if system is System.METRIC else f"{speed_m_s / 0.3048:.1f} ft/s"


def regulator_words(told: str) -> str:
    """Which regulator, and whether it holds its setting, from what the design tells of it.

    >>> regulator_words("regulator 25 psi: regulating"), regulator_words("no regulator: no regulator")
    ('regulator 25 psi, which holds', 'no regulator')
    """
    name, _, state = told.partition(": ")
    return f"{name}{HELD[state]}" if state in HELD else name


def _shown(scene: Scene, number: int, zone: ZoneWorked, chosen: Chosen, charts: dict[str, str]) -> ZoneShown:
    season = next((one for one in scene.season.zones if one.zone == zone.name), None) if scene.season else None
    at = next((i for i, one in enumerate(scene.season.zones, 1) if one is season), 0) if scene.season else 0
    shares = shares_of(zone, peak_of(zone))
    return ZoneShown(
        number,
        zone,
        zone_name(number, zone.name),
        tuple(
            name for name in (f"chart-zone-{number}-pressure.svg", f"chart-zone-{number}-flow.svg") if name in charts
        ),
        tuple(one for one in shares if chosen.one in ("", one.water.container)),
        season,
        tuple(name for kind in SEASON_CHARTS if (name := f"chart-season-{at}-{kind}.svg") in charts),
    )


def _said(scene: Scene, chosen: Chosen, zones: tuple[ZoneShown, ...]) -> list[str]:
    if chosen.one:
        return _said_of_one(scene, zones[0])
    said = zones_answer([one.zone for one in zones])
    uneven = list(_uneven(zones))
    if uneven:
        said.append(f"On the hottest days {joined(uneven, 2)}.")
    supplied = [one.zone for one in zones if one.zone.supply_share]
    if supplied:
        most = max(supplied, key=lambda zone: zone.supply_share or 0)
        said.append(
            f"{zone_words(most.name).capitalize()} takes {show(most.flow_l_h, Dimension.FLOW, scene.system)}, "
            f"{100 * (most.supply_share or 0):.0f} % of what the tap gives."
        )
    return said


def _uneven(zones: tuple[ZoneShown, ...]) -> Iterator[str]:
    """Rows in which some container gets too little, and rows in which one gets too much."""
    worst: dict[str, float] = {}
    for one in (share for zone in zones for share in zone.shares):
        if abs(one.share - 1) > abs(worst.get(one.water.row, 1.0) - 1):
            worst[one.water.row] = one.share
    much = {row: share for row, share in worst.items() if share > TOO_MUCH}
    little = {row: share for row, share in worst.items() if share < TOO_LITTLE}
    for off, most, more in ((little, min, "less"), (much, max, "more")):
        if off:
            percent = abs(round(100 * (most(off.values()) - 1)))
            who = "all containers" if off.keys() == worst.keys() else f"containers of {joined(list(off), 3)}"
            yield f"{who} get up to {percent} % {more} than they should"


def _said_of_one(scene: Scene, shown: ZoneShown) -> list[str]:
    if not shown.shares:
        return zones_answer([shown.zone])
    one = shown.shares[0]
    return [
        f"{one.water.container} gets {flow(one.water.flow_l_h, scene.system)} while the water runs; on the hottest "
        f"days {volume(one.gets_l_day, scene.system)}, {surplus(one.share)}.",
        *zones_answer([shown.zone]),
    ]


def months_of(items: tuple[object, ...]) -> list[int]:
    """The months that figures are told for, in the order of the season."""
    return list(dict.fromkeys(getattr(one, "month") for one in items))  # noqa: B009


def spread_out(season: ZoneSeason, what: str, rows: tuple[str, ...]) -> dict[str, dict[int, object]]:
    """Figures of a season by row and month: what it wants, or days it lasts."""
    table: dict[str, dict[int, object]] = {}
    for one in getattr(season, what):
        if one.row in rows:
            table.setdefault(one.row, {})[one.month] = one
    return table


def sun_of(season: SeasonWorked | None, rows: tuple[str, ...]) -> list[object]:
    """Direct sun on the rows spoken of."""
    return [one for one in season.sun if one.row in rows] if season is not None else []


PAGE = Page("water", "Water", "water.html", look)
