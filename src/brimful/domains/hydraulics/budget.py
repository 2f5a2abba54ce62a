"""Where each metre of pressure goes, from the tap to the last emitter of the worst container; the parts add up
exactly."""

import math

from brimful.domains.hydraulics.assembly import Dripline
from brimful.domains.hydraulics.inlet import Inlet, InletState
from brimful.domains.hydraulics.trunk import TrunkAnswer
from brimful.domains.hydraulics.zone_solve import ReducedZone
from brimful.records import record


@record
class PressureBudget:
    """Pressure at the tap with nothing running, what each part takes, and what is left at the last emitter."""

    static_m: float
    parts: tuple[tuple[str, float], ...]  # (part, metres taken); negative where the way falls
    left_m: float


def pressure_budget(
    reduced: ReducedZone, answer: TrunkAnswer, *, inlet: Inlet, state: InletState, node: str, last_m: float
) -> PressureBudget:
    """Where each metre of head goes between the tap and one container's last emitter, in m; sums exactly.

    Args:
        reduced, answer: the solved zone; inlet, state: what stands before the main
        node: where the container's feeder leaves the lateral; last_m: pressure head at its last emitter [m]
    Returns: static pressure, parts in the order of the water, and what is left
    """
    rows, heads = reduced.rows, answer.heads_m
    i = next(i for i, row in enumerate(rows) if row.node == node)
    row, station = rows[i], rows[i].station
    assert station is not None
    taken = {"main": 0.0, "lateral": 0.0}
    while rows[i].parent >= 0:
        taken["main" if rows[i].station is None else "lateral"] += heads[rows[i].parent] - heads[i]
        i = rows[i].parent
    rise = row.elevation_m - reduced.zone.source_elevation_m + station.assembly.rise_m
    parts = [*state.parts, *taken.items()]
    if rise:
        parts.append(("rise to the emitters", rise))
    feeder = station.assembly.feeder
    flow = answer.inflow_l_h[rows.index(row)]
    if feeder is not None:
        parts.append(("feeder", feeder.pipe(reduced.zone.water).loss(flow)[0]))
    remains = inlet.supply.static_m - math.fsum(lost for _, lost in parts) - last_m
    if isinstance(station.assembly.body, Dripline):
        parts.append(("dripline", remains))
    else:  # nothing but the last digits of the sums
        name, lost = parts.pop()
        parts.append((name, lost + remains))
    return PressureBudget(inlet.supply.static_m, tuple(parts), last_m)
