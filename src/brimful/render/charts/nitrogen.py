"""Nitrogen of one container week by week: what comes, what is wanted, what drains."""

from brimful.design.care.model import NitrogenWeek, NitrogenWorked
from brimful.render.charts.vega import Spec, axis, spec, weeks_axis
from brimful.render.words import MONTHS

PARTS = (("released", "released_g"), ("fed", "fed_g"), ("drained", "drained_g"))


def nitrogen(one: NitrogenWorked) -> Spec:
    """Bars of what comes and drains; a line of what the plants would take."""
    signs = {"drained": -1.0}
    rows = [
        {"week": _label(week), "part": name, "grams": signs.get(name, 1.0) * getattr(week, field)}
        for week in one.weeks
        for name, field in PARTS
    ]
    wanted = [{"week": _label(week), "grams": week.demand_g} for week in one.weeks]
    x = weeks_axis([_label(week) for week in one.weeks])
    return spec(
        f"{one.row}: nitrogen is {one.verdict}",
        "grams of nitrogen a week in one container; line: what the plants would take; below zero: drained",
        rows,
        height=110,
        layer=[
            {
                "mark": "bar",
                "encoding": {"x": x, "y": axis("grams", "g a week"), "color": axis("part", None, "nominal", sort=None)},
            },
            {
                "data": {"values": wanted},
                "mark": {"type": "line", "color": "#1F2A24", "strokeWidth": 1.2},
                "encoding": {"x": x, "y": axis("grams", "g a week")},
            },
        ],
    )


def _label(week: NitrogenWeek) -> str:
    return f"{week.monday.day} {MONTHS[week.monday.month - 1]}"
