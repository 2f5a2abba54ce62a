"""A recipe for another container: more or fewer plants by area, layers dropped in a stated order, with reasons."""

from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.spread import share_out
from brimful.domains.planting.taxon import ROLES
from brimful.records import record

LEAST_WITH_UPRIGHT = 5
"""Below so many plants (4-inch worth by area) the upright goes first: at 14 in (common practice, no source)."""
SEVERAL_UPRIGHTS_FROM_M = 0.75
"""From this width on three uprights look better than one (common practice, no source)."""
DROPPING_ORDER = ("upright", "second varieties", "mounding")
"""What goes as containers get smaller: the upright, all varieties of a layer but the first, the mounding layer.
Trailing plants go last: they hide the wall."""


@record
class Scaled:
    """A recipe fitted to another container, and why each count is as it is."""

    recipe: Recipe
    reasons: tuple[str, ...]


def scale_recipe(
    recipe: Recipe, from_area_m2: float, to_area_m2: float, *, to_width_m: float, density: float = 1.0
) -> Scaled:
    """The recipe for a larger or smaller container, by area and odd counts (area rule; dropping order above).

    Formula: N' = N · A'/A · density. Uprights: none below 5 plants in all, one, or three from 0.75 m on. The rest is
    shared between layers and varieties as in the reference, each layer an odd count, or even where it was even.

    Args:
        recipe: for the reference container; from_area_m2, to_area_m2: mouths [m²]; to_width_m: least width of the new
            mouth [m]; density: 1 as the reference, 1.5 to 2 for a full look at once
    Returns: a Scaled; the recipe itself where nothing changes
    Valid: areas and density above 0
    Source: odd counts, extension pages (read); limits common practice, no source
    """
    if not (from_area_m2 > 0.0 and to_area_m2 > 0.0 and density > 0.0 and to_width_m > 0.0):
        raise ValueError(f"areas {from_area_m2}, {to_area_m2} m², density {density} were given: expected all above 0")
    factor = to_area_m2 / from_area_m2 * density
    if factor == 1.0 or recipe.total == 0:
        return Scaled(recipe, ("the same area: nothing changes",))
    counts, reasons = _layer_counts(recipe, factor, to_width_m)
    parts = tuple(part for role in ROLES for part in _varieties(recipe.layer(role), counts[role], reasons))
    scaled = Recipe(parts, recipe.view, recipe.front if any(p.key == recipe.front for p in parts) else None)
    if scaled.front != recipe.front:
        reasons.append(f"{recipe.front} no longer stands at the front: it is dropped")
    by = "by area" if density == 1.0 else "by area and density"
    return Scaled(scaled, (f"{recipe.total} plants × {factor:.2f} {by} = {recipe.total * factor:.1f}", *reasons))


def _layer_counts(recipe: Recipe, factor: float, width_m: float) -> tuple[dict[str, int], list[str]]:
    before = {role: sum(part.count for part in recipe.layer(role)) for role in ROLES}
    others = before["mounding"] + before["trailing"]
    wanted = recipe.total * factor
    reasons: list[str] = []
    uprights = _uprights(before["upright"], others, wanted, width_m, reasons)
    spare = max(0.0, wanted - uprights)
    after = {"upright": uprights}
    for role in ("mounding", "trailing"):
        after[role] = _rounded(spare * before[role] / others, before[role]) if others else 0
    if before["trailing"] and not after["trailing"]:
        after["trailing"] = 1 if not after["mounding"] else 0
    reasons += [
        f"the {role} layer is dropped: too little room" for role in ROLES[1:] if before[role] and not after[role]
    ]
    return after, reasons


def _uprights(before: int, others: int, wanted: float, width_m: float, reasons: list[str]) -> int:
    if not before:
        return 0
    if not others:
        return max(1, _rounded(wanted, before))
    if round(wanted) < LEAST_WITH_UPRIGHT:
        reasons.append(f"the upright is dropped: fewer than {LEAST_WITH_UPRIGHT} plants in all")
        return 0
    after = max(before, 3) if width_m >= SEVERAL_UPRIGHTS_FROM_M else min(before, 1)
    if after != before:
        reasons.append(
            f"{after} upright instead of {before}: three from {SEVERAL_UPRIGHTS_FROM_M:g} m across, else one"
        )
    return after


def _rounded(exact: float, before: int) -> int:
    """The nearest count that is odd, or even where it was even; 0 below one half. Grows with what is asked."""
    if exact < 0.5:
        return 0
    if exact < 1.5:
        return 1
    if before % 2:
        return 2 * int(exact / 2.0) + 1
    return 2 * int((exact + 1.0) / 2.0)


def _varieties(parts: tuple[Part, ...], count: int, reasons: list[str]) -> list[Part]:
    if not parts or not count:
        return []
    kept = parts if count >= len(parts) else parts[:1]
    reasons += [
        f"{part.key} is dropped: {count} plants are too few for {len(parts)} varieties" for part in parts[len(kept) :]
    ]
    counts = share_out(count, [part.count for part in kept])
    return [
        Part(part.key, part.role, n, part.ball_width_m, part.ball_depth_m)
        for part, n in zip(kept, counts, strict=True)
        if n > 0
    ]
