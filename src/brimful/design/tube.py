"""Stage: how dripline lies in one container of each row, and whether its emitters reach every root ball."""

import math

from brimful.design.choose.judge import WETTED_RADIUS_M
from brimful.design.ledger import Ledger
from brimful.design.model import TubeWorked
from brimful.design.settle import RowSpec
from brimful.domains.hydraulics.assembly import Dripline
from brimful.domains.hydraulics.layout import Bowl, RootBall, Spot, TubeLayout, lay_loops, loops_for
from brimful.domains.planting.rings import ring_positions


def tubes_of(rows: tuple[RowSpec, ...], ledger: Ledger) -> tuple[TubeWorked | None, ...]:
    """The layout of each row's dripline; none where single emitters are used."""
    return tuple(_tube(row, ledger.at("rows", row.name)) for row in rows)


def _tube(row: RowSpec, ledger: Ledger) -> TubeWorked | None:
    body = row.delivery.assembly.body
    if not isinstance(body, Dripline):
        return None
    room = row.vessel.fill(row.headspace_m)
    radius = min(room.spans_m(room.depth_m)) / 2
    layout: TubeLayout = ledger.work(
        "dripline_cut_m",
        lay_loops,
        loops=loops_for(body.emitters, body.spacing_m, inside_radius_m=radius),
        spacing_m=body.spacing_m,
        bowl=Bowl(radius, room.depth_m),
        closed=body.closed,
        balls=_balls(row),
        reach_m=WETTED_RADIUS_M,
    )
    return TubeWorked(
        layout.radii_m,
        layout.dripline_m,
        layout.feeder_m,
        tuple(spot.x_m for spot in layout.emitters),
        tuple(spot.y_m for spot in layout.emitters),
        layout.staples,
        layout.end_plugs,
        tuple(name for name, _ in layout.dry),
    )


def _balls(row: RowSpec) -> tuple[RootBall, ...]:
    specs = [spec for spec in row.plants for _ in range(spec.count)]
    radius = math.sqrt(row.vessel.inside.mouth_area_m2 / math.pi)
    places = ring_positions([spec.plant.habit for spec in specs], radius)
    return tuple(
        RootBall(spec.plant.common_name, Spot(x, y), spec.root_ball.width_m / 2)
        for spec, (x, y) in zip(specs, places, strict=True)
    )
