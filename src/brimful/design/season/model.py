"""The season worked out, frozen. Keys carry their unit; `brimful season --json` prints these names."""

from brimful.design.model import Assumption
from brimful.findings import Finding
from brimful.records import record


@record
class WeekWorked:
    """One week of a zone: the timer's setting, what it brings, and what it risks."""

    number: int
    from_day: str
    et0_mm_day: float
    starts_per_day_count: int
    minutes_per_start: int
    zone_l: float
    container_low_l: float
    container_high_l: float
    stress_chance_share: float
    drained_share: float
    set_by: str
    met: bool
    lacking_l: float


@record
class FollowedWorked:
    """What a whole season is like under one way to set the timer."""

    way: str
    zone_l: float
    worst_week_stress_share: float
    drained_share: float
    used_share: float
    cost_money: float | None


@record
class ThirstWorked:
    """What the sunniest container of a row wants on a mean day of a month, factor by factor."""

    row: str
    month: int
    et0_mm_day: float
    light_share: float
    plant_factor: float
    microclimate_factor: float
    canopy_area_m2: float
    canopy_demand_l_day: float
    wetted_surface_l_day: float
    demand_l_day: float
    rain_l_day: float


@record
class SurvivalWorked:
    """Whole days that one container of a row lasts without water, from full, on 19 days of 20 of the month."""

    row: str
    month: int
    lasts_days: int


@record
class SunWorked:
    """Direct sun on a row of containers: hours on a mean day of each month, and what gardeners call it."""

    row: str
    hours_by_month: tuple[float, ...]
    season_hours: float
    container_season_hours: tuple[float, ...]
    light: str
    darkest_light: str
    sky_view_share: float


@record
class FrostWorked:
    """Frost of the record or of published normals: the middle date, the date that nine years of ten keep to, and how
    often frost came after planting day or before the season's end."""

    threshold_c: float
    last_middle: str
    last_safe: str
    first_middle: str
    first_safe: str
    after_planting_share: float | None
    before_end_share: float | None
    years_count: int
    source: str


@record
class FrostFreeWorked:
    """After which day nine springs of ten have no frost, before which nine autumns have none: offered, never forced."""

    first_day: str
    last_day: str
    source: str


@record
class StartWorked:
    """One start in the day's timetable of the thirstiest week."""

    zone: str
    begins: str
    ends: str


@record
class HotWeekWorked:
    """The mix of the container that comes nearest to running short, at the end of each hour of its zone's hottest week.

    Litres above wilting; in a middle year, and in the year in which it falls lowest; `starts_h` are the clock hours of
    the timer's starts.
    """

    container: str
    from_day: str
    starts_h: tuple[int, ...]
    full_l: float
    water_again_l: float
    stress_l: float
    middle_year_l: tuple[float, ...]
    driest_year_l: tuple[float, ...]


@record
class ZoneSeason:
    """A zone through the season."""

    zone: str
    weeks: tuple[WeekWorked, ...]
    ways: tuple[FollowedWorked, ...]
    saved_share: float
    thirst: tuple[ThirstWorked, ...]
    survival: tuple[SurvivalWorked, ...]
    hot_week: HotWeekWorked | None


@record
class SeasonWorked:
    """The whole season."""

    title: str
    units: str
    place: str
    first_day: str
    last_day: str
    weather: str
    years_count: int
    reliability_share: float
    leaching_share: float
    zones: tuple[ZoneSeason, ...]
    timetable: tuple[StartWorked, ...]
    unplaced: tuple[str, ...]
    frosts: tuple[FrostWorked, ...]
    frost_free: FrostFreeWorked | None
    sun: tuple[SunWorked, ...]
    filled: tuple[str, ...]
    currency: str
    assumptions: tuple[Assumption, ...]
    findings: tuple[Finding, ...]
