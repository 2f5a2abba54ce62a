"""Ways of setting a recipe's layers in a mouth, best first: a ring a layer, a shared ring, rows in a box."""

import math
from collections.abc import Iterator

from brimful.domains.planting.mouth import Mouth, Point
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.spread import alternate, share_out, turned
from brimful.records import record

EDGE_INSET_M = 0.05
"""Trailing plants stand so far within the rim, leaning out (common practice, no source)."""
RIM_CLEARANCE_M = 0.01
ROW_CLEARANCE_M = 0.003
BALL_CLEARANCE = 1.05
"""Room between neighbouring root balls, as a share of their width (common practice, no source)."""
CENTRE_FROM = 6
"""Without an upright a layer of so many, or a lone mounding plant, fills the centre; more uprights stand round one of
them (common practice, no source)."""


@record
class Spot:
    """One plant of a part, in the mouth's own frame: x to the right, y to the back [m]."""

    part: Part
    x: float
    y: float


@record
class Setting:
    """One way of setting all plants, and why so."""

    spots: tuple[Spot, ...]
    reasons: tuple[str, ...]


@record
class _Frame:
    """What stays the same while settings are tried: mouth, view, front, tube, and the layers, one plant an entry."""

    mouth: Mouth
    one_sided: bool
    front: str | None
    loop_m: float
    upright: list[Part]
    middle: list[Part]
    edge: list[Part]

    def ring(self, order: list[Part], inset_m: float, *, shift: float = 0.0) -> list[Spot]:
        """Plants evenly along a ring, the front plant at the front; seen from one side along front and ends only."""
        count = len(order)
        front = next((part for part in order if part.key == self.front), None)
        if front is not None:
            order, shift = turned(order, front, count // 2 if self.one_sided else 0), 0.0
        if self.one_sided:
            odd = count % 2 or front is None  # of an even count with a front plant, one place at an end stays free
            step = self.mouth.front_m(inset_m) / max(1, count - 1 if odd else count)
            ways = [step * (i - ((count - 1) / 2.0 if odd else count // 2)) for i in range(count)]
        else:
            ways = [self.mouth.ring_m(inset_m) * (i + shift) / count for i in range(count)]
        return [Spot(part, *self.mouth.at(inset_m, way)) for part, way in zip(order, ways, strict=True)]

    @property
    def edge_inset_m(self) -> float:
        """Of the stems of the outermost ring."""
        return max(EDGE_INSET_M, _widest(self.edge) / 2.0 + RIM_CLEARANCE_M)

    def edge_reach_m(self) -> float:
        """How far the outermost ring's balls reach inwards from the rim."""
        return self.edge_inset_m + _widest(self.edge) / 2.0 if self.edge else RIM_CLEARANCE_M


def settings_of(recipe: Recipe, mouth: Mouth, loop_m: float) -> Iterator[Setting]:
    """Ways of setting a recipe, best first."""
    frame = _frame(recipe, mouth, loop_m)
    where = "in the back third" if frame.one_sided else "at the centre"
    layers = [f"uprights {where}"] if recipe.layer("upright") else []
    for rings in (1, 2, 3):
        if len(frame.middle) >= 3 * rings or rings == 1:
            for inset in _middle_insets(frame):
                spots = _layers(frame, inset, rings)
                yield Setting(tuple(spots), (*layers, *_told(frame, rings)))
    if frame.middle and frame.edge:
        shared = "mounding and trailing plants share one ring: no room for two"
        yield Setting(tuple(_shared_ring(frame)), (*layers, shared))
    yield Setting(tuple(_line(frame)), ("uprights and mounding plants in one line: too narrow for rings",))
    for ends in (True, False):
        told = "uprights and mounding plants in a row behind, trailing ones before: too narrow for rings"
        yield Setting(tuple(_rows(frame, ends=ends)), (told,))


def _told(frame: _Frame, rings: int) -> Iterator[str]:
    if frame.middle:
        yield f"{rings} rings of mounding plants" if rings > 1 else "mounding plants half way"
    if frame.edge:
        yield "trailing plants at the edge"


def _frame(recipe: Recipe, mouth: Mouth, loop_m: float) -> _Frame:
    upright, middle, edge = (
        alternate([(part, part.count) for part in recipe.layer(role)]) for role in ("upright", "mounding", "trailing")
    )
    one_sided = recipe.view == "one-sided"
    if not upright and not one_sided:
        full = middle if len(middle) == 1 else next((p for p in (middle, edge) if len(p) >= CENTRE_FROM), [])
        kept = next((part for part in full if part.key != recipe.front), None)
        if kept is not None:
            full.remove(kept)
            upright = [kept]
    return _Frame(mouth, one_sided, recipe.front, loop_m, upright, middle, edge)


def _middle_insets(frame: _Frame) -> tuple[float, ...]:
    """How far within the rim the mounding ring may stand: tube outside it, or tube inside it, or wherever it fits."""
    half, ball = frame.mouth.half_depth_m, _widest(frame.middle)
    close = frame.edge_reach_m() + ball / 2.0
    return max(close + frame.loop_m, 0.5 * half if frame.edge else 0.4 * half), close + frame.loop_m, close


def _layers(frame: _Frame, inset_m: float, rings: int) -> list[Spot]:
    spots = _uprights(frame)
    lengths = [frame.mouth.ring_m(inset_m + k * BALL_CLEARANCE * _widest(frame.middle)) for k in range(rings)]
    if frame.middle and lengths[0] > 0.0:
        counts = share_out(len(frame.middle), lengths) if rings > 1 else [len(frame.middle)]
        rest = frame.middle
        for k, count in enumerate(counts):
            inset = inset_m + k * BALL_CLEARANCE * _widest(frame.middle)
            spots += frame.ring(rest[:count], inset, shift=0.5 if k % 2 == 0 else 0.0) if count else []
            rest = rest[count:]
    elif frame.middle:
        spots += _along_middle(frame, frame.middle)
    return spots + (frame.ring(frame.edge, frame.edge_inset_m) if frame.edge else [])


def _uprights(frame: _Frame) -> list[Spot]:
    parts, mouth = frame.upright, frame.mouth
    if not parts:
        return []
    ball = BALL_CLEARANCE * _widest(parts)
    if frame.one_sided:
        xs = _row(len(parts), ball, mouth.half_width_m)
        return [Spot(part, x, _back_m(mouth, xs[0], ball)) for part, x in zip(parts, xs, strict=True)]
    if len(parts) == 1:
        return [Spot(parts[0], 0.0, 0.0)]
    if mouth.half_width_m > 1.5 * mouth.half_depth_m:
        return [Spot(p, x, 0.0) for p, x in zip(parts, _row(len(parts), ball, mouth.half_width_m), strict=True)]
    if len(parts) > CENTRE_FROM:
        rarest = min(parts, key=parts.count)
        around = [part for i, part in enumerate(parts) if i != parts.index(rarest)]
        return [Spot(rarest, 0.0, 0.0), *_round(around, ball)]
    return _round(parts, ball)


def _round(parts: list[Part], ball_m: float) -> list[Spot]:
    """Plants in a ring about the centre, as close as their balls let them."""
    radius = ball_m / (2.0 * math.sin(math.pi / len(parts)))
    return [Spot(part, *_polar(radius, 0.25 + i / len(parts))) for i, part in enumerate(parts)]


def _back_m(mouth: Mouth, end_m: float, ball_m: float) -> float:
    """How far back a row of uprights stands: in the back third, or forward until its ends fit."""
    back = 2.0 / 3.0 * mouth.half_depth_m
    while back > 0.0 and mouth.to_rim_m((end_m, back)) < ball_m / 2.0 + RIM_CLEARANCE_M:
        back -= 0.02 * mouth.half_depth_m
    return back


def _shared_ring(frame: _Frame) -> list[Spot]:
    together = alternate(_counted(frame.middle) + _counted(frame.edge))
    inset = max(EDGE_INSET_M, _widest(together) / 2.0 + RIM_CLEARANCE_M)
    return _uprights(frame) + frame.ring(together, inset)


def _line(frame: _Frame) -> list[Spot]:
    """Uprights spread among the mounding plants along the long middle, trailing plants at the edge."""
    spots = _along_middle(frame, alternate(_counted(frame.upright) + _counted(frame.middle)))
    return spots + (frame.ring(frame.edge, frame.edge_inset_m) if frame.edge else [])


def _rows(frame: _Frame, *, ends: bool) -> list[Spot]:
    """Two rows against the long sides: uprights among mounding plants behind, trailing ones before."""
    behind, half = alternate(_counted(frame.upright) + _counted(frame.middle)), frame.mouth.half_depth_m
    spots = [
        Spot(spot.part, spot.x, half - spot.part.ball_width_m / 2.0 - ROW_CLEARANCE_M)
        for spot in _along_middle(frame, behind)
    ]
    inset, count = _widest(frame.edge) / 2.0 + ROW_CLEARANCE_M, len(frame.edge)
    step = 2.0 * (frame.mouth.half_width_m - inset) / max(1, count - 1 if ends else count)
    return spots + [Spot(part, step * (i - (count - 1) / 2.0), inset - half) for i, part in enumerate(frame.edge)]


def _along_middle(frame: _Frame, order: list[Part]) -> list[Spot]:
    half = frame.mouth.half_width_m
    return [Spot(part, half * ((2 * i + 1) / len(order) - 1.0), 0.0) for i, part in enumerate(order)]


def _row(count: int, step_m: float, half_width_m: float) -> list[float]:
    """Evenly across the width where there is room, never closer than the step."""
    step = max(step_m, 2.0 * half_width_m / count) if half_width_m > 1.5 * step_m * count / 2.0 else step_m
    return [step * (i - (count - 1) / 2.0) for i in range(count)]


def _counted(parts: list[Part]) -> list[tuple[Part, int]]:
    return [(part, parts.count(part)) for part in dict.fromkeys(parts)]


def _widest(parts: list[Part]) -> float:
    return max((part.ball_width_m for part in parts), default=0.0)


def _polar(radius: float, turns: float) -> Point:
    return radius * math.cos(2.0 * math.pi * turns), radius * math.sin(2.0 * math.pi * turns)
