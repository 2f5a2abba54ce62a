"""Where each plant stands in plan, the same in every container built alike, and where the tube can lie.

Several ways of setting the layers are tried in a fixed order; the first without a fault is taken, else the one with
fewest, told as data. Balls of square pots count by their side: they can be turned to pass each other.
"""

import math
from functools import lru_cache

from brimful.domains.planting.mouth import Mouth, Point, half_narrow_m
from brimful.domains.planting.recipe import Problem, Recipe, recipe_problems
from brimful.domains.planting.settings import Setting, Spot, settings_of
from brimful.records import record

LOOP_WIDTH_M = 0.02
"""Room a ring of 1/4 in tube needs between root balls, with fingers (common practice, no source)."""
LEAST_LOOP_RADIUS_M = 0.06
"""Tighter, 1/4 in tube kinks (common practice, no source)."""
HEADSPACE_M = 0.025
"""Left free below the rim for water, 2 to 3 cm (common practice, no source)."""
ROUNDING_M = 1e-9


@record
class Place:
    """One plant: x to the right and y to the back from the middle of the mouth [m], the same in polar form.

    `angle_deg` is counted from the front, counter-clockwise. `to_rim_m` is the way from its stem to the rim.
    """

    key: str
    role: str
    x_m: float
    y_m: float
    radius_m: float
    angle_deg: float
    to_rim_m: float
    ball_width_m: float
    ball_depth_m: float


@record
class Loop:
    """Where a loop of tube can lie: this far within the rim, so long, with so much room between the balls [m]; of more
    than one the outermost, and the length of all."""

    inset_m: float
    length_m: float
    room_m: float
    count: int = 1


@record
class Layout:
    """Places of all plants, the tube's loop if there is room, why it is so, and what does not fit.

    `free` are the rings between the root balls, each from and to so far within the rim [m], that a tube's middle line
    may run in without touching one.
    """

    places: tuple[Place, ...]
    loop: Loop | None
    reasons: tuple[str, ...]
    problems: tuple[Problem, ...]
    free: tuple[tuple[float, float], ...] = ()


@lru_cache(maxsize=512)
def layout(recipe: Recipe, mouth: Mouth, fill_depth_m: float) -> Layout:
    """Places of a recipe's plants in one container, and the ring left free for the tube [m] (three layers by habit).

    Formula: trailing plants on a ring 5 cm within the rim, mounding ones half way, uprights at the centre; from one
    side uprights in the back third, the others along the front and both ends. Varieties alternate evenly.

    Args:
        recipe: parts, view, front; mouth: RoundMouth or RectangularMouth; fill_depth_m: rim to (false) bottom [m]
    Returns: a Layout; the same for the same input, kept for containers built alike
    Valid: up to some dozens of plants; more come back with a problem
    Source: layers and centre or back (garden columns, read); distances common practice, no source
    """
    if not (math.isfinite(fill_depth_m) and fill_depth_m > 0.0):
        raise ValueError(f"fill_depth_m is {fill_depth_m}: expected above 0")
    wrong = recipe_problems(recipe)
    if any(problem.code == "plant-count" for problem in wrong):
        return Layout((), None, (), wrong)
    setting, faults, loop = _best(recipe, mouth)
    problems = (*wrong, *_fit_problems(setting, faults, loop), *_depth_problems(recipe, fill_depth_m))
    places = tuple(_place(spot, mouth) for spot in setting.spots)
    free = tuple((a + LOOP_WIDTH_M / 2.0, b - LOOP_WIDTH_M / 2.0) for a, b in free_rings(setting.spots, mouth))
    return Layout(places, loop, setting.reasons, problems, free)


def _best(recipe: Recipe, mouth: Mouth) -> tuple[Setting, dict[str, int], Loop | None]:
    tried: list[tuple[int, Setting, dict[str, int], Loop | None]] = []
    for setting in settings_of(recipe, mouth, LOOP_WIDTH_M):
        faults, loop = _judge(setting, mouth)
        tried.append((sum(faults.values()) + (loop is None), setting, faults, loop))
        if tried[-1][0] == 0:
            break
    return min(tried, key=lambda entry: entry[0])[1:]


def tube_reason(places: tuple[Place, ...], loop: Loop | None) -> tuple[str, ...]:
    """Between which layers a loop lies, in words."""
    if loop is None:
        return ()
    within = {p.role: p.to_rim_m > loop.inset_m for p in places}
    inner, outer = (" and ".join(role for role, side in within.items() if side is yes) for yes in (True, False))
    where = " and ".join(
        f"{side} the {layer} plants" for side, layer in (("outside", inner), ("inside", outer)) if layer
    )
    name = "the tube's outer loop" if loop.count > 1 else "the tube's loop"
    return (f"{name} lies {where}",)


