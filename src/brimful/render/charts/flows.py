"""What the emitters of each container give against what those of its siblings give."""

from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, System, in_unit, unit_of
from brimful.render.charts.vega import Spec, axis, spec

LEAST_PERCENT, MOST_PERCENT = 80.0, 105.0
"""The scale shows at least so much, so that a hair's difference does not look like a fault."""


def flows(zone: ZoneWorked, system: System) -> Spec:
    """A point for each container from the water's end; rows told apart by shape and colour."""
    number: dict[str, int] = {}
    rows = []
    for one in zone.containers:
        number[one.row] = number.get(one.row, 0) + 1
        rows.append(
            {
                "row": one.row,
                "number": number[one.row],
                "percent": 100 * one.share_of_mean,
                "flow": in_unit(one.flow_l_h, Dimension.FLOW, system, small=True),
                "container": one.container,
            }
        )
    least = min(zone.containers, key=lambda c: c.share_of_mean)
    most = max(zone.containers, key=lambda c: c.share_of_mean)
    ends = min(LEAST_PERCENT, 100 * least.share_of_mean), max(MOST_PERCENT, 100 * most.share_of_mean)
    kind = axis("row", None, "nominal", sort=None)
    last = max(number.values())
    return spec(
        f"Emitters of {least.container}, the weakest, give {100 * least.share_of_mean:.0f} % of the mean",
        "one emitter of each container against the mean of the zone",
        rows,
        height=110,
        mark={"type": "point", "filled": False, "size": 38, "strokeWidth": 1.4},
        encoding={
            "x": axis(
                "number",
                "container, from the water's end",
                axis={"tickMinStep": 1, "format": "d", "grid": False},
                scale={"domain": [0.5, last + 0.5], "nice": False},
            ),
            "y": axis("percent", "% of the mean", scale={"domain": list(ends), "zero": False}),
            "color": kind,
            "shape": kind,
            "tooltip": [
                axis("container", "container", "nominal"),
                kind | {"title": "row"},
                axis("percent", "% of the mean"),
                axis("flow", f"flow, {unit_of(Dimension.FLOW, system, small=True)}"),
            ],
        },
    )
