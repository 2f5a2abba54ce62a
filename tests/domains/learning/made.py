"""Small invented sites for the tests of learning."""

from typing import Any

import numpy as np

from brimful.domains.learning import Days, Site


def made_site(containers: int, *, rows: int = 1, capacity: float = 10.0, **other: Any) -> Site:
    """Containers alike in so many rows on one zone, on scales that know their empty weight."""
    full = np.full(containers, capacity)
    parts = {
        "capacity_l": full,
        "stress_l": 0.4 * full,
        "flow_l_h": 0.8 * full,
        "row": np.arange(containers) * rows // containers,
        "zone": np.zeros(containers, dtype=int),
        "empty_kg": full + 5.0,
        "dry_l": 0.0 * full,
        "dry_capture": np.ones(containers),
    }
    return Site(**(parts | other))


def made_days(containers: int, days: int, *, demand_l: float = 4.0, minutes: float = 40.0) -> Days:
    """The same day over and over, without rain."""
    shape = (days, containers)
    return Days(np.full(shape, demand_l), np.full(shape, minutes), np.zeros(days), np.full(shape, 0.1))
