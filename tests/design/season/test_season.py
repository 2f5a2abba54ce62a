"""The season worked out from whole plans: laws, and the account of water."""

from pathlib import Path

import pytest

from brimful.design.season.model import SeasonWorked
from brimful.services import example, work_out_season

ALDER = example("alder_point_landing").read_text(encoding="utf-8")
WEATHER = 'file = "seattle_2012_2015.csv"'


def season_of(text: str, folder: Path) -> SeasonWorked:
    """The season of a plan text; the weather stands with the examples."""
    plan = folder / "plan.toml"
    plan.write_text(
        text.replace(WEATHER, f'file = "{example("x").parent / "seattle_2012_2015.csv"}"'), encoding="utf-8"
    )
    answer = work_out_season(plan)
    assert answer.season is not None, answer.findings
    return answer.season


def litres(season: SeasonWorked) -> float:
    """Water of all zones over the season."""
    return sum(week.zone_l for zone in season.zones for week in zone.weeks)


@pytest.fixture(scope="module")
def alder(tmp_path_factory: pytest.TempPathFactory) -> SeasonWorked:
    """The season of the demo."""
    return season_of(ALDER, tmp_path_factory.mktemp("alder"))


def test_every_week_keeps_the_wanted_reliability(alder: SeasonWorked) -> None:
    """Where a week is met, no more than one year in twenty sees a container dry."""
    assert all(week.stress_chance_share <= 0.05 + 1e-9 for zone in alder.zones for week in zone.weeks if week.met)
    assert any(week.met and week.minutes_per_start for zone in alder.zones for week in zone.weeks)


def test_weeks_cover_the_season_from_planting_to_its_end(alder: SeasonWorked) -> None:
    """15 May to 20 October are 159 days: 23 weeks."""
    assert (alder.first_day, alder.last_day) == ("15 May", "20 October")
    assert all(len(zone.weeks) == 23 for zone in alder.zones)


def test_zone_litres_are_flow_times_minutes(alder: SeasonWorked) -> None:
    """Litres of a week are proportional to starts × minutes × days, by one flow."""
    for zone in alder.zones:
        full = [w for w in zone.weeks[:-1] if w.minutes_per_start]
        flows = {round(w.zone_l / (w.starts_per_day_count * w.minutes_per_start * 7), 6) for w in full}
        assert len(flows) == 1


def test_a_setting_made_for_the_worst_week_takes_more_and_is_no_drier(alder: SeasonWorked) -> None:
    """Set anew each week takes least water; one setting for the worst week is never drier."""
    for zone in alder.zones:
        weekly, _, fixed = zone.ways
        assert weekly.zone_l <= fixed.zone_l
        assert fixed.worst_week_stress_share <= weekly.worst_week_stress_share + 1e-9
        assert zone.saved_share == pytest.approx(1 - weekly.zone_l / fixed.zone_l)


def test_higher_reliability_never_takes_less_water(tmp_path: Path, alder: SeasonWorked) -> None:
    """99 of 100 years need at least what 95 of 100 need; half of the years need no more."""
    sure = season_of(ALDER + '\n[season]\nreliability = "99 %"\n', tmp_path)
    rash = season_of(ALDER + '\n[season]\nreliability = "50 %"\n', tmp_path)
    assert litres(rash) <= litres(alder) <= litres(sure)


def test_more_shade_never_raises_water_or_sun(tmp_path: Path, alder: SeasonWorked) -> None:
    """A tall wall south of the rows lowers hours of sun, sky view and water; a low fence far away hardly does."""
    wall = '\n[[shade]]\nkind = "wall"\nstart = ["-30 m", "{y}"]\nend = ["60 m", "{y}"]\nheight = "{h}"\n'
    far = season_of(ALDER + wall.format(y="-60 m", h="1 m"), tmp_path)
    near = season_of(ALDER + wall.format(y="-2 m", h="9 m"), tmp_path)
    for low, high in zip(near.sun, far.sun, strict=True):
        assert all(a <= b + 1e-9 for a, b in zip(low.hours_by_month, high.hours_by_month, strict=True))
        assert low.sky_view_share < high.sky_view_share
    assert litres(near) < litres(far) <= litres(alder) * 1.001


def test_a_container_lasts_longer_in_a_cool_month(alder: SeasonWorked) -> None:
    """Full containers outlast a stopped zone longer in October than in July."""
    for zone in alder.zones:
        lasts = {(one.row, one.month): one.lasts_days for one in zone.survival}
        assert all(lasts[row, 7] <= lasts[row, 10] for row in {row for row, _ in lasts})


def test_the_same_plan_gives_the_same_season(tmp_path: Path, alder: SeasonWorked) -> None:
    """Made years are seeded: nothing changes from run to run."""
    assert season_of(ALDER, tmp_path) == alder


def test_water_has_its_price(tmp_path: Path, alder: SeasonWorked) -> None:
    """Cost is litres times the price of a litre; 1,000 gal are 3,785.41 L."""
    priced = season_of(ALDER + '\n[water]\nprice = 8.0\nper = "1000 gal"\n', tmp_path)
    way = priced.zones[0].ways[0]
    assert way.cost_money == pytest.approx(way.zone_l * 8.0 / 3785.411784)
    assert alder.zones[0].ways[0].cost_money is None


def test_permitted_hours_hold_in_the_timetable(tmp_path: Path) -> None:
    """Every start lies within the hours that the plan permits."""
    season = season_of(ALDER + '\n[timer]\nhours = ["21:00 to 23:30"]\ndays = ["Monday", "Thursday"]\n', tmp_path)
    assert season.timetable
    assert all("21:00" <= start.begins < start.ends <= "23:30" for start in season.timetable)


def test_two_permitted_days_need_longer_runs(tmp_path: Path, alder: SeasonWorked) -> None:
    """With two days a week the longest run is longer than with seven."""
    season = season_of(ALDER + '\n[timer]\ndays = ["Monday", "Thursday"]\n', tmp_path)

    def longest(one: SeasonWorked) -> int:
        return max(w.starts_per_day_count * w.minutes_per_start for zone in one.zones for w in zone.weeks)

    assert longest(season) > longest(alder)


def test_a_horizon_that_hides_everything_leaves_full_shade_and_some_thirst(tmp_path: Path, alder: SeasonWorked) -> None:
    """Walls of 60 m on all sides: no hour of sun, full shade, less water than in the open, but some."""
    corners = [("-5 m", "-5 m"), ("60 m", "-5 m"), ("60 m", "5 m"), ("-5 m", "5 m")]
    walls = ""
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        walls += f'\n[[shade]]\nkind = "wall"\nheight = "60 m"\nstart = {list(start)}\nend = {list(end)}\n'
    dark = season_of(ALDER + walls, tmp_path)
    assert all(sun.light == "full shade" and max(sun.hours_by_month) < 0.5 for sun in dark.sun)
    assert 0 < litres(dark) < litres(alder)
