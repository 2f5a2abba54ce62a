"""Lifting: the revised NIOSH lifting equation, at both ends of a lift."""

from math import inf

from brimful.domains.handling.lift_factors import (
    EDGE_M,
    METRIC,
    Grip,
    LiftConstants,
    height_factor,
    pace_factor,
    reach_factor,
    travel_factor,
    twist_factor,
)
from brimful.records import record


@record
class Hands:
    """Where the hands are at one end of a lift: out from the ankles [m], above the floor [m], turned aside [°]."""

    reach_m: float
    height_m: float
    twist_deg: float = 0.0

    def __post_init__(self) -> None:
        if not min(self.reach_m, self.height_m, self.twist_deg) >= 0.0:
            raise ValueError(f"reach, height and twist of the hands are expected to be 0 or more, got {self}")


@record
class Lift:
    """One repeated two-handed lift: load [kg], both ends, pace [lifts/min], hours a day, grip, care at the end."""

    load_kg: float
    start: Hands
    end: Hands
    lifts_per_min: float = 0.2
    hours: float = 1.0
    grip: Grip = Grip.FAIR
    placed_with_care: bool = True

    def __post_init__(self) -> None:
        if not (self.load_kg >= 0.0 and self.lifts_per_min >= 0.0 and 0.0 < self.hours <= 8.0):
            raise ValueError(f"a lift is expected to have load and pace of 0 or more and up to 8 hours, got {self}")


@record
class LiftLimit:
    """Recommended limits [kg] at both ends, the one that rules, the lifting index, and the worst of the factors."""

    start_kg: float
    end_kg: float
    limit_kg: float
    index: float
    weakest: str
    factors: dict[str, float]


def lift_limit(lift: Lift, *, constants: LiftConstants = METRIC) -> LiftLimit:
    """The heaviest load most healthy workers can lift so all day, and the lifting index of this one [kg, -].

    Formula: limit = 23 kg (51 lb) × reach × height × travel × twist × pace × grip, at start and end;
    index = load / limit.
    Args: lift: load, both ends, pace, hours, grip. constants: METRIC or US.
    Returns: both limits, the ruling one (the start's alone where the load may be dropped), index, weakest factor.
    Valid: two hands, standing, firm floor, 19 to 26 °C, no carrying, no part-full bags; aim for an index of 1 or less.
    Source: NIOSH publication 94-110 (rev. 2021), read in a public transcription.
    """
    start, end = (_factors(lift, hands, constants) for hands in (lift.start, lift.end))
    start_kg, end_kg = (_limit(factors, constants) for factors in (start, end))
    end_rules = lift.placed_with_care and end_kg < start_kg
    limit_kg, factors = (end_kg, end) if end_rules else (start_kg, start)
    index = lift.load_kg / limit_kg if limit_kg > 0.0 else inf
    return LiftLimit(start_kg, end_kg, limit_kg, index, min(factors, key=lambda name: factors[name]), factors)


def _factors(lift: Lift, hands: Hands, constants: LiftConstants) -> dict[str, float]:
    low = hands.height_m < constants.waist_m - EDGE_M
    return {
        "reach": reach_factor(hands.reach_m, constants=constants),
        "height": height_factor(hands.height_m, constants=constants),
        "travel": travel_factor(abs(lift.end.height_m - lift.start.height_m), constants=constants),
        "twist": twist_factor(hands.twist_deg),
        "pace": pace_factor(lift.lifts_per_min, lift.hours, lift.start.height_m, constants=constants),
        "grip": lift.grip.value[0 if low else 1],
    }


def _limit(factors: dict[str, float], constants: LiftConstants) -> float:
    limit = constants.load_kg
    for factor in factors.values():
        limit *= factor
    return limit
