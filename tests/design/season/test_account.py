"""The account of water of a whole plan's zones, and the shares of the year that each figure stands on."""

import math

import numpy as np
import pytest

from brimful.catalog import load
from brimful.design.climate import read_weather_of
from brimful.design.ledger import Ledger
from brimful.design.season import years
from brimful.design.season.growth import canopy_m2
from brimful.design.season.light import sun_of
from brimful.design.season.permitted import wanted_of
from brimful.design.season.telling import Inputs, season_of, store_of, telling_of
from brimful.design.settle.notes import Notes
from brimful.design.settle.settled import Season as Days
from brimful.design.stages import work_out
from brimful.domains.watering.schedule import follow_settings
from brimful.domains.watering.settings import Setting, Wanted
from brimful.plan.read import read_plan
from brimful.services import example, work_out_care, work_out_season


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
@pytest.mark.parametrize("setting", [Setting(1, 0), Setting(2, 4), Setting(3, 30)])
def test_the_account_of_water_closes_over_every_season(name: str, setting: Setting) -> None:
    """Start + given + rain = used + drained + run past + end, to 1e-9 L, dry, even and drowned, in every year."""
    path = example(name)
    file, catalog = read_plan(path), load()
    assert file.plan is not None
    outcome = work_out(file.plan, catalog, file.places, folder=path.parent)
    design, settled, notes = outcome.design, outcome.settled, Notes(file.places)
    assert design is not None
    assert settled is not None
    weather = read_weather_of(file.plan.site, path.parent, notes)
    assert weather is not None
    made = years.years_of(weather, file.plan.site, settled.season, notes)
    assert made is not None
    light = {row.name: np.ones((made.day_of_year.size, row.count)) for row in settled.rows}
    days = made.day_of_year.size
    leaves = {row.name: canopy_m2(one, days) for row, one in zip(settled.rows, outcome.grown, strict=True)}
    inputs = Inputs(made, np.full(24, 1 / 24), Wanted(), 0.0, catalog, light, leaves, None, Ledger())
    rows = {row.name: (row, spec) for row, spec in zip(design.rows, settled.rows, strict=True)}
    for zone in design.zones:
        telling = telling_of(zone, rows, inputs)
        store, season = store_of(telling), season_of(telling, made, inputs.hours)
        flow = np.array([one.water.flow_l_h for one in telling])
        weeks = -(-made.day_of_year.size // 7)
        balance = follow_settings(store, season, flow, settings=[setting] * weeks).balance
        assert float(np.abs(balance.closure_l()).max()) < 1e-9
        assert bool((balance.end_l <= store.capacity_l + 1e-9).all() and (balance.lowest_l >= -1e-9).all())


@pytest.mark.parametrize(
    ("first", "last", "days"),
    [(136, 294, 159), (320, 101, 147), (60, 122, 63), (59, 58, 365), (61, 59, 365), (1, 366, 365)],
)
def test_a_season_has_its_days(first: int, last: int, days: int) -> None:
    """15 May to 20 October, over the new year, from 29 February, and a whole year: each day once, in order."""
    found = years.season_days(Days(first, last))
    assert found.size == days
    assert set(np.diff(found)) <= {1, -364}
    assert found.min() >= 1
    assert found.max() <= 365


def test_explain_tells_how_a_months_thirst_came_about() -> None:
    """The ledger holds every factor of each row and month, and its figures are the season's."""
    plan = example("balcony")
    season = work_out_season(plan).season
    assert season is not None
    workings = work_out_care(plan).workings
    for one in season.zones[0].thirst:
        month = ("May", "June", "July", "August", "September", "October")[one.month - 5]
        assert workings[f"season/rail/{month}/demand_l_day"].value == one.demand_l_day
        assert workings[f"season/rail/{month}/canopy_demand_l_day"].inputs["plant_factor"] == one.plant_factor


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square"])
def test_the_settings_hold_in_years_they_were_not_made_from(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The season's own settings, followed through 200 years of another seed, fail no oftener than was wished: in the
    mean of the weeks in one year of 20 at most, in no week beyond what 100 and 200 years leave to chance."""
    path = example(name)
    file, catalog, notes = read_plan(path), load(), Notes(read_plan(path).places)
    assert file.plan is not None
    outcome, season = work_out(file.plan, catalog, file.places, folder=path.parent), work_out_season(path).season
    assert outcome.design is not None
    assert outcome.settled is not None
    assert season is not None
    weather = read_weather_of(file.plan.site, path.parent, notes)
    assert weather is not None
    monkeypatch.setattr(years, "SEED", 7)
    monkeypatch.setattr(years, "MADE_YEARS", 200)
    fresh = years.years_of(weather, file.plan.site, outcome.settled.season, notes)
    assert fresh is not None
    light = sun_of(file.plan, outcome.settled.rows, fresh, notes)[1]
    wanted = wanted_of(file.plan, outcome.settled.timer, fresh, notes)
    days = fresh.day_of_year.size
    leaves = {row.name: canopy_m2(one, days) for row, one in zip(outcome.settled.rows, outcome.grown, strict=True)}
    inputs = Inputs(fresh, np.full(24, 1 / 24), wanted, 0.0, catalog, light, leaves, None, Ledger())
    rows = {row.name: (row, spec) for row, spec in zip(outcome.design.rows, outcome.settled.rows, strict=True)}
    for zone, worked in zip(outcome.design.zones, season.zones, strict=True):
        telling = telling_of(zone, rows, inputs)
        flow = np.array([one.water.flow_l_h for one in telling])
        settings = [Setting(max(week.starts_per_day_count, 1), week.minutes_per_start) for week in worked.weeks]
        store, days = store_of(telling), season_of(telling, fresh, inputs.hours)
        followed = follow_settings(store, days, flow, settings=settings, wanted=wanted)
        assert float(followed.stress_chance.mean()) <= 0.05
        chance = math.sqrt(0.05 * 0.95 * (1 / 100 + 1 / 200))
        assert float(followed.stress_chance.max()) <= 0.05 + 3 * chance
        assert followed.drained_share == pytest.approx(worked.ways[0].drained_share, abs=0.03)
