"""The season worked out from whole plans: laws, and the account of water."""

import math
from pathlib import Path

import numpy as np
import pytest

from brimful.design.season.model import SeasonWorked
from brimful.services import example, work_out_season

ALDER = example("alder_point_landing").read_text(encoding="utf-8")
MATCHED = ALDER.replace('length = "8 ft"', 'length = "6.5 ft"').replace('length = "12 ft"', 'length = "15 ft"')
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


def test_higher_reliability_never_takes_less_water(tmp_path: Path) -> None:
    """Where nothing has to drain, surer settings never take less water: 50, 80, 95, 99 years of 100."""
    wish = '\n[season]\nleaching = "0 %"\nreliability = "{} %"\n'
    taken = [litres(season_of(ALDER + wish.format(share), tmp_path)) for share in (50, 80, 95, 99)]
    assert taken == sorted(taken)
    assert taken[0] < taken[-1]


def test_the_wanted_share_drains(tmp_path: Path) -> None:
    """Where emitters match, at least the wanted share drains, at most a step of the timer beyond; more takes more."""
    wish = '\n[season]\nleaching = "{} %"\n'
    seasons = [season_of(MATCHED + wish.format(share), tmp_path) for share in (0, 15, 25)]
    for season, share in zip(seasons[1:], (0.15, 0.25), strict=True):
        assert share <= season.zones[0].ways[0].drained_share < share + 0.03
        assert all(week.stress_chance_share <= 0.05 for week in season.zones[0].weeks)
    assert litres(seasons[0]) < litres(seasons[1]) < litres(seasons[2])


def test_weeks_and_season_are_one_account(alder: SeasonWorked) -> None:
    """Litres of the weeks add up to the season's; each container's lie between the weakest's and the strongest's."""
    for zone in alder.zones:
        assert sum(week.zone_l for week in zone.weeks) == pytest.approx(zone.ways[0].zone_l, rel=1e-9)
        for week in zone.weeks:
            assert 26 * week.container_low_l <= week.zone_l <= 26 * week.container_high_l


def test_thirst_is_its_factors_multiplied(alder: SeasonWorked) -> None:
    """Litres a day are ET0 × light × plant × place × canopy, or what the wet mix loses where that is more."""
    for one in alder.zones[0].thirst:
        leaves = one.et0_mm_day * one.light_share * one.plant_factor * one.microclimate_factor * one.canopy_area_m2
        assert one.canopy_demand_l_day == pytest.approx(leaves, rel=1e-12)
        assert one.demand_l_day == max(one.canopy_demand_l_day, one.wetted_surface_l_day)


def test_july_drinks_what_the_store_gives(tmp_path: Path) -> None:
    """Where emitters match, what a zone is given in July, less what drains, lies within a tenth of what is wanted."""
    zone = season_of(MATCHED, tmp_path).zones[0]
    july = [week for week in zone.weeks if week.from_day.endswith("July")]
    kept = sum(week.zone_l * (1 - week.drained_share) for week in july) / (7 * len(july))
    count = {"water side": 12, "road side": 12, "gate": 2}
    wanted = sum(one.demand_l_day * count[one.row] for one in zone.thirst if one.month == 7)
    assert kept == pytest.approx(wanted, rel=0.1)


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


def test_no_start_of_the_season_is_longer_than_the_timer_can_run(tmp_path: Path, alder: SeasonWorked) -> None:
    """What one start may not bring comes in several, and as much comes in all; an hour at a stretch changes nothing."""
    worst = max(week.minutes_per_start for week in alder.zones[0].weeks)
    short = season_of(ALDER.replace("[tubing]", f'[timer]\nlongest = "{worst // 2} min"\n\n[tubing]', 1), tmp_path)
    weeks = short.zones[0].weeks
    assert max(week.minutes_per_start for week in weeks) == worst // 2
    assert max(week.starts_per_day_count for week in weeks) > 1
    assert litres(short) >= 0.9 * litres(alder)
    roomy = season_of(ALDER.replace("[tubing]", '[timer]\nlongest = "1 h"\n\n[tubing]', 1), tmp_path)
    assert roomy.zones == alder.zones


def test_two_permitted_days_need_longer_runs(tmp_path: Path, alder: SeasonWorked) -> None:
    """With two days a week the longest run is longer than with seven."""
    season = season_of(ALDER + '\n[timer]\ndays = ["Monday", "Thursday"]\n', tmp_path)

    def longest(one: SeasonWorked) -> int:
        return max(w.starts_per_day_count * w.minutes_per_start for zone in one.zones for w in zone.weeks)

    assert longest(season) > longest(alder)


def test_a_horizon_that_hides_everything_leaves_full_shade_and_some_thirst(tmp_path: Path, alder: SeasonWorked) -> None:
    """Walls of 60 m on all sides: no hour of sun, full shade, less water than in the open, but some."""
    corners = [("-5 m", "-12 m"), ("60 m", "-12 m"), ("60 m", "5 m"), ("-5 m", "5 m")]
    walls = ""
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        walls += f'\n[[shade]]\nkind = "wall"\nheight = "60 m"\nstart = {list(start)}\nend = {list(end)}\n'
    dark = season_of(ALDER + walls, tmp_path)
    assert all(sun.light == "full shade" and max(sun.hours_by_month) < 0.5 for sun in dark.sun)
    assert 0 < litres(dark) < litres(alder)


BALCONY = example("balcony").read_text(encoding="utf-8")


