"""Water in one container hour by hour through its zone's hottest week."""

from brimful.design.season.model import HotWeekWorked, SeasonWorked
from brimful.quantities import Dimension, System, in_unit, unit_of
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import CLAY, INK, WATER

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
    kind = axis("year", None, "nominal", sort=[MIDDLE, DRIEST])
    top = {"domain": [0, 1.04 * _in(week.full_l, system)], "nice": False}
    course = {
        "mark": {"type": "line", "strokeWidth": 1.4, "clip": True},
        "encoding": {
            "x": _days(week),
            "y": axis("water", unit, scale=top),
            "color": {**kind, "scale": {"domain": [MIDDLE, DRIEST], "range": [WATER, CLAY]}},
            "strokeDash": {**kind, "scale": {"domain": [MIDDLE, DRIEST], "range": [[1, 0], [5, 2]]}},
        },
    }
    return spec(
        _finding(week),
        f"{unit} above wilting in {week.container}, hour by hour from {week.from_day}, the hottest week; driest of "
        f"{season.years_count} years",
        rows,
        height=130,
        layer=[_levels(week, system), course],
        resolve={"axis": {"y": "independent"}},
    )


def _finding(week: HotWeekWorked) -> str:
    """How low the driest year falls, against the levels."""
    least = min(week.driest_year_l)
    left = f"{100 * least / week.full_l:.0f} % of full"
    if least < week.stress_l:
        return f"In the driest year {week.container} falls to {left}: its plants go short"
    if least < week.water_again_l:
        return f"In the driest year {week.container} falls to {left}: overdue, not yet short"
    return f"Even in the driest year {week.container} keeps {left}"


def _days(week: HotWeekWorked) -> dict[str, object]:
    days = len(week.driest_year_l) // HOURS_A_DAY
    ticks = {"values": list(range(days + 1)), "format": "d"}
    return axis("day", "days", axis=ticks, scale={"domain": [0, days], "nice": False})


def _levels(week: HotWeekWorked, system: System) -> Spec:
    """A line across for full, water again and stress; their names stand at the right."""
    levels = {"full": week.full_l, "water again": week.water_again_l, "stress below": week.stress_l}
    at = {words: _in(litres, system) for words, litres in levels.items()}
    named = "".join(f"abs(datum.value - {value!r}) < 1e-9 ? '{words}' : " for words, value in at.items())
    names = {"orient": "right", "values": list(at.values()), "labelExpr": f"{named}''", "grid": False, "ticks": False}
    return {
        "data": {"values": [{"water": value} for value in at.values()]},
        "mark": {"type": "rule", "color": INK, "strokeWidth": 0.8, "strokeDash": [1, 2]},
        "encoding": {"y": axis("water", None, axis={**names, "domain": False, "labelOverlap": "parity"})},
    }


def _in(litres: float, system: System) -> float:
    return in_unit(litres, Dimension.VOLUME, system)
