"""The water of each week in one container: from the season where it was worked out, else between the design's days."""

import math
from datetime import date, timedelta

from brimful.design.care.desk import CareDesk
from brimful.design.model import RowWorked, ZoneWorked
from brimful.design.season.model import SeasonWorked, ZoneSeason
from brimful.records import record

GROWN = 0.5  # the canopy stands full at half the season: common practice, no source


@record
class WaterWeek:
    """One week of one container: from which day, what it is given, what drains away, what the plants use [L]."""

    first: date
    given_l: float
    drained_l: float
    used_l: float


def water_weeks(desk: CareDesk, worked: RowWorked, season: SeasonWorked | None) -> tuple[WaterWeek, ...]:
    """Each week of the season in one container of a row."""
    zone = next(zone for zone in desk.design.zones if zone.name == worked.zone)
    found = next((one for one in season.zones if one.zone == zone.name), None) if season is not None else None
    if found is not None:
        return _of_season(desk, worked, zone, found)
    weeks = max(1, math.ceil((desk.frost - desk.planted).days / 7))
    return tuple(_between(desk, worked, zone, week, weeks) for week in range(weeks))


def interpolated(first: float, later: float, share: float) -> float:
    """A figure between two days of the design, in its own unit.

    Formula: straight line from the first to the later, reached at half the season and kept from there on.
    Args: first, later: on planting day and at mid-season; share: of the season gone [0 to 1]
    Returns: the figure on that day
    Valid: any
    Source: common practice, no source; the season's own weeks replace it where there is weather
    """
    return first + (later - first) * min(1.0, share / GROWN)


def _between(desk: CareDesk, worked: RowWorked, zone: ZoneWorked, week: int, weeks: int) -> WaterWeek:
    demands = {demand.occasion: demand.demand_l_day for demand in worked.demands}
    shares = {time.occasion: share.share for time in zone.run_times for share in time.rows if share.row == worked.name}
    gone = (week + 0.5) / weeks
    used = 7 * interpolated(demands["planting_day"], demands["mid_season"], gone)
    over = interpolated(shares.get("planting_day", 1.0), shares.get("mid_season", 1.0), gone)
    drained = used * max(0.0, over - 1.0)
    return WaterWeek(desk.planted + timedelta(weeks=week), used + drained, drained, used)


def _of_season(desk: CareDesk, worked: RowWorked, zone: ZoneWorked, season: ZoneSeason) -> tuple[WaterWeek, ...]:
    flows = [c.flow_l_h for c in zone.containers if c.row == worked.name]
    part = sum(flows) / len(flows) / zone.flow_l_h if flows and zone.flow_l_h > 0 else 0.0
    weeks = []
    for index, week in enumerate(season.weeks):
        given = week.zone_l * part
        drained = given * week.drained_share
        weeks.append(WaterWeek(desk.planted + timedelta(weeks=index), given, drained, given - drained))
    return tuple(weeks)
