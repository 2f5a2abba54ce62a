"""Speed of planting's sums, in one run: canopy unions against shapely, layouts and swap rankings by themselves.

    python3 run.py bench planting [--json]

Every figure is the best of several runs, in milliseconds. Polygons have 16 segments a quarter, as a drawing would have;
the largest difference is relative to the exact area, so it shows what such polygons lose.
"""

import time
from collections.abc import Callable
from dataclasses import fields
from typing import Any

import numpy as np
import shapely
from telling import tell

from brimful.catalog import load
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.palette import palette_of
from brimful.design.planting.swaps import swaps_of
from brimful.domains.planting.canopy import union_area_m2
from brimful.domains.planting.canopy_arrays import union_area_many
from brimful.domains.planting.layout import layout
from brimful.domains.planting.light import Site
from brimful.domains.planting.mouth import RoundMouth
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.substitute import Wanted, rank_substitutes
from brimful.domains.planting.taxon import Taxon
from brimful.services import example, planting_desk
from brimful.services.care import care_desk
from brimful.services.opening import open_plan

CONTAINERS, WEEKS = 1000, 26
QUARTER_SEGMENTS = 16
RECIPE = Recipe(
    (
        Part("grass", "upright", 1, 0.165, 0.18),
        Part("geranium", "mounding", 4, 0.083, 0.083),
        Part("calibrachoa", "trailing", 6, 0.083, 0.083),
    )
)


def best(work: Callable[[], Any], runs: int = 3) -> float:
    """Least time of several runs [ms]."""
    least = float("inf")
    for _ in range(runs):
        start = time.perf_counter()
        work()
        least = min(least, time.perf_counter() - start)
    return 1e3 * least


def row(
    case: str, ours_ms: float, peer: str = "", peer_ms: float | None = None, apart: float | None = None
) -> dict[str, Any]:
    """One line of the table."""
    ratio = None if peer_ms is None else round(peer_ms / ours_ms, 1)
    return {
        "case": case,
        "ours_ms": ours_ms,
        "peer": peer,
        "peer_ms": peer_ms,
        "ratio": ratio,
        "largest_difference": apart,
    }


def season() -> tuple[Any, Any, Any]:
    """Eleven plants of a 70 cm container, each container's plants a little other in size, growing over the weeks."""
    places = layout(RECIPE, RoundMouth(0.70), 0.5).places
    x, y = (np.array([getattr(p, name) for p in places]) for name in ("x_m", "y_m"))
    rng = np.random.default_rng(7)
    grown = np.array([0.30 if p.role == "upright" else 0.22 for p in places])
    weeks = (0.3 + 0.7 * np.linspace(0.0, 1.0, WEEKS))[None, :, None]
    return x, y, grown * weeks * rng.uniform(0.8, 1.2, (CONTAINERS, 1, len(places)))


def polygon_areas(x: Any, y: Any, radii: Any) -> Any:
    """The same areas from polygons, all containers of one week, in shapely's array form."""
    discs = shapely.buffer(shapely.points(x, y)[None, :], radii, quad_segs=QUARTER_SEGMENTS)
    return shapely.area(shapely.union_all(discs, axis=1))


def canopy() -> list[dict[str, Any]]:
    """Unions of a whole season, of one week, and of one container."""
    x, y, radii = season()
    week = radii[:, WEEKS // 2]
    exact = union_area_many(x, y, week)
    apart = float(np.abs(polygon_areas(x, y, week) / exact - 1.0).max())
    one = [(float(a), float(b), float(r)) for a, b, r in zip(x, y, week[0], strict=True)]
    week_ms = best(lambda: polygon_areas(x, y, week))
    return [
        row(
            "canopy of 1000 containers, one week", best(lambda: union_area_many(x, y, week)), "shapely", week_ms, apart
        ),
        row("canopy of 1000 containers, 26 weeks", best(lambda: union_area_many(x, y, radii))),
        row(
            "canopy of one container",
            best(lambda: union_area_m2(one), 20),
            "shapely",
            best(lambda: polygon_areas(x, y, week[:1]), 20),
            float(abs(polygon_areas(x, y, week[:1])[0] / union_area_m2(one) - 1.0)),
        ),
    ]


def layouts() -> list[dict[str, Any]]:
    """A thousand containers of eleven plants: built alike, and each of another size."""

    def each(mouths: list[RoundMouth]) -> None:
        layout.cache_clear()
        for mouth in mouths:
            layout(RECIPE, mouth, 0.5)

    alike = [RoundMouth(0.70)] * CONTAINERS
    other = [RoundMouth(0.60 + 0.0005 * i) for i in range(CONTAINERS)]
    return [
        row("layout of 1000 containers alike", best(lambda: each(alike))),
        row("layout of 1000 containers of other sizes", best(lambda: each(other))),
    ]


def swaps() -> list[dict[str, Any]]:
    """Ranking of the whole plant table: for the plant that takes longest, and with all that changes in an example."""
    catalog = load()
    names = [field.name for field in fields(Taxon)]
    taxa = [Taxon(**{name: getattr(plant, name) for name in names}) for plant in catalog.plants.values()]
    palette, site = palette_of(catalog).labs, Site(8.0, 5.0)
    slowest = max(best(lambda t=t: rank_substitutes(Wanted(t, 5), taxa, site, palette)) for t in taxa)
    _, opened, _ = open_plan(example("alder_point_landing"))
    assert opened is not None
    desk = planting_desk(opened, care_desk(opened, None), None)
    return [
        row(f"swap ranking over {len(taxa)} plants, the slowest", slowest),
        row("swap of 108 plants in three rows, with water and bill of each stand-in", best(lambda: geranium(desk))),
    ]


def geranium(desk: PlantingDesk) -> None:
    """The whole answer for a plant that many others can stand in for."""
    swaps_of(desk, "geranium-zonal")


def main() -> None:
    """Print a table, or with --json the list."""
    rows = [*canopy(), *layouts(), *swaps()]
    peer = {"ours, ms": "{ours_ms:.3g}", "peer": "{peer}", "peer, ms": "{peer_ms:.3g}", "times as fast": "{ratio:.3g}"}
    tell(rows, {"case": "{case}"} | peer | {"largest difference": "{largest_difference:.1e}"})


if __name__ == "__main__":
    main()
