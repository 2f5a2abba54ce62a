"""Nitrogen of one container week by week: what comes, what is wanted, what drains."""

from brimful.design.care.model import NitrogenWorked
from brimful.render.charts.vega import Spec, axis, spec

PARTS = (("released", "released_g"), ("fed", "fed_g"), ("drained", "drained_g"))


def nitrogen(one: NitrogenWorked) -> Spec:
    """Bars of what comes and drains; a line of what the plants would take."""
    rows = [
        {
            "week": f"{week.monday.day} {week.monday:%b}",
            "order": i,
            "part": name,
            "grams": getattr(week, field) * (-1 if name == "drained" else 1),
        }
        for i, week in enumerate(one.weeks)
        for name, field in PARTS
    ]
    wanted = [
        {"week": f"{week.monday.day} {week.monday:%b}", "order": i, "grams": week.demand_g}
        for i, week in enumerate(one.weeks)
    ]
    x = axis("week", "week of", "ordinal", sort={"field": "order"}, axis={"labelAngle": -60, "labelOverlap": True})
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
