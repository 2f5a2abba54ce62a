"""Where the pressure goes between tap and last emitter."""

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, System, in_unit, show, show_number, unit_of
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import WATER


def budget(zone: ZoneWorked, system: System) -> Spec:
    """A bar for each part on the way; the title names the greatest taker beside the regulator."""
    unit = unit_of(Dimension.PRESSURE, system)
    rows = [
        {
            "part": step.where,
            "takes": in_unit(step.head_lost_m, Dimension.PRESSURE, system),
            "says": f"{show_number(step.head_lost_m, Dimension.PRESSURE, system)} {unit}",
        }
        for step in zone.pressure_budget
    ]
    others = [step for step in zone.pressure_budget if step.where != "regulator"] or list(zone.pressure_budget)
    most = max(others, key=lambda step: step.head_lost_m)
    top = max(0.1, *(row["takes"] for row in rows if isinstance(row["takes"], float)))
    left = show(zone.least_head_m, Dimension.PRESSURE, system)
    y = axis("part", None, "nominal", sort=None)
    return spec(
        f"{left} is left at the last emitter; besides the regulator, most goes in the {most.where}",
        f"pressure taken on the way to {zone.worst_container}, {unit}",
        rows,
        height=13 * len(rows),
        encoding={"y": y, "x": axis("takes", unit, scale={"domain": [0, 1.25 * top], "nice": False})},
        layer=[
            {"mark": {"type": "bar", "color": WATER, "height": 8}},
            {"mark": {"type": "text", "align": "left", "dx": 4}, "encoding": {"text": {"field": "says"}}},
        ],
    )
