"""Where plants stand by habit, and how wide they are when planted and when grown: the simplest canopy."""

import math
from collections.abc import Sequence

NEW_OVER_BALL = 1.5
"""Width of a plant on the day it is planted over the width of its pot: 4 in pots hold plants of 13 to 15 cm (common
practice, no source)."""
REACH_BEYOND_RIM_M = 0.30
"""How far a canopy is let hang out beyond the rim before it is trimmed (common practice, no source)."""
RING_OF_HABIT = {"upright": 0.0, "climbing": 0.0, "rosette": 0.5, "mounding": 0.5, "trailing": 0.85}
"""Each habit's ring over the mouth's radius: centre, middle, edge (garden columns, read; shares common practice)."""
SEVERAL_UPRIGHTS = 0.25

Place = tuple[float, float]


def ring_positions(habits: Sequence[str], mouth_radius_m: float) -> tuple[Place, ...]:
    """Where each plant stands in plan [m], by its habit: uprights at the centre, mounds half way, trailers at the edge.

    Formula: the plants of one habit stand evenly on a ring of 0, 0.5 or 0.85 of the mouth's radius.
    Args: habits: of each plant, in order; mouth_radius_m [m]
    Returns: (x, y) of each plant from the centre [m]
    Valid: radius above 0
    Source: three rings by habit (garden columns, read); radii: common practice, no source
    """
    if mouth_radius_m <= 0:
        raise ValueError(f"mouth radius {mouth_radius_m} m was given; expected more than 0")
    rings = [RING_OF_HABIT[habit] for habit in habits]
    total = {ring: rings.count(ring) for ring in rings}
    seen = dict.fromkeys(total, 0)
    places = []
    for ring in rings:
        angle = 2 * math.pi * seen[ring] / total[ring]
        seen[ring] += 1
        radius = mouth_radius_m * (SEVERAL_UPRIGHTS if ring == 0 and total[ring] > 1 else ring)
        places.append((radius * math.cos(angle), radius * math.sin(angle)))
    return tuple(places)


def new_plant_radius_m(root_ball_width_m: float) -> float:
    """Half the width of a plant's leaves on the day it is planted [m].

    Formula: 1.5 × width of its pot / 2.
    Args: root_ball_width_m [m]
    Returns: [m]
    Valid: above 0
    Source: 4 in pots hold plants 13 to 15 cm wide (common practice, no source)

    >>> round(2 * new_plant_radius_m(0.09), 3)
    0.135
    """
    if root_ball_width_m <= 0:
        raise ValueError(f"width {root_ball_width_m} m was given; expected more than 0")
    return NEW_OVER_BALL * root_ball_width_m / 2


def grown_radius_m(spread_m: float, distance_m: float, mouth_radius_m: float) -> float:
    """Half the width of a grown plant [m], cut back where it hangs too far beyond the rim.

    Formula: min(spread / 2, mouth radius + 0.30 m − distance from the centre).
    Args: spread_m: mature spread [m]; distance_m: of the plant from the centre [m]; mouth_radius_m [m]
    Returns: [m]
    Valid: all at least 0, the plant within the mouth
    Source: spread by taxon, from the plant table; reach before trimming: common practice, no source
    """
    if spread_m < 0 or not 0 <= distance_m <= mouth_radius_m:
        raise ValueError(f"spread {spread_m} m at {distance_m} m in a mouth of {mouth_radius_m} m radius was given")
    return min(spread_m / 2, mouth_radius_m + REACH_BEYOND_RIM_M - distance_m)
