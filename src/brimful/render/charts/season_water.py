"""The season of water, with the risk of stress under it."""

from brimful.design.season.model import SeasonWorked, ZoneSeason
from brimful.quantities import Dimension, System, in_unit, show, unit_of
from brimful.render.charts.vega import Spec, axis, spec, weeks_axis
from brimful.render.drawings.svg import CLAY, WATER
from brimful.render.words import short_day


def season_water(season: SeasonWorked, zone: ZoneSeason, system: System) -> Spec:
    """Bars of water a week; a line of chance of stress with open points, on its own scale."""
    unit = unit_of(Dimension.VOLUME, system)
    rows = [
        {
            "week": short_day(week.from_day),
            "water": in_unit(week.zone_l, Dimension.VOLUME, system),
            "stress": 100 * week.stress_chance_share,
        }
        for week in zone.weeks
    ]
    most = max(week.stress_chance_share for week in zone.weeks)
    total = show(sum(week.zone_l for week in zone.weeks), Dimension.VOLUME, system)
    x = weeks_axis([short_day(week.from_day) for week in zone.weeks])
    return spec(
        f"The season takes {total}; {_risk(most, season.years_count)}",
        f"bars: water of {zone.zone}, {unit} a week; points: chance of a dry container, {season.years_count} seasons",
        rows,
        height=110,
        encoding={"x": x},
        layer=[
            {
                "mark": {"type": "bar", "color": WATER, "opacity": 0.45},
                "encoding": {"y": axis("water", f"{unit} a week")},
            },
            {
                "mark": {
                    "type": "line",
                    "color": CLAY,
                    "strokeWidth": 1.2,
                    "point": {"filled": False, "fill": "white", "size": 22},
                },
                "encoding": {"y": axis("stress", "chance of stress, %", scale={"domain": [0, max(10, 100 * most)]})},
            },
        ],
        resolve={"scale": {"y": "independent"}},
    )


def _risk(most: float, years: int) -> str:
    if most == 0:
        return f"no container runs short in any of {years} years"
    return f"in no week does the chance of stress pass {100 * most:.0f} %"
