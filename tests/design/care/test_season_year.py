"""The year of planting where the plan gives none: of the season under way, or else of the next."""

from datetime import date, timedelta

import pytest

from brimful.design.care.desk import date_of, year_around

SEASONS = {"summer": (136, 294), "over New Year": (275, 121), "all year but a day": (2, 1), "one day": (200, 200)}


@pytest.mark.parametrize("season", SEASONS)
def test_today_is_before_its_end_and_after_the_end_of_the_one_before(season: str) -> None:
    """On every day of two years the season has not ended, and the season a year earlier has."""
    first, last = SEASONS[season]
    for days in range(731):
        today = date(2026, 1, 1) + timedelta(days=days)
        year = year_around(first, last, today)
        ends = date_of(last, year + (last < first))
        assert today <= ends
        assert today > date_of(last, ends.year - 1)
