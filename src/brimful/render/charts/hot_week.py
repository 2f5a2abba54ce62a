"""Water in one container hour by hour through its zone's hottest week."""

from brimful.design.season.model import HotWeekWorked, SeasonWorked
from brimful.quantities import Dimension, System, in_unit, unit_of
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import ALARM, CLAY, INK, SOFT, WATER

HOURS_A_DAY = 24
DRIEST, MIDDLE = "driest year", "middle year"


def hot_week(season: SeasonWorked, week: HotWeekWorked, system: System) -> Spec:
    """A line for a middle year and one for the driest; levels drawn across, each with its name."""
    unit = unit_of(Dimension.VOLUME, system)
    rows = [
        {"day": hour / HOURS_A_DAY, "water": _in(litres, system), "year": year}
        for year, levels in ((MIDDLE, week.middle_year_l), (DRIEST, week.driest_year_l))
        for hour, litres in enumerate(levels, 1)
    ]
    days = len(week.driest_year_l) / HOURS_A_DAY
    kind = axis("year", None, "nominal", sort=[MIDDLE, DRIEST])
    return spec(
        _finding(week),
        f"{unit} above wilting in {week.container}, hour by hour from {week.from_day}, "
        f"the hottest week; driest of {season.years_count} years",
        rows,
        height=140,
        layer=[
            *_levels(week, system),
            {
                "mark": {"type": "line", "strokeWidth": 1.4, "clip": True},
                "encoding": {
                    "x": axis(
                        "day",
                        "days of the week",
                        axis={"tickMinStep": 1, "format": "d"},
                        scale={"domain": [0, days], "nice": False},
                    ),
                    "y": axis("water", unit, scale={"domain": [0, 1.08 * _in(week.full_l, system)], "nice": False}),
                    "color": {**kind, "scale": {"domain": [MIDDLE, DRIEST], "range": [WATER, CLAY]}},
                    "strokeDash": {**kind, "scale": {"domain": [MIDDLE, DRIEST], "range": [[1, 0], [5, 2]]}},
                },
            },
        ],
    )


def _finding(week: HotWeekWorked) -> str:
    """How low the driest year falls, against the levels."""
    least = min(week.driest_year_l)
    left = f"{100 * least / week.full_l:.0f} % of its water"
    if least < week.stress_l:
        return f"In the driest year {week.container} falls to {left}: its plants go short"
    if least < week.water_again_l:
        return f"In the driest year {week.container} falls to {left}: below where to water again, above stress"
    return f"Even in the driest year {week.container} keeps {left}, above where to water again"


def _levels(week: HotWeekWorked, system: System) -> list[Spec]:
    """A line across for full, water again and stress, its name above it."""
    lines = (
        ("full", week.full_l, SOFT),
        ("water again", week.water_again_l, INK),
        ("stress below", week.stress_l, ALARM),
    )
    return [
        {
            "data": {"values": [{"water": _in(litres, system), "day": 0, "says": words}]},
            "layer": [
                {
                    "mark": {"type": "rule", "color": tint, "strokeWidth": 0.8},
                    "encoding": {"y": axis("water", None)},
                },
                {
                    "mark": {"type": "text", "align": "left", "dx": 3, "dy": -6},
                    "encoding": {"y": axis("water", None), "x": axis("day", None), "text": {"field": "says"}},
                },
            ],
        }
        for words, litres, tint in lines
    ]


def _in(litres: float, system: System) -> float:
    return in_unit(litres, Dimension.VOLUME, system)
