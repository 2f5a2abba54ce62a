"""What lies on the desk while build and care are worked out, and how a plan's silences are filled."""

from collections.abc import Iterator
from dataclasses import field
from datetime import date, timedelta

from brimful.catalog import Catalog
from brimful.design.ledger import Ledger
from brimful.design.model import Design, RowWorked
from brimful.design.settle import RowSpec, Settled
from brimful.design.settle.notes import Notes
from brimful.plan.schema import Plan
from brimful.records import record

LEAP_YEAR = 2024


@record
class CareDesk:
    """Plan, settled plan, design, tables, notes and ledger; the year the season's dates stand in."""

    plan: Plan
    settled: Settled
    design: Design
    catalog: Catalog
    notes: Notes
    year: int
    ledger: Ledger = field(default_factory=Ledger)

    @property
    def rows(self) -> Iterator[tuple[RowSpec, RowWorked]]:
        """Each row as settled and as worked out."""
        return zip(self.settled.rows, self.design.rows, strict=True)

    @property
    def containers_count(self) -> int:
        """Containers of all rows."""
        return sum(row.count for row in self.settled.rows)

    @property
    def planted(self) -> date:
        """The day of planting."""
        return date_of(self.settled.season.planting_day, self.year)

    @property
    def frost(self) -> date:
        """The season's end; in the next year where the season runs over the new year."""
        season = self.settled.season
        later = season.season_end < season.planting_day
        return date_of(season.season_end, self.year + 1 if later else self.year)

    def tube_key(self, name: str) -> str:
        """The catalogue's key of a tube that the plan's settling calls by name."""
        found = self.catalog.tubing.find(name)
        return name if isinstance(found, tuple) else found.key


def date_of(day_of_leap_year: int, year: int) -> date:
    """A day of the leap calendar in a year; 29 February is 1 March where the year has none.

    >>> date_of(136, 2027)
    datetime.date(2027, 5, 15)
    """
    day = date(LEAP_YEAR, 1, 1) + timedelta(days=day_of_leap_year - 1)
    try:
        return day.replace(year=year)
    except ValueError:
        return date(year, 3, 1)


def season_year(plan: Plan, settled: Settled, today: date) -> int:
    """The year of planting day: the plan's own, or that of the season that is under way or comes next."""
    given: int | None = plan.site.year
    if given is not None:
        return given
    return year_around(settled.season.planting_day, settled.season.season_end, today)


def year_around(first: int, last: int, today: date) -> int:
    """The year of planting of the season that is under way or comes next, from its days of the leap year.

    >>> [year_around(136, 294, date(2026, month, 26)) for month in (3, 7, 11)]  # 15 May to 20 October
    [2026, 2026, 2027]
    >>> [year_around(275, 121, date(2026, month, 26)) for month in (3, 7, 11)]  # 1 October to 30 April, over New Year
    [2025, 2026, 2026]
    """
    over = date_of(last, today.year) < today
    return today.year + over - (last < first)


def season_dates(plan: Plan, settled: Settled, today: date) -> tuple[date, date]:
    """Planting day and season's end as dates; `today` is the clock."""
    first, last = settled.season.planting_day, settled.season.season_end
    year = season_year(plan, settled, today)
    return date_of(first, year), date_of(last, year + 1 if last < first else year)
