"""Today worked out, frozen. Keys carry their unit; `brimful today --json` prints these names."""

from datetime import date

from brimful.design.model import Assumption
from brimful.findings import Finding
from brimful.records import record


@record
class ByHand:
    """A container to bring water by hand: far drier than the rest of its zone, or out of order until it is mended."""

    container: str
    water_l: float
    out_of_order: bool


@record
class ZoneToday:
    """How to run a zone today: starts by the clock and minutes of each, beside what the printed table says."""

    zone: str
    starts: tuple[str, ...]
    minutes_per_start: int
    minutes_total: int
    table_starts_count: int
    table_minutes_per_start: int
    ruling_container: str
    short_l: float
    by_hand: tuple[ByHand, ...]
    why: tuple[str, ...]


@record
class BelievedWorked:
    """What is believed of one container: means and 90 % intervals. Store is a share of what the drained mix holds."""

    container: str
    row: str
    zone: str
    store_share: float
    store_low_share: float
    store_high_share: float
    demand_factor: float
    demand_low_factor: float
    demand_high_factor: float
    supply_factor: float
    supply_low_factor: float
    supply_high_factor: float
    stress_chance_share: float
    unread_days: int | None


@record
class CauseWorked:
    """A cause and its chance."""

    cause: str
    chance_share: float


@record
class LookWorked:
    """A container to look at: how sure it is that something is wrong, the likely causes, the quickest test."""

    container: str
    chance_share: float
    causes: tuple[CauseWorked, ...]
    test: str
    test_minutes: float
    reported: str


@record
class DueWorked:
    """A task that is due: overdue where `late_days` is above 0."""

    key: str
    name: str
    day: date
    late_days: int
    minutes_total: float
    text: str


@record
class TodayWorked:
    """One day of a plan's season."""

    title: str
    units: str
    on: date
    season_day: int
    season_days_count: int
    state: str
    """"before", "growing" or "over"."""
    et0_mm: float
    rain_mm: float
    weather: str
    zones: tuple[ZoneToday, ...]
    due: tuple[DueWorked, ...]
    coming: tuple[DueWorked, ...]
    look: tuple[LookWorked, ...]
    feel_next: str
    believed: tuple[BelievedWorked, ...]
    entries_count: int
    assumptions: tuple[Assumption, ...]
    findings: tuple[Finding, ...]
