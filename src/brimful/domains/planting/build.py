"""In what order a container is planted, so that nobody has to dig out a plant to lay the tube."""

from brimful.domains.planting.layout import HEADSPACE_M, Layout, Place
from brimful.records import record


@record
class Step:
    """One step: what to do, after which steps (by number), and why in this order."""

    number: int
    what: str
    after: tuple[int, ...]
    why: str


def build_order(planted: Layout, headspace_m: float = HEADSPACE_M) -> tuple[Step, ...]:
    """Steps of planting one container, each with what must be done before it (common practice).

    Formula: deeper root balls before shallower, plants inside the tube's loop before the tube, those outside it after.

    Args:
        planted: a layout; headspace_m: from the rim down to the mix [m]
    Returns: steps in order, numbered from 1
    Valid: any layout with plants
    Source: common practice, no source
    """
    inner, outer = _sides(planted)
    todo = [
        ("Set and level the container, check that its holes are open", "a full container is not moved or tipped again"),
        ("Bring the feeder tube in and fasten its end above the rim", "the way in is closed once the mix is filled"),
        (
            f"Fill with moist mix to {_cm(_deepest(planted, headspace_m))} below the rim",
            "the deepest root ball then stands on mix",
        ),
        *((f"Set {_names(group)}, fill round to the next depth", "deeper root balls go in first") for group in inner),
        (_loop_words(planted), "it lies free on the mix: no plant need be dug out for it, now or later"),
        *((f"Set {_names(group)}", "they stand outside the tube and would bar the way to it") for group in outer),
        (f"Fill to {_cm(headspace_m)} below the rim, root balls just covered", "water must stand, not run off"),
        ("Run the water, see every emitter drip, then water in by hand", "a fault is mended now without digging"),
    ]
    return tuple(Step(i, what, (i - 1,) if i > 1 else (), why) for i, (what, why) in enumerate(todo, 1))


def _sides(planted: Layout) -> tuple[list[list[Place]], list[list[Place]]]:
    """Plants inside the loop and outside it, in groups of one depth, deepest first; all inside where no loop fits."""
    inset = planted.loop.inset_m if planted.loop is not None else -1.0
    within = [p for p in planted.places if p.to_rim_m > inset]
    return _by_depth(within), _by_depth([p for p in planted.places if p.to_rim_m <= inset])


def _by_depth(places: list[Place]) -> list[list[Place]]:
    depths = sorted({p.ball_depth_m for p in places}, reverse=True)
    return [[p for p in places if p.ball_depth_m == depth] for depth in depths]


def _names(places: list[Place]) -> str:
    keys = [p.key for p in places]
    return ", ".join(f"{keys.count(key)} {key}" for key in dict.fromkeys(keys))


def _loop_words(planted: Layout) -> str:
    if planted.loop is None:
        return "Lay the tube between the plants and peg it down"
    loop = planted.loop
    if loop.count > 1:
        way = f"the outer {_cm(loop.inset_m)} within the rim, {loop.length_m:.2f} m in all"
        return f"Lay the tube in {loop.count} loops, {way}, and peg it down"
    return f"Lay the tube's loop {_cm(loop.inset_m)} within the rim, {loop.length_m:.2f} m, and peg it down"


def _deepest(planted: Layout, headspace_m: float) -> float:
    return max((p.ball_depth_m for p in planted.places), default=0.0) + headspace_m


def _cm(metres: float) -> str:
    return f"{100 * metres:.3g} cm"