def test_a_hotter_place_takes_more_water_and_lasts_less(tmp_path: Path) -> None:
    """The same nights and days four degrees warmer: more thirst every month, no longer survival, more water."""
    warm = BALCONY.replace("4 6 11 16 21 24 26 26 21 15 9 5 °C", "8 10 15 20 25 28 30 30 25 19 13 9 °C")
    mild, hot = season_of(BALCONY, tmp_path), season_of(warm, tmp_path)
    for low, high in zip(mild.zones[0].thirst, hot.zones[0].thirst, strict=True):
        assert low.demand_l_day < high.demand_l_day
    for long, short in zip(mild.zones[0].survival, hot.zones[0].survival, strict=True):
        assert short.lasts_days <= long.lasts_days
    assert litres(mild) < litres(hot)


def test_a_timer_left_at_spring_runs_dry_in_a_hot_year(alder: SeasonWorked) -> None:
    """The setting of the first weeks meets less of the thirst and brings stress; the weekly one does not."""
    for zone in alder.zones:
        weekly, left, _ = zone.ways
        assert left.zone_l < weekly.zone_l
        assert left.used_share < weekly.used_share
        assert weekly.worst_week_stress_share <= 0.05
        assert left.worst_week_stress_share > 0.5


def test_the_container_in_the_shade_has_less_sun_than_its_row(tmp_path: Path) -> None:
    """A tree beside the far end of a row: its last container has fewer hours than the first; the row tells both."""
    tree = '\n[[shade]]\nkind = "tree"\nat = ["26 m", "-3 m"]\nwidth = "8 m"\nheight = "12 m"\n'
    sun = season_of(ALDER + tree, tmp_path).sun[0]
    hours = sun.container_season_hours
    assert len(hours) == 12
    assert hours[-1] < hours[0] - 1.0
    assert min(hours) <= sun.season_hours <= max(hours)


def test_windows_that_overlap_or_hold_no_whole_hour_are_understood(tmp_path: Path) -> None:
    """Overlapping windows are one; twenty minutes between two full hours hold starts too."""
    joined = season_of(ALDER + '\n[timer]\nhours = ["8:00 to 10:00", "5:00 to 9:00"]\n', tmp_path)
    assert [start.begins for start in joined.timetable] == ["5:00"]
    short = season_of(ALDER + '\n[timer]\nhours = ["5:30 to 5:50"]\n', tmp_path)
    assert [start.begins for start in short.timetable] == ["5:30"]


def one_summer(folder: Path, days: int) -> Path:
    """The demo on a weather file of so many days from 10 May 2012."""
    lines = (example("x").parent / "seattle_2012_2015.csv").read_text(encoding="utf-8").splitlines()
    (folder / "some.csv").write_text("\n".join([lines[0], *lines[131 : 131 + days]]) + "\n", encoding="utf-8")
    plan = folder / "plan.toml"
    plan.write_text(ALDER.replace("seattle_2012_2015.csv", "some.csv"), encoding="utf-8")
    return plan


def test_a_record_of_one_summer_serves_with_its_own_season(tmp_path: Path) -> None:
    """A summer without a winter makes no other years: that one season is taken, and the assumption says so."""
    season = work_out_season(one_summer(tmp_path, 170)).season
    assert season is not None
    assert season.years_count == 1
    assert any("lacks the other months" in one.value for one in season.assumptions)


def test_a_record_of_half_a_summer_is_refused_in_words(tmp_path: Path) -> None:
    """May to July alone: neither a season nor a year; the months that lack are named."""
    answer = work_out_season(one_summer(tmp_path, 70))
    assert answer.season is None
    assert any("August" in finding.message for finding in answer.findings)


def test_years_of_a_long_record_are_its_own(tmp_path: Path) -> None:
    """Sixteen copies of a year are sixteen equal seasons: in every week all of them run dry, or none does."""
    rows = ["date,tmax_C,tmin_C,rain_mm"]
    for year in range(2000, 2016):
        for day in np.arange(np.datetime64(f"{year}-01-01"), np.datetime64(f"{year + 1}-01-01")).tolist():
            warm = 12.0 - 10.0 * math.cos(2 * math.pi * ((day.month - 1) * 30.4 + min(day.day, 28) - 15) / 365)
            rows.append(f"{day},{warm + 6:.1f},{warm - 5:.1f},0")
    (tmp_path / "long.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    plan = tmp_path / "plan.toml"
    normals = next(line for line in BALCONY.splitlines() if line.startswith("normals"))
    plan.write_text(BALCONY.replace(normals, 'weather = "long.csv"'), encoding="utf-8")
    season = work_out_season(plan).season
    assert season is not None
    assert season.years_count == 16
    assert {week.stress_chance_share for week in season.zones[0].weeks} <= {0.0, 1.0}


def test_frost_offers_a_season_where_the_years_suffice(tmp_path: Path, alder: SeasonWorked) -> None:
    """Four years say nothing of nine in ten; a hundred offer a season, and leave the plan's own as it stands."""
    assert alder.frost_free is None
    balcony = season_of(BALCONY, tmp_path)
    assert balcony.frost_free is not None
    assert (balcony.frost_free.first_day, balcony.frost_free.last_day) == (
        balcony.frosts[0].last_safe,
        balcony.frosts[0].first_safe,
    )
    assert (balcony.first_day, balcony.last_day) == ("15 May", "10 October")
