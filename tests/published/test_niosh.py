"""Revised NIOSH lifting equation: NIOSH publication 94-110, revised September 2021.

Read in a public transcription of the manual (equation, limits, example 4) and in public code constants that cite its
tables 5 and 7. Example 4: reach at the destination inferred from its printed result, load of 26 lb from memory.
"""

import pytest

from brimful.domains.handling.lift_factors import (
    US,
    Grip,
    height_factor,
    pace_factor,
    reach_factor,
    travel_factor,
    twist_factor,
    unmeasured_reach_m,
)
from brimful.domains.handling.lifting import Hands, Lift, LiftLimit, lift_limit

INCH, POUND = 0.0254, 0.45359237
PACES = (0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)


def limit_us(load_lb: float, start: tuple[float, float], end: tuple[float, float], **more: object) -> LiftLimit:
    """The limit with the manual's US constants, reach and height of both ends in inches."""
    twist = float(more.pop("twist", 0))  # type: ignore[arg-type]
    ends = [Hands(reach * INCH, height * INCH, twist) for reach, height in (start, end)]
    return lift_limit(Lift(load_lb * POUND, ends[0], ends[1], **more), constants=US)  # type: ignore[arg-type]


def test_example_4_factors_as_printed() -> None:
    """Example 4's printed factors at the origin: height .94, travel .87, pace .88, grip .95 (94-110, example 4)."""
    factors = (
        height_factor(22 * INCH, constants=US),
        travel_factor(37 * INCH, constants=US),
        pace_factor(3, 1, 22 * INCH, constants=US),
        Grip.FAIR.value[0],
    )
    assert factors == pytest.approx((0.94, 0.87, 0.88, 0.95), abs=0.005)


def test_example_4_limits_as_printed() -> None:
    """Example 4 prints 34.9 lb at the origin and 15.2 lb at the destination, from rounded factors (94-110, ex. 4)."""
    limit = limit_us(26, (10, 22), (20, 59), lifts_per_min=3, hours=1, grip=Grip.FAIR)
    assert limit.start_kg / POUND == pytest.approx(34.9, abs=0.2)
    assert limit.end_kg / POUND == pytest.approx(15.2, abs=0.2)
    assert limit.index == pytest.approx(1.7, abs=0.05)  # printed index from memory
    assert limit.weakest == "reach"


@pytest.mark.parametrize(
    ("start", "end", "twist", "limit_lb", "index"),
    [((15, 30), (15, 40), 0, 28.76, 1.39), ((18, 6), (18, 25), 30, 16.25, 2.46)],  # calculated
)
def test_a_bag_of_mix(
    start: tuple[float, float], end: tuple[float, float], twist: float, limit_lb: float, index: float
) -> None:
    """A 40 lb bag once a minute: index 1.39 from a cart, 2.46 from the ground with a turn (calculated)."""
    limit = limit_us(40, start, end, twist=twist, lifts_per_min=1, grip=Grip.POOR, placed_with_care=False)
    assert limit.start_kg / POUND == pytest.approx(limit_lb, abs=0.005)
    assert 40 * POUND / limit.start_kg == pytest.approx(index, abs=0.005)


@pytest.mark.parametrize(
    ("hours", "column"),
    [
        (1, (1.00, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28)),
        (2, (0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21, 0, 0, 0)),
        (8, (0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13, 0, 0, 0, 0, 0)),
    ],
)
def test_table_5_at_every_pace(hours: float, column: tuple[float, ...]) -> None:
    """Table 5 at waist height or above, up to 1, 2 and 8 hours (94-110 table 5)."""
    assert [pace_factor(pace, hours, 0.8) for pace in PACES] == pytest.approx(column)


@pytest.mark.parametrize(("hours", "last"), [(1, 12), (2, 10), (8, 8)])
def test_table_5_below_the_waist(hours: float, last: float) -> None:
    """Below 30 in the last rows count as nothing (94-110 table 5; split at 2 and 8 hours from memory)."""
    low = [pace_factor(pace, hours, 0.7) for pace in PACES]
    high = [pace_factor(pace, hours, 0.8) for pace in PACES]
    assert low == [factor if pace <= last else 0 for pace, factor in zip(PACES, high, strict=True)]


def test_table_5_between_and_outside_its_rows() -> None:
    """Paces between rows lie on a straight line, below 0.2 count as 0.2, above 15 as nothing (94-110 table 5)."""
    assert pace_factor(2.5, 1, 0.8) == pytest.approx((0.91 + 0.88) / 2)
    assert pace_factor(0.0, 1, 0.8) == 1.0
    assert pace_factor(15.01, 1, 0.8) == 0.0


@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (reach_factor(0.20), 1.0),
        (reach_factor(0.63), 25 / 63),
        (reach_factor(0.64), 0.0),
        (reach_factor(25 * INCH, constants=US), 0.4),
        (reach_factor(25.1 * INCH, constants=US), 0.0),
        (height_factor(0.0), 0.775),
        (height_factor(70 * INCH, constants=US), 0.7),
        (height_factor(1.76), 0.0),
        (travel_factor(0.1), 1.0),
        (travel_factor(70 * INCH, constants=US), 0.82 + 1.8 / 70),
        (travel_factor(1.76), 0.0),
        (twist_factor(135), 0.568),
        (twist_factor(136), 0.0),
        (unmeasured_reach_m(12 * INCH, 10 * INCH, constants=US) / INCH, 14.0),
        (unmeasured_reach_m(12 * INCH, 9 * INCH, constants=US) / INCH, 16.0),
        (unmeasured_reach_m(0.30, 0.25), 0.35),
    ],
)
def test_limits_of_the_factors(ours: float, printed: float) -> None:
    """Each factor is what the equation gives at its limit, and nothing past it (94-110, section 1)."""
    assert ours == pytest.approx(printed)
