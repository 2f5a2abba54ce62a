"""Canopy of one container of each row on each day: from planting day to full by warmth, a logistic in degree-days."""

import numpy as np
from numpy.typing import NDArray

from brimful.design.model import RowWorked
from brimful.design.settle import RowSpec
from brimful.domains.planting.cover import grown_cover, rate_from_weeks

FloatArray = NDArray[np.float64]
BASE_C, OPTIMUM_C = 7.0, 26.0
"""Growth counts between these means: bedding plants lie between 3 and 10 °C (from memory, ± 2 °C)."""
NEARLY_FULL = 0.98
USUAL_WEEKS = 6.0


def canopy_m2(row: RowWorked, spec: RowSpec, mean_c: FloatArray) -> FloatArray:
    """Ground under leaves on each day of the season, in m² (logistic in degree-days, from planting day to full).

    Formula: C = C₀ e^(kθ) / (1 + C₀ (e^(kθ) − 1)) of the full canopy, k from the taxa's weeks to fill at 20 °C.
    Args: row: with its canopy on planting day and when full; spec: its plants; mean_c: mean temperature [°C], (days,)
    Returns: [m²], (days,)
    Valid: a season of at least one day
    Source: logistic form (Li et al. 2022, Agronomy 12:860, read); calibration on common practice, no source
    """
    first, full = row.demands[0].canopy_area_m2, row.demands[-1].canopy_area_m2
    if full <= 0.0:
        return np.zeros(mean_c.size)
    start = min(first / full, NEARLY_FULL)
    weeks = [s.plant.weeks_to_fill for s in spec.plants for _ in range(s.count) if 0 < s.plant.weeks_to_fill < 20]
    rate = rate_from_weeks(start, float(np.mean(weeks)) if weeks else USUAL_WEEKS, BASE_C)
    warmth = np.cumsum(np.maximum(0.0, np.minimum(mean_c, OPTIMUM_C) - BASE_C))
    return np.array([full * grown_cover(start, rate, float(theta)) for theta in warmth])
