"""Plants per pot by diameter against what garden columns and an extension page print.

Two newspaper garden columns of northern Ohio and Iowa (read): 10–12 in 3–4, 14–16 in 4–6, 16–20 in 6–8 (one says 5–8).
Clemson HGIC, calibrachoa (read): 3–4 in a 12–14 in basket. The area rule behind was calculated from these.
"""

import math

import pytest

from brimful.domains.planting.density import plants_by_area

INCH = 0.0254


@pytest.mark.parametrize(
    ("inches", "fewest", "most"), [(12, 3, 4), (13, 3, 4), (14, 4, 6), (15, 4, 6), (16, 4, 6), (17, 5, 8), (18, 6, 8)]
)
def test_whole_plants_lie_in_the_printed_range(inches: int, fewest: int, most: int) -> None:
    """From 12 to 18 in the area rule, rounded, lies in the range printed for that size."""
    assert fewest <= round(plants_by_area(math.pi * (inches * INCH) ** 2 / 4)) <= most


def test_at_20_in_the_rule_gives_one_more() -> None:
    """At 20 in the rule gives 8.7, up to one plant above the columns' 8: their range is flat where area is not."""
    assert 8 <= plants_by_area(math.pi * (20 * INCH) ** 2 / 4) < 9


@pytest.mark.parametrize(
    ("inches", "count"), [(12, 3.1), (14, 4.3), (16, 5.6), (18, 7.1), (20, 8.7), (24, 12.6), (30, 19.6), (36, 28.3)]
)
def test_area_rule(inches: int, count: float) -> None:
    """The area rule by size (calculated, 36 in² a plant)."""
    assert plants_by_area(math.pi * (inches * INCH) ** 2 / 4) == pytest.approx(count, abs=0.05)
