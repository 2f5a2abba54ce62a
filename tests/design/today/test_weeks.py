"""The weeks that today rests on are those of the season."""

from datetime import date

import pytest

from brimful.services import example, work_out_season
from brimful.services.opening import open_plan
from brimful.services.today import desk_of


@pytest.mark.parametrize("name", ["alder_point_landing", "balcony"])
def test_weeks_alone_are_the_weeks_of_the_season(name: str) -> None:
    """Worked out without the rest of the season, every zone's weeks are the same to the last bit."""
    _, opened, _ = open_plan(example(name), None)
    assert opened is not None
    desk, _ = desk_of(opened, (), date(2026, 7, 15))
    season = work_out_season(example(name)).season
    assert desk is not None
    assert season is not None
    assert [(one.zone, one.weeks) for one in desk.zones] == [(one.zone, one.weeks) for one in season.zones]
