"""The factors of the revised NIOSH lifting equation.

Lengths in m, loads in kg. The manual's inch and centimetre forms are not exact conversions of each other (51 lb is
23.13 kg, not 23), so a set of constants is kept whole: METRIC or US, never a mixture.
"""

from collections.abc import Sequence
from enum import Enum
from itertools import pairwise

from brimful.records import record

INCH_M = 0.0254
POUND_KG = 0.45359237


@record
class LiftConstants:
    """One whole set of constants of the equation, in m and kg (NIOSH 94-110, rev. 2021, as transcribed publicly)."""

    load_kg: float
    reach_m: float
    reach_limit_m: float
    waist_m: float
    height_slope_per_m: float
    height_limit_m: float
    travel_m: float
    travel_least_m: float
    travel_limit_m: float
    body_m: float
    body_low_m: float


METRIC = LiftConstants(23.0, 0.25, 0.63, 0.75, 0.3, 1.75, 0.045, 0.25, 1.75, 0.20, 0.25)
US = LiftConstants(
    load_kg=51.0 * POUND_KG,
    reach_m=10.0 * INCH_M,
    reach_limit_m=25.0 * INCH_M,
    waist_m=30.0 * INCH_M,
    height_slope_per_m=0.0075 / INCH_M,
    height_limit_m=70.0 * INCH_M,
    travel_m=1.8 * INCH_M,
    travel_least_m=10.0 * INCH_M,
    travel_limit_m=70.0 * INCH_M,
    body_m=8.0 * INCH_M,
    body_low_m=10.0 * INCH_M,
)
TWIST_SLOPE_PER_DEG = 0.0032
TWIST_LIMIT_DEG = 135.0
EDGE_M = 1e-9  # a limit given in inches is still met after its conversion to m


class Grip(Enum):
    """How well the hands hold: factor below, and at or above, waist height (NIOSH 94-110 table 7; partly memory)."""

    GOOD = (1.00, 1.00)
    FAIR = (0.95, 1.00)
    POOR = (0.90, 0.90)


# Lifts a minute against factor (NIOSH 94-110 table 5), up to 1, 2 and 8 hours. Where the hands start below the waist
# the rows past the column's low end count as nothing; that split is from memory for the 2 and 8 hour columns.
_LIFTS_PER_MIN = (0.2, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 15.0)
_COLUMNS = (
    (1.0, 12.0, (1.0, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28)),
    (2.0, 10.0, (0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21, 0.0, 0.0, 0.0)),
    (8.0, 8.0, (0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13, 0.0, 0.0, 0.0, 0.0, 0.0)),
)


def reach_factor(reach_m: float, *, constants: LiftConstants = METRIC) -> float:
    """How much of the load constant is left at this reach (NIOSH 94-110, horizontal multiplier) [0 to 1].

    Formula: 25 cm / H, or 10 in / H; 1 closer in, 0 beyond 63 cm or 25 in.
    Args: reach_m: hands from the mid-point of the ankles [m]. constants: METRIC or US.
    Returns: factor.
    Valid: reach_m ≥ 0.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.

    >>> reach_factor(0.50)
    0.5
    """
    return 0.0 if reach_m > constants.reach_limit_m + EDGE_M else constants.reach_m / max(reach_m, constants.reach_m)


def height_factor(height_m: float, *, constants: LiftConstants = METRIC) -> float:
    """How much is left with the hands at this height (NIOSH 94-110, vertical multiplier) [0 to 1].

    Formula: 1 − 0.003 × |V − 75| in cm, or 1 − 0.0075 × |V − 30| in inches; 0 above 175 cm or 70 in.
    Args: height_m: hands above the floor [m]. constants: METRIC or US.
    Returns: factor.
    Valid: height_m ≥ 0.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.
    """
    if height_m > constants.height_limit_m + EDGE_M:
        return 0.0
    return 1.0 - constants.height_slope_per_m * abs(height_m - constants.waist_m)


def travel_factor(travel_m: float, *, constants: LiftConstants = METRIC) -> float:
    """How much is left for a load that rises or sinks so far (NIOSH 94-110, distance multiplier) [0 to 1].

    Formula: 0.82 + 4.5 / D in cm, or 0.82 + 1.8 / D in inches; D at least 25 cm or 10 in, 0 beyond 175 cm or 70 in.
    Args: travel_m: difference of the two hand heights [m]. constants: METRIC or US.
    Returns: factor.
    Valid: travel_m ≥ 0.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.
    """
    if travel_m > constants.travel_limit_m + EDGE_M:
        return 0.0
    return 0.82 + constants.travel_m / max(travel_m, constants.travel_least_m)


def twist_factor(twist_deg: float) -> float:
    """How much is left when the load is turned out from straight ahead (NIOSH 94-110, asymmetric multiplier) [0 to 1].

    Formula: 1 − 0.0032 × A; 0 beyond 135°.
    Args: twist_deg: angle of the load from straight ahead [°].
    Returns: factor.
    Valid: twist_deg ≥ 0.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.
    """
    return 0.0 if twist_deg > TWIST_LIMIT_DEG else 1.0 - TWIST_SLOPE_PER_DEG * twist_deg


def pace_factor(
    lifts_per_min: float, hours: float, start_height_m: float, *, constants: LiftConstants = METRIC
) -> float:
    """How much is left at this pace for so many hours (NIOSH 94-110 table 5, frequency multiplier) [0 to 1].

    Formula: table with straight lines between its rows; below 0.2 lifts a minute as 0.2, above 15 nothing.
    Args: lifts_per_min: pace. hours: of it in a day, with the rest the manual asks.
        start_height_m: hands at the start [m]. constants: METRIC or US.
    Returns: factor.
    Valid: lifts_per_min ≥ 0, 0 < hours ≤ 8.
    Source: NIOSH publication 94-110 table 5, values read in public code; split by height partly from memory.

    >>> pace_factor(3, 1, 0.5)
    0.88
    """
    low = start_height_m < constants.waist_m - EDGE_M
    low_end, column = next((end, column) for most, end, column in _COLUMNS if hours <= most)
    rows = [
        (pace, 0.0 if low and pace > low_end else factor) for pace, factor in zip(_LIFTS_PER_MIN, column, strict=True)
    ]
    return _between(rows, lifts_per_min)


def unmeasured_reach_m(load_depth_m: float, height_m: float, *, constants: LiftConstants = METRIC) -> float:
    """Reach of the hands where it was not measured, from the depth of the load front to back [m].

    Formula: 20 cm + W/2 with the hands at 25 cm or higher, 25 cm + W/2 lower (8 in and 10 in).
    Args: load_depth_m: W, of the load from front to back [m]. height_m: hands above the floor [m].
    Returns: reach [m].
    Valid: both ≥ 0.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.
    """
    body = constants.body_m if height_m >= constants.body_low_m - EDGE_M else constants.body_low_m
    return body + load_depth_m / 2.0


def _between(rows: Sequence[tuple[float, float]], at: float) -> float:
    if at <= rows[0][0]:
        return rows[0][1]
    for (low, low_value), (high, high_value) in pairwise(rows):
        if at <= high:
            return low_value + (high_value - low_value) * (at - low) / (high - low)
    return 0.0
