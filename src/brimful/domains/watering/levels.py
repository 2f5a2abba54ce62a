"""How dry a mix is for the plants in it, and how much of a pulse it catches (FAO-56 chapter 8, and practice)."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]
_TINY_L = 1e-12


def total_available_mm(field_capacity: float, wilting_point: float, depth_m: float) -> float:
    """Water between drained and wilting, as depth, in mm (FAO-56, equation 82).

    Formula: TAW = 1000 (θFC − θWP) Zr.

    Args:
        field_capacity: water content when drained [m³/m³]
        wilting_point: water content at wilting [m³/m³]
        depth_m: depth of the roots [m]
    Returns: [mm]
    Valid: θFC ≥ θWP
    Source: FAO-56, p.162

    >>> round(total_available_mm(0.15, 0.06, 0.4))
    36
    """
    if not field_capacity >= wilting_point >= 0.0 or depth_m < 0.0:
        raise ValueError(
            f"field_capacity is {field_capacity}, wilting_point {wilting_point}, depth_m {depth_m}: "
            "expected capacity ≥ wilting ≥ 0 and a depth of 0 or more"
        )
    return 1000.0 * (field_capacity - wilting_point) * depth_m


def depletion_share(table_share: float, demand_mm: float) -> float:
    """Share of the available water plants take before they feel it, for this day's demand (FAO-56, table 22).

    Formula: p = p_table + 0.04 (5 − demand), between 0.1 and 0.8; the demand of a container counts by its mouth.

    Args:
        table_share: p at 5 mm/day [-]; bedding plants 0.3–0.4 (common practice, no source)
        demand_mm: demand [mm/day]
    Returns: p [-]
    Valid: 0.1 to 0.8
    Source: FAO-56, p.162 and table 22

    >>> depletion_share(0.30, 8.0)
    0.18
    """
    return min(max(table_share + 0.04 * (5.0 - demand_mm), 0.1), 0.8)


def stress_coefficient(water_l: FloatArray, stress_l: FloatArray) -> FloatArray:
    """Share of their demand that plants still draw from a mix this dry (FAO-56, equation 84).

    Formula: Ks = (TAW − Dr) / (TAW − RAW) = water above wilting / stress level, at most 1.

    Args:
        water_l: water above wilting [L], any shape
        stress_l: level at which stress begins, TAW − RAW [L]
    Returns: Ks [-]
    Valid: water 0 or more
    Source: FAO-56, p.169
    """
    result: FloatArray = np.clip(water_l / stress_l, 0.0, 1.0)
    return result


def capture_share(water_l: FloatArray, dry_l: FloatArray, dry_capture: FloatArray) -> FloatArray:
    """Share of a pulse the mix catches; a dry peat mix lets part of it run past the root ball.

    Formula: dry capture + (1 − dry capture) × water / dry level, at most 1.

    Args:
        water_l: water above wilting [L]
        dry_l: level below which the mix begins to shed [L]
        dry_capture: share caught at wilting [-]
    Returns: share [-]
    Valid: water 0 or more
    Source: common practice, no source: 20–50 % of the first pulse runs down the wall gap of a dry peat mix
    """
    wet = np.where(dry_l > 0.0, np.minimum(water_l / np.maximum(dry_l, _TINY_L), 1.0), 1.0)
    result: FloatArray = dry_capture + (1.0 - dry_capture) * wet
    return result
