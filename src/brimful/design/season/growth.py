"""Canopy of one container of each row on each day of the season, from the growth the design works with."""

import numpy as np
from numpy.typing import NDArray

from brimful.design.growing import RowGrown
from brimful.domains.planting.canopy_arrays import union_area_many
from brimful.domains.planting.growth import reach_m

FloatArray = NDArray[np.float64]


def canopy_m2(grown: RowGrown, days: int) -> FloatArray:
    """Ground under leaves on each day from planting day on, in m²: the union of the plants' circles of that day.

    Args: grown: the row's places and each taxon's size by day; days: how many
    Returns: [m²], (days,)
    Valid: days as many as growth was worked out for
    Source: Green's theorem; growth: model of this program
    """
    places = grown.layout.places
    if not places:
        return np.zeros(days)
    radii = [[reach_m(stand, place.to_rim_m) for stand in grown.stands[place.key][:days]] for place in places]
    return union_area_many([p.x_m for p in places], [p.y_m for p in places], np.array(radii).T)
