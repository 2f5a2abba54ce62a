"""What each container gets against what its siblings get."""

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, System, in_unit, unit_of
from brimful.render.charts.vega import Spec, axis, spec


def flows(zone: ZoneWorked, system: System) -> Spec:
    """A point for each container from the water's end; rows told apart by shape and colour."""
    unit = unit_of(Dimension.FLOW, system, small=True)
    number: dict[str, int] = {}
    rows = []
    for one in zone.containers:
        number[one.row] = number.get(one.row, 0) + 1
        rows.append(
            {
                "row": one.row,
                "number": number[one.row],
                "flow": in_unit(one.flow_l_h, Dimension.FLOW, system, small=True),
                "container": one.container,
            }
        )
    least = min(zone.containers, key=lambda c: c.share_of_mean)
    kind = axis("row", None, "nominal", sort=None)
    most = max(number.values())
    return spec(
        f"Emitters of {least.container}, the weakest, give {100 * least.share_of_mean:.0f} % of the mean",
        f"flow into each container, {unit}",
        rows,
        height=110,
        mark={"type": "point", "filled": False, "size": 38, "strokeWidth": 1.4},
        encoding={
            "x": axis(
                "number",
                "container, from the water's end",
                axis={"tickMinStep": 1, "format": "d", "grid": False},
                scale={"domain": [0.5, most + 0.5], "nice": False},
            ),
            "y": axis("flow", unit, scale={"zero": True}),
            "color": kind,
            "shape": kind,
        },
    )