def _judge(setting: Setting, mouth: Mouth) -> tuple[dict[str, int], Loop | None]:
    """How many balls overlap and how many reach beyond the rim; and the loop."""
    spots = setting.spots
    outside = sum(mouth.to_rim_m((s.x, s.y)) < s.part.ball_width_m / 2.0 - ROUNDING_M for s in spots)
    overlap = sum(_overlap_m(a, b) > ROUNDING_M for i, a in enumerate(spots) for b in spots[:i])
    return {"overlap": overlap, "outside": outside}, free_loop(spots, mouth)


def _overlap_m(a: Spot, b: Spot) -> float:
    return (a.part.ball_width_m + b.part.ball_width_m) / 2.0 - math.hypot(a.x - b.x, a.y - b.y)


def free_loop(spots: tuple[Spot, ...], mouth: Mouth) -> Loop | None:
    """The ring nearest to six tenths of the way out that no root ball touches, or None (our own rule)."""
    wide = free_rings(spots, mouth)
    if not wide:
        return None
    wanted = 0.4 * half_narrow_m(mouth)
    room, inset = min(((b - a, _within(wanted, a, b)) for a, b in wide), key=lambda entry: abs(entry[1] - wanted))
    return Loop(inset, mouth.ring_m(inset), room)


def free_rings(spots: tuple[Spot, ...], mouth: Mouth) -> list[tuple[float, float]]:
    """Rings wide enough for a tube that no root ball touches, each from and to so far within the rim [m]."""
    taken = [(mouth.to_rim_m((s.x, s.y)), s.part.ball_width_m / 2.0) for s in spots]
    deepest = half_narrow_m(mouth) - LEAST_LOOP_RADIUS_M
    free: list[Point] = []
    at = 0.0
    for start, end in sorted((rim - half, rim + half) for rim, half in taken):
        free.append((at, min(start, deepest + LOOP_WIDTH_M / 2.0)))
        at = max(at, end)
    free.append((at, deepest + LOOP_WIDTH_M / 2.0))
    return [(a, b) for a, b in free if b - a >= LOOP_WIDTH_M - ROUNDING_M]


def _within(wanted: float, start: float, end: float) -> float:
    return min(max(wanted, start + LOOP_WIDTH_M / 2.0), end - LOOP_WIDTH_M / 2.0)


def _fit_problems(setting: Setting, faults: dict[str, int], loop: Loop | None) -> list[Problem]:
    count = len(setting.spots)
    smaller = "Take fewer plants, smaller pots, or a larger container."
    problems = []
    if faults["overlap"]:
        message = f"root balls of {count} plants overlap at {faults['overlap']} spots; expected none to overlap"
        problems.append(Problem("ball-overlap", message, smaller, faults["overlap"], 0.0))
    if faults["outside"]:
        message = f"{faults['outside']} of {count} root balls reach beyond the rim; expected all within"
        problems.append(Problem("ball-outside", message, smaller, faults["outside"], 0.0))
    if loop is None:
        message = f"no ring {100 * LOOP_WIDTH_M:g} cm wide is free of root balls for the tube; expected one"
        problems.append(Problem("loop-room", message, "Lay the tube between single plants, or take smaller pots."))
    return problems


def _depth_problems(recipe: Recipe, fill_depth_m: float) -> list[Problem]:
    room = fill_depth_m - HEADSPACE_M
    return [
        Problem(
            "ball-depth",
            f"the root ball of {part.key} is {100 * part.ball_depth_m:.3g} cm deep; at most {100 * room:.3g} cm fit",
            "Take smaller pots, or raise less of the floor.",
            part.ball_depth_m,
            room,
        )
        for part in recipe.parts
        if part.count > 0 and part.ball_depth_m > room + ROUNDING_M
    ]


def _place(spot: Spot, mouth: Mouth) -> Place:
    radius = math.hypot(spot.x, spot.y)
    angle = (math.degrees(math.atan2(spot.y, spot.x)) + 90.0) % 360.0 if radius > ROUNDING_M else 0.0
    return Place(
        key=spot.part.key,
        role=spot.part.role,
        x_m=spot.x,
        y_m=spot.y,
        radius_m=radius,
        angle_deg=angle,
        to_rim_m=mouth.to_rim_m((spot.x, spot.y)),
        ball_width_m=spot.part.ball_width_m,
        ball_depth_m=spot.part.ball_depth_m,
    )
