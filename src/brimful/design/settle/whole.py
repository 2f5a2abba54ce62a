"""Settle the whole plan, in order; what is wrong and what is assumed stands in the notes."""

import math

from brimful.catalog import Catalog
from brimful.design.settle.notes import Desk, Notes
from brimful.design.settle.rows import settle_rows
from brimful.design.settle.settled import Season, Settled, TimerSpec
from brimful.design.settle.zones import settle_zones
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.water import water_viscosity
from brimful.plan.schema import Plan

NORTH, SOUTH = Season(136, 284), Season(320, 101)  # 15 May to 10 October; 15 November to 10 April
USABLE_SHARE = 0.75
WATER_C = 20.0


def settle(plan: Plan, catalog: Catalog, notes: Notes) -> Settled | None:
    """The plan with nothing left open, or None where something is wrong."""
    temperature = plan.supply.water_temperature
    if temperature is None:
        temperature = WATER_C
        notes.assume("supply.water_temperature", "temperature of the water", "20 °C (68 °F)")
    water = Water(water_viscosity(temperature))
    desk = Desk(plan, catalog, notes)
    rows = tuple(settle_rows(desk))
    zones = tuple(settle_zones(desk, rows, water))
    share = plan.supply.share
    if share is None:
        share = USABLE_SHARE
        notes.assume("supply.share", "share of the tested supply that one zone may use", "75 %")
    season, timer = _season(plan, notes), _timer(plan, notes)
    if not notes.sound:
        return None
    return Settled(rows, zones, season, timer, share, water, bool(plan.supply.bucket_tests))


def _season(plan: Plan, notes: Notes) -> Season:
    usual = SOUTH if (plan.site.latitude or 0.0) < 0 else NORTH
    start, end = plan.site.planting_day, plan.site.season_end
    if start is None:
        start = usual.planting_day
        notes.assume("site.planting_day", "planting day", "15 November" if usual is SOUTH else "15 May")
    if end is None:
        end = usual.season_end
        notes.assume("site.season_end", "end of the season", "10 April" if usual is SOUTH else "10 October")
    if start == end:
        said = "planting day and season's end are the same day"
        notes.wrong("no-season", ("site", "season_end"), said, "Give the day of the first hard frost.")
    return Season(start, end)


def _timer(plan: Plan, notes: Notes) -> TimerSpec:
    given = plan.timer
    if given.step is None or given.most_starts is None:
        notes.assume("timer", "the timer", "steps of 1 minute, up to 6 starts a day, up to 4 hours a start")
    step = max(1, math.ceil((given.step or 60.0) / 60.0 - 1e-9))
    return TimerSpec(step, given.most_starts or 6, (given.longest or 4 * 3600.0) / 60.0)
