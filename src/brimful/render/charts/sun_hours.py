"""Hours of direct sun on each row, month by month."""

from brimful.design.season.model import SeasonWorked
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.words import MONTHS


def sun_hours(season: SeasonWorked) -> Spec:
    """A line a row; the title names the darkest and the brightest."""
    rows = [
        {"row": one.row, "month": MONTHS[i], "order": i, "hours": hours}
        for one in season.sun
        for i, hours in enumerate(one.hours_by_month)
    ]
    low, high = (pick(season.sun, key=lambda one: one.season_hours) for pick in (min, max))
    kind = axis("row", None, "nominal", sort=None)
    return spec(
        f"{low.row} has {low.season_hours:.1f} h of direct sun a day in season, {high.row} {high.season_hours:.1f} h",
        "hours of direct sun on a mean day of each month, behind what stands around",
        rows,
        height=120,
        mark={"type": "line", "point": {"filled": False, "fill": "white"}},
        encoding={
            "x": axis("month", None, "ordinal", sort={"field": "order"}, axis={"labelAngle": 0}),
            "y": axis("hours", "h a day"),
            "color": kind,
            "strokeDash": kind,
        },
    )
