"""The season worked out whole: from a settled plan and its weather to each zone's weeks."""

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from brimful.catalog import Catalog
from brimful.design.climate import read_weather_of
from brimful.design.ledger import Ledger
from brimful.design.season.frosts import frost_free_of, frosts_of
from brimful.design.season.growth import canopy_m2
from brimful.design.season.light import sun_of
from brimful.design.season.model import SeasonWorked, SunWorked
from brimful.design.season.permitted import leaching_of, timetable_of, wanted_of
from brimful.design.season.telling import Inputs
from brimful.design.season.years import Years, words_of, years_of
from brimful.design.season.zones import zone_season
from brimful.design.settle.notes import Notes
from brimful.design.stages import Outcome
from brimful.domains.climate.sun import SunPlace, sun_events
from brimful.domains.watering.season import daylight_shares
from brimful.plan.read import Places
from brimful.plan.schema import Plan
from brimful.records import record

if TYPE_CHECKING:
    from brimful.weather import DailyWeather

DAYS_2000 = 9497  # days from 2000-01-01 to 2026-01-01


def work_out_season(
    plan: Plan, outcome: Outcome, catalog: Catalog, *, places: Places, folder: Path, ledger: Ledger | None = None
) -> tuple[SeasonWorked | None, Notes]:
    """The season of a plan that was worked out, and what there is to say of it; None where its weather will not do."""
    notes = Notes(places)
    laid = lay_out(plan, outcome, catalog, notes, folder=folder, ledger=ledger)
    return (season_of(plan, outcome, laid, notes, folder) if laid is not None else None), notes


def season_of(plan: Plan, outcome: Outcome, laid: "LaidOut", notes: Notes, folder: Path) -> SeasonWorked:
    """The season of a plan from what was laid out."""
    design, settled = outcome.design, outcome.settled
    assert design is not None and settled is not None
    inputs, weather, sun = laid.inputs, laid.weather, laid.sun
    years = inputs.years
    rows = {row.name: (row, spec) for row, spec in zip(design.rows, settled.rows, strict=True)}
    zones = [season for zone in design.zones if (season := zone_season(zone, rows, inputs)) is not None]
    starts, unplaced = timetable_of(plan, design.zones, zones, settled.timer.step_minutes)
    frosts = frosts_of(weather, plan.site, settled.season, folder, notes)
    return SeasonWorked(
        title=plan.title,
        units=plan.units,
        place=design.site.place,
        first_day=words_of(int(years.day_of_year[0])),
        last_day=words_of(int(years.day_of_year[-1])),
        weather=years.words,
        years_count=years.count,
        reliability_share=inputs.wanted.reliability,
        leaching_share=inputs.leaching,
        zones=tuple(zones),
        timetable=starts,
        unplaced=unplaced,
        frosts=frosts,
        frost_free=frost_free_of(frosts),
        sun=sun,
        filled=design.site.filled,
        currency=plan.currency,
        assumptions=(*design.assumptions, *notes.assumptions.values()),
        findings=(),
    )


@record
class LaidOut:
    """What a season is worked out from: the weather as read, its years with all else, and the sun on each row."""

    weather: "DailyWeather"
    inputs: Inputs
    sun: tuple[SunWorked, ...]


def lay_out(
    plan: Plan, outcome: Outcome, catalog: Catalog, notes: Notes, *, folder: Path, ledger: Ledger | None = None
) -> LaidOut | None:
    """Weather, years, light and wishes of a plan that was worked out; None where its weather will not do."""
    if outcome.design is None or outcome.settled is None:
        return None
    weather = read_weather_of(plan.site, folder, notes)
    years = years_of(weather, plan.site, outcome.settled.season, notes) if weather is not None else None
    if weather is None or years is None:
        return None
    sun, light = sun_of(plan, outcome.settled.rows, years, notes)
    wanted, leaching = wanted_of(plan, outcome.settled.timer, years, notes), leaching_of(plan, notes)
    money = plan.water.price / plan.water.per if plan.water is not None else None
    days, rows = years.day_of_year.size, zip(outcome.settled.rows, outcome.grown, strict=True)
    leaves = {row.name: canopy_m2(one, days) for row, one in rows}
    inputs = Inputs(years, hours_of(plan, years), wanted, leaching, catalog, light, leaves, money, ledger or Ledger())
    return LaidOut(weather, inputs, sun)


def hours_of(plan: Plan, years: Years) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """How the day's demand is spread over the hours of the clock, by the sun's rise and set."""
    longitude = plan.site.longitude or 0.0
    place = SunPlace(years.place.latitude_deg, longitude, round(longitude / 15.0))
    events = sun_events(DAYS_2000 + years.day_of_year - 1, place)
    return daylight_shares(events.sunrise_h, events.sunset_h)
