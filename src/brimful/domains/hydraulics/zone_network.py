"""A zone spelled out as a full network, with ids a gardener can read: "north row/3", "north row/3/feeder", …"""

from collections.abc import Iterator, Mapping

from brimful.domains.hydraulics.assembly import Assembly, Dripline
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source
from brimful.domains.hydraulics.zone import SOURCE, Branch, Zone, branches

Piece = Node | Link | Outlet


def network_of(zone: Zone, source_head_m: float, *, curves: Mapping[Assembly, EmitterLaw] | None = None) -> Network:
    """The full network of a zone: every tee, feeder and emitter by name.

    Args:
        zone: the zone; source_head_m: head above datum where the main begins [m]
        curves: where given, each container is one outlet with this law instead of its feeder and emitters
    Returns: a network for `solve`
    """
    rows = branches(zone)
    pieces: list[Piece] = [Node(SOURCE, zone.source_elevation_m)]
    for row in rows[1:]:
        pieces.append(Node(row.node, row.elevation_m))
        pieces.append(_link(row.node, rows[row.parent].node, row.node, row))
        if row.station is not None and curves is not None:
            pieces.append(Outlet(row.node, curves[row.station.assembly], row.station.container))
        elif row.station is not None:
            pieces.extend(_container(row.node, row.elevation_m, row.station.assembly, row.station.container))
    return Network(
        tuple(p for p in pieces if isinstance(p, Node)),
        tuple(p for p in pieces if isinstance(p, Link)),
        tuple(p for p in pieces if isinstance(p, Outlet)),
        Source(SOURCE, source_head_m),
        zone.water.viscosity_m2_s,
    )


def _link(name: str, start: str, end: str, row: Branch) -> Link:
    return Link(name, start, end, row.length_m, row.tube.inner_diameter_m, row.tube.roughness_m, row.loss_k)


def _container(tee: str, elevation_m: float, assembly: Assembly, container: str) -> Iterator[Piece]:
    """Feeder and what hangs on it."""
    level, feeder, body = elevation_m + assembly.rise_m, assembly.feeder, assembly.body
    start = tee
    if feeder is not None:
        start, tube = f"{tee}/in", feeder.tube
        yield Node(start, level)
        yield Link(f"{tee}/feeder", tee, start, feeder.length_m, tube.inner_diameter_m, tube.roughness_m, feeder.loss_k)
    if isinstance(body, Dripline):
        for i in range(body.lines):
            name = f"{tee}/dripline" if body.lines == 1 else f"{tee}/dripline {i + 1}"
            yield from _dripline(name, start, level, body, container)
    elif assembly.rise_m and feeder is None:
        raise ValueError(f"emitters of {container} stand {assembly.rise_m} m above the lateral without a feeder")
    else:
        yield Outlet(start, body.law, container, body.count)


def _dripline(name: str, tee: str, level: float, line: Dripline, container: str) -> Iterator[Piece]:
    """A dripline node by node; a closed one comes back to its tee."""
    before = tee
    for i in range(line.count):
        here = f"{name}/{i + 1}"
        length = line.first_m if i == 0 else line.spacing_m
        yield Node(here, level)
        yield _drip_link(here, before, here, length, line)
        yield Outlet(here, line.law, container)
        before = here
    if line.closed:
        yield _drip_link(f"{name}/close", before, tee, line.first_m, line)


def _drip_link(name: str, start: str, end: str, length_m: float, line: Dripline) -> Link:
    tube = line.tube
    return Link(name, start, end, length_m, tube.inner_diameter_m, tube.roughness_m, line.loss_k)
