"""The season looked back on: an empty journal, a container that failed, a row that drank more, water by the dial."""

from datetime import date, datetime, timedelta

import pytest

from brimful.design.today import Told
from brimful.design.today.report import SeasonReport, report_of
from brimful.render.report import EMPTY, report_text
from brimful.services import Opened, example, open_plan
from brimful.services.today import desk_of

END = date(2026, 10, 20)


@pytest.fixture(scope="module")
def opened() -> Opened:
    """The demo plan, opened once."""
    found = open_plan(example("alder_point_landing"))[1]
    assert found is not None
    return found


def at(month: int, day: int, hour: int = 7) -> datetime:
    """A morning of the season."""
    return datetime(2026, month, day, hour).astimezone()


def report(opened: Opened, *told: Told) -> SeasonReport:
    """The report at the season's end."""
    desk, _ = desk_of(opened, told, END)
    assert desk is not None
    return report_of(desk, END)


def test_an_empty_journal_says_what_would_stand_here(opened: Opened) -> None:
    """Nothing told: no failures, no lessons, the water is the plan's, and the page says so."""
    empty = report(opened)
    assert (empty.failures, empty.entries_count, empty.replaced) == ((), 0, ())
    assert all(row.surroundings_next_factor is None for row in empty.rows)
    assert all(zone.given_l == pytest.approx(zone.planned_l) for zone in empty.zones)
    assert " ".join(EMPTY.split()) in " ".join(report_text(empty).split())


def test_one_reading_is_one_and_days_are_words(opened: Opened) -> None:
    """The page counts in words and says days as people do; before planting it says when that is."""
    page = report_text(report(opened, Told(at(7, 13), "finger", "water side 3", 0.0)))
    assert "; 1 reading." in " ".join(page.split())
    assert page.splitlines()[0] == "Alder Point landing  15 May 2026 to 20 October 2026"
    desk, _ = desk_of(opened, (), date(2026, 3, 1))
    assert desk is not None
    assert "Planting is on 15 May 2026" in report_text(report_of(desk, date(2026, 3, 1)))


def test_a_container_that_failed_is_told_with_its_days(opened: Opened) -> None:
    """A catch of next to nothing and dry fingers make a spell that ends when it is mended."""
    there = "water side 3"
    told = [Told(at(7, 13), "finger", there, 0.0), Told(at(7, 15), "finger", there, 0.0),
            Told(at(7, 16), "catch", there, 0.05, 300.0), Told(at(7, 18), "mended", there)]  # fmt: skip
    (failure,) = report(opened, *told).failures
    assert failure.container == "water side 3"
    assert date(2026, 7, 13) <= failure.first_day <= failure.last_day < date(2026, 7, 18)
    assert failure.mended


def test_a_row_that_is_always_dry_offers_a_larger_factor(opened: Opened) -> None:
    """A row that is dry on many days while its water arrives is offered a larger factor than it has; others are not."""
    flow_l_h = {one.container: one.flow_l_h for one in opened.design.zones[0].containers}
    names = [f"road side {n}" for n in range(1, 13)]
    dry = [
        Told(at(7, 1) + timedelta(days=3 * n), kind, name, value, during)
        for n in range(20)
        for name in names
        for kind, value, during in (("finger", 0.0, None), ("catch", flow_l_h[name] / 12.0, 300.0))
    ]
    rows = {row.row: row for row in report(opened, *dry).rows}
    thirsty = rows["road side"]
    assert thirsty.demand_factor > 1.1
    assert thirsty.surroundings_next_factor is not None
    assert thirsty.surroundings_next_factor > thirsty.surroundings_now_factor
    assert rows["gate"].surroundings_next_factor is None


def test_water_by_the_dial(opened: Opened) -> None:
    """Two readings of the dial give the water between them, whatever the table says."""
    told = [Told(at(5, 20), "meter", "zone 1", 1000.0), Told(at(9, 30), "meter", "zone 1", 6500.0)]
    zone = report(opened, *told).zones[0]
    assert (zone.given_l, zone.told_from) == (5500.0, "meter")


def test_runs_written_down_replace_the_table(opened: Opened) -> None:
    """One day of an hour instead of the table's minutes changes the water by the difference, at the zone's flow."""
    flow = opened.design.zones[0].flow_l_h
    plain, told = report(opened), report(opened, Told(at(7, 15), "ran", "zone 1", 3600.0))
    table = plain.zones[0].planned_l
    week = next(w for w in desk_of(opened, (), END)[0].zones[0].weeks if w.from_day == "10 July")  # type: ignore[union-attr]
    usual = flow * week.starts_per_day_count * week.minutes_per_start / 60.0
    assert told.zones[0].given_l - table == pytest.approx(flow - usual)
