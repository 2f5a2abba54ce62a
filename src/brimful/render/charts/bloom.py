"""Which plant blooms in which month of the season."""

from datetime import date

from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.svg import SOFT
from brimful.render.words import MONTHS


def bloom(scene: Scene) -> Spec | None:
    """A bar for each month and taxon in its flower's tint; None where nothing blooms in season."""
    first = scene.month_of_week(0)
    season = [(first - 1 + i) % 12 + 1 for i in range(scene.season_months)]
    seen = {p.letter: p for row in scene.rows for p in row.plants}
    rows = [
        {
            "plant": f"{letter}  {plant.taxon.common_name}",
            "month": MONTHS[month - 1],
            "order": i,
            "tint": plant.flower or "#FFFFFF",
        }
        for letter, plant in sorted(seen.items(), key=lambda one: (len(one[0]), one[0]))
        for i, month in enumerate(season)
        if plant.blooms(month)
    ]
    if not rows:
        return None
    full = max(season, key=lambda month: sum(plant.blooms(month) for plant in seen.values()))
    count = sum(plant.blooms(full) for plant in seen.values())
    return spec(
        f"In {date(2001, full, 1):%B} {count} of {len(seen)} kinds bloom",
        "months in which each kind blooms",
        rows,
        height=18 * len({row["plant"] for row in rows}),
        mark={"type": "rect", "stroke": SOFT, "strokeWidth": 0.6},
        encoding={
            "x": axis(
                "month",
                None,
                "ordinal",
                sort={"field": "order"},
                axis={"labelAngle": 0, "orient": "top"},
                scale={"domain": [MONTHS[m - 1] for m in season]},
            ),
            "y": axis("plant", None, "nominal", sort=None),
            "fill": {"field": "tint", "type": "nominal", "scale": None},
        },
    )
