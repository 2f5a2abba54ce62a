"""Today on whole plans: what an empty journal, readings, runs, rain and the calendar do to it."""

import shutil
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from brimful.design.today import TodayWorked, Told
from brimful.services import example, open_plan
from brimful.services.today import today_of_opened

ON = date(2026, 7, 15)


@pytest.fixture(scope="module")
def opened() -> Iterator[object]:
    """The demo plan, opened once."""
    yield open_plan(example("alder_point_landing"))[1]


def at(days_before: int, hour: int = 7) -> datetime:
    """A morning so many days before."""
    return datetime(2026, 7, 15, hour).astimezone() - timedelta(days=days_before)


def today(opened: object, *told: Told, on: date = ON) -> TodayWorked:
    """The day of the demo plan."""
    answer = today_of_opened(opened, told, on)  # type: ignore[arg-type]
    assert answer.today is not None
    return answer.today


def minutes(day: TodayWorked) -> int:
    """Minutes of the only zone."""
    return day.zones[0].minutes_total


def test_an_empty_journal_follows_the_table(opened: object) -> None:
    """With nothing told and no weather of this year, today is the printed table."""
    zone = today(opened).zones[0]
    assert zone.minutes_total == zone.table_starts_count * zone.table_minutes_per_start


def test_dry_fingers_lengthen_the_run(opened: object) -> None:
    """A row that feels dry everywhere is given more, one that is wet everywhere no more than before."""
    names = [one.container for one in today(opened).believed]
    dry = [Told(at(0), "finger", name, 0.0) for name in names]
    wet = [Told(at(0), "finger", name, 2.0) for name in names]
    assert minutes(today(opened, *dry)) > minutes(today(opened)) >= minutes(today(opened, *wet))


def test_a_container_that_gets_nothing_is_named_first(opened: object) -> None:
    """Two dry fingers and a catch of next to nothing: that container is looked at first, and its siblings are not."""
    told = [Told(at(2), "finger", "water side 3", 0.0), Told(at(0), "finger", "water side 3", 0.0),
            Told(at(0), "catch", "water side 3", 0.05, 300.0)]  # fmt: skip
    day = today(opened, *told)
    assert day.look[0].container == "water side 3"
    assert {cause.cause for cause in day.look[0].causes[:2]} & {"closed valve or kinked feeder", "plugged emitters"}
    (hand,) = day.zones[0].by_hand
    assert (hand.container, hand.out_of_order) == ("water side 3", True)
    assert hand.water_l > 0.0
    assert len(day.look) == 1


def test_mended_is_forgotten(opened: object) -> None:
    """Once it is written down as put right, nobody is sent there again."""
    told = [Told(at(2), "finger", "water side 3", 0.0), Told(at(1), "catch", "water side 3", 0.05, 300.0),
            Told(at(1, 9), "mended", "water side 3"), Told(at(0), "finger", "water side 3", 2.0)]  # fmt: skip
    assert not today(opened, *told).look


def test_rain_in_the_gauge_shortens_the_run(opened: object) -> None:
    """An inch of rain yesterday leaves less to give today."""
    assert minutes(today(opened, Told(at(1, 18), "rain", "", 25.4))) < minutes(today(opened)) or not minutes(
        today(opened)
    )


def test_a_zone_that_did_not_run_is_given_more(opened: object) -> None:
    """Four days of nothing run are made up for."""
    none = [Told(at(days), "ran", "zone 1", 0.0) for days in (1, 2, 3, 4)]
    assert minutes(today(opened, *none)) > minutes(today(opened))


def test_what_is_written_down_is_no_longer_due(opened: object) -> None:
    """A feeding that was written down is not due any more."""
    assert "feed" in {one.key for one in today(opened).due}
    assert "feed" not in {one.key for one in today(opened, Told(at(1), "fed", "")).due}


def test_a_problem_stands_until_it_is_mended(opened: object) -> None:
    """What somebody reported is said with their words, until it is put right."""
    leak = Told(at(3), "problem", "gate 1", words="drips at the stake")
    assert today(opened, leak).look[-1].reported == "drips at the stake"
    assert not any(one.reported for one in today(opened, leak, Told(at(1), "mended", "gate 1")).look)


def test_what_comes_later_is_not_known_yet(opened: object) -> None:
    """Entries of tomorrow do not change today."""
    assert today(opened, Told(at(-1), "finger", "gate 1", 0.0)) == today(opened)


@pytest.mark.parametrize(("on", "state"), [(date(2026, 3, 1), "before"), (date(2026, 11, 10), "over")])
def test_outside_the_season_nothing_runs(opened: object, on: date, state: str) -> None:
    """Before planting and after the season no zone runs, and the page says where the season stands."""
    day = today(opened, on=on)
    assert (day.state, day.zones, day.believed) == (state, (), ())


def test_places_that_are_gone_do_no_harm(opened: object) -> None:
    """Entries of containers that the plan no longer has are passed over."""
    assert minutes(today(opened, Told(at(0), "finger", "long gone 7", 0.0))) == minutes(today(opened))


def test_weather_of_this_year_counts(tmp_path: Path) -> None:
    """A hot dry week in the recent weather lengthens the run, a cool wet one shortens it."""
    plan = example("alder_point_landing")
    for beside in plan.parent.iterdir():
        if beside.suffix == ".csv":
            shutil.copy(beside, tmp_path)
    text = plan.read_text(encoding="utf-8").replace("[site]", '[site]\nrecent_weather = "now.csv"', 1)
    path = tmp_path / "plan.toml"
    path.write_text(text, encoding="utf-8")
    found = []
    for hot, cold, rain in ((40, 24, 0), (16, 13, 8)):
        days = [date(2026, 7, 1) + timedelta(days=n) for n in range(16)]
        lines = [f"{day},{hot},{cold},{rain}" for day in days]
        (tmp_path / "now.csv").write_text("date,tmax °C,tmin °C,rain mm\n" + "\n".join(lines) + "\n", encoding="utf-8")
        opened = open_plan(path)[1]
        found.append(minutes(today(opened)))
    assert found[0] > found[1]
