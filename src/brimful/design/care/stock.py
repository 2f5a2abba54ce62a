"""What is on hand, read in the unit of each thing, and the spares the plan wants."""

from collections.abc import Mapping, Sequence

from brimful.design.care.desk import CareDesk
from brimful.domains.planting.order import SPARE_PACKS
from brimful.domains.takeoff.order import SPARES, Need
from brimful.errors import QuantityError
from brimful.findings import did_you_mean
from brimful.quantities import Dimension, parse

DIMENSIONS = {"m": Dimension.LENGTH, "l": Dimension.VOLUME, "kg": Dimension.MASS, "m3": Dimension.VOLUME}
LITRES_IN_M3 = 1000.0
MOST = 1e6


def on_hand_of(desk: CareDesk, needs: Sequence[Need], names: Mapping[str, str]) -> dict[str, float]:
    """Amounts on hand by item; what cannot be read, is unknown or below zero is told and counts as nothing."""
    units = {need.item: need.unit for need in needs}
    by_name = {name: item for item, name in names.items()}
    found: dict[str, float] = {}
    for word, given in desk.plan.stock.items():
        item = word if word in units else by_name.get(word)
        if item is None:
            hint = did_you_mean(word, [*units, *by_name])
            said = f'"{word[:60]}" is on hand, but nothing of that name is needed'
            desk.notes.warn("stock-unused", ("stock", word), said, hint)
            continue
        amount = _amount(desk, word, given, units[item])
        if amount is not None:
            found[item] = found.get(item, 0.0) + amount
    return found


def _amount(desk: CareDesk, word: str, given: float | str, unit: str) -> float | None:
    path = ("stock", word)
    dimension = DIMENSIONS.get(unit)
    try:
        value = parse(given, dimension or Dimension.NUMBER)
    except QuantityError as error:
        desk.notes.warn("stock-unreadable", path, f"{word}: {error}", "It counts as nothing on hand.")
        return None
    value /= LITRES_IN_M3 if unit == "m3" else 1.0
    if value < 0:
        said = f"{word}: {given} on hand was given; 0 or more was expected"
        desk.notes.warn("stock-negative", path, said, "It counts as nothing on hand.")
        return None
    return min(value, MOST)


def spares_of(desk: CareDesk) -> dict[str, float]:
    """Spares by class: the plan's over the usual ones."""
    spares = dict(SPARES)
    for word, share in desk.plan.spares.items():
        if word not in spares:
            said = f'no class of spares is called "{word[:60]}"'
            remedy = did_you_mean(word, list(spares)) or f"Classes: {', '.join(spares)}."
            desk.notes.warn("spares-unknown", ("spares", word), said, remedy)
            continue
        spares[word] = share
    if not desk.plan.spares:
        some = ", ".join(f"{kind} {100 * share:.0f} %" for kind, share in SPARES.items() if share)
        some += f"; {100 * SPARE_PACKS:.0f} % of plants in packs and plugs"
        desk.notes.assume("spares", "spares", some, "bricks: trade article (read); the rest common practice, no source")
    return spares
