"""Setting out the run: where each container stands between the end marks, clear of taps, gates and posts."""

from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, radians, sin

from brimful.records import record

EVEN_M = 0.001  # a tape reads no finer, so a smaller move still counts as even; common practice, no source
_SMALL = 1e-9
_HALVINGS = 60


@record
class Obstacle:
    """A stretch of the base line where no part of a container may stand [m from the first end mark]."""

    name: str
    from_m: float
    to_m: float


@record
class Station:
    """One container's place: its middle and edges along the line, its middle out from the line, tape checks [m]."""

    number: int
    middle_m: float
    near_edge_m: float
    far_edge_m: float
    moved_m: float
    out_m: float
    diagonal_m: float


@record
class SetOut:
    """All stations, the even pitch they aim at [m], the largest move from it, and the narrowest gap between two."""

    stations: tuple[Station, ...]
    pitch_m: float
    largest_move_m: float
    narrowest_gap_m: float

    @property
    def even(self) -> bool:
        """Whether every container stands at the even pitch."""
        return self.largest_move_m <= EVEN_M + _SMALL


def footprint_m(width_m: float, depth_m: float, turn_deg: float) -> tuple[float, float]:
    """What a turned rectangular container takes up along the line and across it [m].

    Formula: along = w |cos| + d |sin|, across = w |sin| + d |cos|.
    Args: width_m: side along the line when unturned [m]. depth_m: other side [m]. turn_deg: turned by [°].
    Returns: (along, across).
    Valid: both > 0; a round container takes its diameter at any turn.
    Source: geometry.

    >>> [round(side, 3) for side in footprint_m(1.0, 1.0, 45)]
    [1.414, 1.414]
    """
    c, s = abs(cos(radians(turn_deg))), abs(sin(radians(turn_deg)))
    return width_m * c + depth_m * s, width_m * s + depth_m * c


def out_from_fence_m(across_m: float, *, overhang_m: float, passage_m: float) -> float:
    """How far from fence or kerb a container's middle stands, to leave room for growth and for mower or hand [m].

    Formula: passage + plants' overhang + half the container.
    Args: across_m: container across the line [m]. overhang_m: plants beyond the rim when grown [m].
        passage_m: kept free [m].
    Returns: m from the fence to the middle.
    Valid: all ≥ 0.
    Source: geometry.
    """
    if not min(across_m, overhang_m, passage_m) >= 0.0:
        raise ValueError("container, overhang and passage are expected to be 0 or more")
    return passage_m + overhang_m + across_m / 2.0


def set_out(
    count: int, length_m: float, along_m: float, *, obstacles: Sequence[Obstacle] = (), gap_m: float = 0.0, out_m: float
) -> SetOut:
    """Where each container stands: evenly from mark to mark, moved as little as the obstacles allow [m].

    Formula: even middles at half a container from each mark; the largest move is made least, then each container
    in turn takes the free place nearest its even one.
    Args: count: containers. length_m: mark to mark [m]. along_m: container along the line [m]. obstacles: kept clear.
        gap_m: least between two [m]. out_m: middles out from the line [m].
    Returns: stations with tape checks: diagonal from the first mark to the middle.
    Valid: count ≥ 1 that fits; one container stands in the middle.
    Source: geometry; bisection on the largest move.
    """
    if count < 1 or not (along_m > 0.0 and gap_m >= 0.0 and out_m >= 0.0):
        raise ValueError(
            f"{count} containers of {along_m:g} m; expected at least one, sizes above 0, gaps of 0 or more"
        )
    aims = _even(count, length_m, along_m)
    free = _free(length_m, along_m, obstacles)
    apart = along_m + gap_m
    last = _latest(aims, free, apart, length_m)
    if last is None:
        raise ValueError(f"{count} containers do not fit clear of the obstacles in {length_m:g} m; expected fewer")
    low, high = 0.0, length_m
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _latest(aims, free, apart, middle) is None else (low, middle)
    last = _latest(aims, free, apart, EVEN_M) or _latest(aims, free, apart, high) or last
    return _stations(_nearest(aims, free, apart, last), aims, along_m, out_m)


def even_counts(
    length_m: float, along_m: float, obstacles: Sequence[Obstacle], *, gap_m: float, most: int
) -> list[int]:
    """The numbers of containers that stand exactly evenly between the marks, clear of every obstacle.

    Args: length_m: mark to mark [m]. along_m: container along the line [m]. obstacles: kept clear. gap_m: least [m].
        most: largest number tried.
    Returns: counts, smallest first; empty where none does.
    Valid: as set_out.
    Source: geometry.
    """
    free = _free(length_m, along_m, obstacles)
    return [
        count
        for count in range(1, most + 1)
        if along_m <= length_m and _latest(_even(count, length_m, along_m), free, along_m + gap_m, EVEN_M) is not None
    ]


def _even(count: int, length_m: float, along_m: float) -> list[float]:
    if count == 1:
        return [length_m / 2.0]
    pitch = (length_m - along_m) / (count - 1)
    return [along_m / 2.0 + i * pitch for i in range(count)]


def _free(length_m: float, along_m: float, obstacles: Sequence[Obstacle]) -> list[tuple[float, float]]:
    """Stretches where a container's middle may stand."""
    free = [(along_m / 2.0, length_m - along_m / 2.0)]
    for obstacle in obstacles:
        if not obstacle.from_m <= obstacle.to_m:
            raise ValueError(f"obstacle {obstacle.name} runs backward; expected from ≤ to")
        low, high = obstacle.from_m - along_m / 2.0, obstacle.to_m + along_m / 2.0
        free = [piece for a, b in free for piece in ((a, min(b, low)), (max(a, high), b)) if piece[0] <= piece[1]]
    return free


def _latest(
    aims: Sequence[float], free: Sequence[tuple[float, float]], apart: float, move: float
) -> list[float] | None:
    """The furthest each middle can stand, worked back from the last, when none moves more than so far."""
    latest: list[float] = []
    room = float("inf")
    for aim in reversed(aims):
        ends = [min(b, aim + move, room) for a, b in free if min(b, aim + move, room) >= max(a, aim - move) - _SMALL]
        if not ends:
            return None
        latest.append(max(ends))
        room = latest[-1] - apart
    return latest[::-1]


def _nearest(
    aims: Sequence[float], free: Sequence[tuple[float, float]], apart: float, latest: Sequence[float]
) -> list[float]:
    places: list[float] = []
    for aim, last in zip(aims, latest, strict=True):
        first = places[-1] + apart if places else 0.0
        choices = [min(max(aim, a, first), b, last) for a, b in free if max(a, first) <= min(b, last) + 2 * _SMALL]
        places.append(min(choices, key=lambda place: abs(place - aim)))
    return places


def _stations(places: Sequence[float], aims: Sequence[float], along_m: float, out_m: float) -> SetOut:
    half = along_m / 2.0
    stations = tuple(
        Station(i, place, place - half, place + half, place - aim, out_m, hypot(place, out_m))
        for i, (place, aim) in enumerate(zip(places, aims, strict=True), start=1)
    )
    gaps = [b.near_edge_m - a.far_edge_m for a, b in pairwise(stations)]
    pitch = aims[1] - aims[0] if len(aims) > 1 else 0.0
    return SetOut(stations, pitch, max(abs(station.moved_m) for station in stations), min(gaps, default=0.0))
