"""A drip zone as people build it: a main, laterals to left and right of it, and containers along them."""

from collections.abc import Sequence
from dataclasses import field
from typing import NamedTuple

from brimful.domains.hydraulics.assembly import Assembly, Tube, inflow_curve
from brimful.domains.hydraulics.curve import ResponseCurve
from brimful.domains.hydraulics.pipe import Water
from brimful.records import record

SHORTEST_M = 0.001  # two fittings at the same place are a millimetre apart
SOURCE = "source"


@record
class Station:
    """Where one container's feeder leaves a lateral."""

    container: str
    distance_m: float  # along the lateral from the main
    assembly: Assembly
    elevation_m: float = 0.0  # of the lateral there


@record
class Lateral:
    """A line of tube along a row of containers."""

    name: str
    tube: Tube
    stations: tuple[Station, ...]  # the nearest to the main first
    at_m: float  # where it leaves the main, measured along the main from the regulator
    loss_k: float = 0.0  # of the tee or elbow it begins with
    tee_k: float = 0.0  # of each container's tee in its run


@record
class Main:
    """The line from the regulator to the last lateral; its ground rises evenly on the way."""

    tube: Tube
    rise_m: float = 0.0  # how much higher its end stands than its beginning
    loss_k: float = 0.0  # of the fittings before its first lateral


@record
class Zone:
    """Containers watered together by one valve."""

    name: str
    main: Main
    laterals: tuple[Lateral, ...]
    source_elevation_m: float = 0.0
    water: Water = field(default_factory=Water)

    def __post_init__(self) -> None:
        for lateral in self.laterals:
            along = [station.distance_m for station in lateral.stations]
            if lateral.at_m < 0 or any(a > b for a, b in zip([0.0, *along], along, strict=False)):
                raise ValueError(
                    f"stations of {lateral.name} at {along} m were given; expected them in order, none below 0"
                )

    @property
    def containers(self) -> tuple[str, ...]:
        """The containers, in the order of their laterals."""
        return tuple(station.container for lateral in self.laterals for station in lateral.stations)

    @property
    def emitters(self) -> int:
        """How many emitters the zone has."""
        return sum(station.assembly.emitters for lateral in self.laterals for station in lateral.stations)


class Branch(NamedTuple):
    """One row of the reduced zone: a node, and the pipe that leads to it from its parent."""

    node: str
    parent: int
    length_m: float
    tube: Tube
    loss_k: float
    elevation_m: float
    station: Station | None


def branches(zone: Zone) -> list[Branch]:
    """The reduced zone in walking order: the source, then along the main, into each lateral as it comes."""
    rows = [Branch(SOURCE, -1, 0.0, zone.main.tube, 0.0, zone.source_elevation_m, None)]
    here, before, knot = 0.0, 0, 0
    last = max((lateral.at_m for lateral in zone.laterals), default=0.0)
    slope = zone.main.rise_m / last if last > 0 else 0.0
    for lateral in sorted(zone.laterals, key=lambda lateral: lateral.at_m):
        if knot == 0 or lateral.at_m > here:
            knot += 1
            length = max(lateral.at_m - here, SHORTEST_M)
            level = zone.source_elevation_m + slope * lateral.at_m
            loss = zone.main.loss_k if knot == 1 else 0.0
            rows.append(Branch(f"main/{knot}", before, length, zone.main.tube, loss, level, None))
            before, here = len(rows) - 1, lateral.at_m
        rows.extend(_lateral(lateral, before, len(rows)))
    return rows


def _lateral(lateral: Lateral, main: int, first: int) -> list[Branch]:
    """The rows of one lateral."""
    rows, here, parent, loss = [], 0.0, main, lateral.loss_k
    tube, tee_k, name = lateral.tube, lateral.tee_k, lateral.name
    for i, station in enumerate(lateral.stations, 1):
        there = station.distance_m
        length = there - here
        if length < SHORTEST_M:  # noqa: PLR1730  (max costs as much as the rest of the row)
            length = SHORTEST_M
        rows.append(Branch(f"{name}/{i}", parent, length, tube, loss, station.elevation_m, station))
        parent, here, loss = first + i - 1, there, tee_k
    return rows


def feeds_of(rows: Sequence[Branch]) -> dict[Assembly, list[int]]:
    """Which rows each kind of assembly stands at; kinds are told apart by value, but looked at once each."""
    feeds: dict[Assembly, list[int]] = {}
    known: dict[int, list[int]] = {}
    for i, row in enumerate(rows):
        if row.station is None:
            continue
        assembly = row.station.assembly
        nodes = known.get(id(assembly))
        if nodes is None:
            nodes = known[id(assembly)] = feeds.setdefault(assembly, [])
        nodes.append(i)
    return feeds


def curve_of(assembly: Assembly, water: Water) -> ResponseCurve:
    """The inflow curve of an assembly with this water (see inflow_curve)."""
    return inflow_curve(assembly, water)
