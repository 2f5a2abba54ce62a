"""Which months are in bloom, and how many hours a week the upkeep takes."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

from brimful.domains.planting.taxon import Taxon
from brimful.records import record

VISIT_MIN = 2.5
"""A weekly look at one container 60 cm across, 2 to 3 minutes (common practice, no source)."""
DEADHEAD_MIN = 4.0
"""More where all plants need deadheading: 5 to 8 minutes in all (common practice, no source)."""
VISIT_AREA_M2 = 0.283
DEADHEAD_A_WEEK: Mapping[str, float] = {"none": 0.0, "helpful": 0.5, "needed": 1.0}
"""Rounds a week: helpful every second (common practice, no source)."""
LIGHT_TRIM_WEEKS = 4
HARD_TRIM_MONTH_DAYS = ((7, 15), (8, 25))
"""Light trims every 4 weeks, hard ones in July and late August (our own rule, after extension pages, read)."""
TRIM_MIN: Mapping[str, float] = {"none": 0.0, "light": 0.5, "hard": 1.5}
"""Minutes a plant (common practice, no source)."""


@record
class Upkeep:
    """Work on a run of containers in the week that begins on a date [h]: looking over, deadheading, trimming."""

    week: date
    visit_h: float
    deadhead_h: float
    trim_h: float
    trimmed: tuple[str, ...]

    @property
    def total_h(self) -> float:
        """All work of the week [h]."""
        return self.visit_h + self.deadhead_h + self.trim_h


def bloom_months(start: int | None, end: int | None) -> tuple[int, ...]:
    """Months in bloom, in order; over the new year where the end comes before the start; none for foliage plants.

    >>> bloom_months(5, 8), bloom_months(11, 2), bloom_months(None, None)
    ((5, 6, 7, 8), (11, 12, 1, 2), ())
    """
    if start is None or end is None:
        return ()
    if not (1 <= start <= 12 and 1 <= end <= 12):
        raise ValueError(f"bloom from month {start} to {end} was given: expected 1 to 12")
    return tuple((start - 1 + i) % 12 + 1 for i in range((end - start) % 12 + 1))


def bloom_calendar(taxa: Iterable[Taxon], planted: date, removed: date) -> dict[str, dict[str, float]]:
    """Share of each month in which each taxon stands and blooms, from planting to first frost or clearing.

    Args:
        taxa: the plants; planted, removed: first and last day they stand
    Returns: key → "2026-05" → share of the month's days in bloom, months of the season only
    Valid: planted before removed; whole months of bloom by the table
    Source: plant table
    """
    if removed <= planted:
        raise ValueError(f"planted {planted}, removed {removed} were given: expected planting first")
    months = _standing(planted, removed)
    return {
        taxon.key: {
            name: share if month in bloom_months(taxon.bloom_start_month, taxon.bloom_end_month) else 0.0
            for name, (month, share) in months.items()
        }
        for taxon in taxa
    }


def upkeep_hours(
    plants: Sequence[tuple[Taxon, int]],
    containers: int,
    mouth_area_m2: float,
    weeks: Sequence[date],
    *,
    southern: bool = False,
) -> tuple[Upkeep, ...]:
    """Hours of upkeep a week for containers planted alike [h] (common practice).

    Formula: looking over 2.5 min a container of 60 cm a week; deadheading 4 min more times the share of plants
    that need it, half for those it helps, while they bloom; trims by the plant, light ones every 4 weeks.

    Args:
        plants: taxon and count in one container; containers: how many; mouth_area_m2: of one [m²];
        weeks: first days of the weeks, one after the other, planting day first; southern: of the equator
    Returns: one Upkeep a week
    Valid: minutes scale with the mouth's area
    Source: common practice, no source; trims after cooperative extension pages (read)
    """
    if containers < 0 or not mouth_area_m2 > 0.0:
        raise ValueError(f"{containers} containers of {mouth_area_m2} m² were given: expected 0 or more, above 0 m²")
    if not weeks:
        return ()
    days = 7 * len(weeks)
    due = {taxon.key: trim_days(taxon.trim, weeks[0], days, southern=southern) for taxon, _ in plants}
    size = mouth_area_m2 / VISIT_AREA_M2
    return tuple(
        _week(plants, containers, size, day, frozenset(key for key, when in due.items() if n in {d // 7 for d in when}))
        for n, day in enumerate(weeks)
    )


def _week(plants: Sequence[tuple[Taxon, int]], containers: int, size: float, day: date, due: frozenset[str]) -> Upkeep:
    total = sum(count for _, count in plants)
    share = sum(DEADHEAD_A_WEEK[t.deadhead] * n for t, n in plants if _blooms(t, day)) / total if total else 0.0
    trimmed = [(t, n) for t, n in plants if t.key in due]
    minutes = (VISIT_MIN * size, DEADHEAD_MIN * size * share, sum(TRIM_MIN[t.trim] * n for t, n in trimmed))
    visit_h, deadhead_h, trim_h = (containers * m / 60.0 for m in minutes)
    return Upkeep(day, visit_h, deadhead_h, trim_h, tuple(t.key for t, _ in trimmed))


def trim_days(trim: str, planted: date, days: int, *, southern: bool = False) -> tuple[int, ...]:
    """Days after planting on which a plant is cut back (our own rule, after extension pages).

    Formula: light trims every 4 weeks, hard ones on 15 July and 25 August, half a year later in the south, none in the
    first 4 weeks.

    Args:
        trim: "none", "light" or "hard"; planted: day; days: how many it stands; southern: of the equator
    Returns: days, in order, counted from 0 on planting day
    Valid: any count of days
    Source: our own rule, after cooperative extension pages (read)

    >>> trim_days("light", date(2026, 5, 15), 100), trim_days("hard", date(2026, 5, 15), 100)
    ((28, 56, 84), (61,))
    """
    least = 7 * LIGHT_TRIM_WEEKS
    if trim == "light":
        return tuple(range(least, days, least))
    if trim != "hard":
        return ()
    shift = 6 if southern else 0
    months = [((month - 1 + shift) % 12 + 1, day) for month, day in HARD_TRIM_MONTH_DAYS]
    years = range(planted.year, planted.year + days // 365 + 2)
    when = sorted((date(year, month, day) - planted).days for year in years for month, day in months)
    return tuple(n for n in when if least <= n < days)


def _blooms(taxon: Taxon, day: date) -> bool:
    return day.month in bloom_months(taxon.bloom_start_month, taxon.bloom_end_month)


def _standing(planted: date, removed: date) -> dict[str, tuple[int, float]]:
    """Month by month, the share of its days that plants stand."""
    months: dict[str, tuple[int, float]] = {}
    first = planted.replace(day=1)
    while first <= removed:
        after = (first + timedelta(days=32)).replace(day=1)
        days = (min(removed + timedelta(days=1), after) - max(planted, first)).days
        months[first.strftime("%Y-%m")] = (first.month, days / (after - first).days)
        first = after
    return months
