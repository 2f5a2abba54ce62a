"""A day's water in a container, whole parts of a day at once: the hourly store's rule solved for steady demand."""

import numpy as np

from brimful.domains.learning.inputs import FloatArray

_TINY_L = 1e-12


def after_water(
    water_l: FloatArray, litres: FloatArray, capacity_l: FloatArray, dry_l: FloatArray, dry_capture: FloatArray
) -> FloatArray:
    """Store after water comes: a dry mix sheds part, a full one drains the rest, in L.

    Formula: S ← min(S + capture · litres, capacity), capture = dry capture + (1 − dry capture) · S / dry level, ≤ 1.

    Args:
        water_l: water above wilting [L], any shape; the others broadcast
        litres: water that comes [L]
        capacity_l: held when drained [L]
        dry_l: level below which the mix begins to shed [L]
        dry_capture: share caught at wilting [-]
    Returns: [L]
    Valid: litres 0 or more
    Source: as the hourly store
    """
    caught = litres
    if bool(np.any((dry_l > 0.0) & (dry_capture < 1.0))):
        wet = np.minimum(water_l / np.maximum(dry_l, _TINY_L), 1.0)
        caught = litres * (dry_capture + (1.0 - dry_capture) * wet)
    result: FloatArray = np.minimum(water_l + caught, capacity_l)
    return result


def after_draw(water_l: FloatArray, demand_l: FloatArray, stress_l: FloatArray) -> FloatArray:
    """Store after plants have drawn for a while, in L: in full above the stress level, less and less below it.

    Formula: dS/dt = −demand · min(S / stress level, 1), solved: S falls by the demand down to the stress level, then
    by exp(−what is left of the demand / stress level).

    Args:
        water_l: water above wilting [L], any shape; the others broadcast
        demand_l: demand without stress of the whole while [L]
        stress_l: level at which stress begins [L]
    Returns: [L]
    Valid: 0 or more
    Source: FAO-56 eq. 84 solved for steady demand (read)
    """
    free = np.minimum(np.maximum(water_l - stress_l, 0.0), demand_l)
    left = demand_l - free
    result: FloatArray = water_l - free
    if bool(left.any()):
        result *= np.exp(-left / stress_l)
    return result
