"""The hottest week by the hour: the season's own week, container and risk."""

from datetime import datetime

import pytest
from tests.design.plans import EXAMPLES

from brimful.design.season.model import SeasonWorked
from brimful.services import example, work_out_season


@pytest.fixture(scope="module", params=EXAMPLES)
def season(request: pytest.FixtureRequest) -> SeasonWorked:
    """The season of each example."""
    found = work_out_season(example(request.param)).season
    assert found is not None
    return found


def test_it_is_the_week_with_the_most_evapotranspiration(season: SeasonWorked) -> None:
    """A week of 168 hours, and no whole week has more ET0."""
    for zone in season.zones:
        week = zone.hot_week
        assert week is not None
        assert len(week.middle_year_l) == len(week.driest_year_l) == 168
        et0 = {one.from_day: one.et0_mm_day for one in zone.weeks[:-1]}
        assert et0[week.from_day] == pytest.approx(max(et0.values()), rel=1e-12)


def test_levels_are_in_order_and_the_driest_year_is_the_lower(season: SeasonWorked) -> None:
    """Stress below refill below full; nothing above full or below none; the driest year dips below the middle one."""
    for zone in season.zones:
        week = zone.hot_week
        assert week is not None
        assert 0 < week.stress_l < week.water_again_l < week.full_l
        for course in (week.middle_year_l, week.driest_year_l):
            assert min(course) >= 0 and max(course) <= week.full_l + 1e-9
        assert min(week.driest_year_l) <= min(week.middle_year_l)


def test_it_agrees_with_the_weeks_risk(season: SeasonWorked) -> None:
    """Where no year of a hundred falls short in that week, the driest year stays above the level; else it does not."""
    for zone in season.zones:
        week = zone.hot_week
        assert week is not None
        risk = next(one.stress_chance_share for one in zone.weeks if one.from_day == week.from_day)
        assert (min(week.driest_year_l) < week.water_again_l - 0.01 * week.full_l) <= (risk > 0)
        assert risk == 0 or min(week.driest_year_l) < week.water_again_l + 0.01 * week.full_l


def test_water_rises_only_at_a_start_or_rain(season: SeasonWorked) -> None:
    """In the hours when the timer starts the mix may rise; else it rises at most once a day, when rain is counted."""
    for zone in season.zones:
        week = zone.hot_week
        assert week is not None
        rises = [
            hour % 24
            for hour in range(1, 168)
            if week.driest_year_l[hour] > week.driest_year_l[hour - 1] + 1e-9 and hour % 24 not in week.starts_h
        ]
        assert len(set(rises)) <= 1
        assert datetime.strptime(f"{week.from_day} 2001", "%d %B %Y").month in range(5, 11)
