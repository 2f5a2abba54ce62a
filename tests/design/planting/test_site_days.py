"""What the weather says of a planting's days: cold nights, last frost, warm mix, and nothing where there is none."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.design.care.mix_warmth import WALL_C
from brimful.design.planting.days import ASSUMED, ASSUMED_COLDEST_C, SiteDays, days_of
from brimful.plan.schema import Site, Weather

PLANTED, REMOVED = date(2027, 5, 15), date(2027, 10, 15)
ALBANY = Path(__file__).parents[2] / "data"


def weather(folder: Path, low_c: float, *, years: int = 12, southern: bool = False, cold: str = "") -> Site:
    """A site whose mean swings by 10 °C round 12 °C over the year, nights 5 °C below; `low_c` on the day `cold`."""
    days = np.arange(np.datetime64("2001-01-01"), np.datetime64(f"{2001 + years}-01-01"))
    turn = 2 * np.pi * ((days - days.astype("datetime64[Y]")).astype(int) - 200 + (182 if southern else 0)) / 365.25
    mean = 12 + 10 * np.cos(turn)
    lines = ["date,tmax °C,tmin °C"]
    for day, value in zip(days, mean, strict=True):
        night = low_c if cold and str(day).endswith(cold) else value - 5
        lines.append(f"{day},{value + 5:.2f},{night:.2f}")
    (folder / "w.csv").write_text("\n".join(lines), encoding="utf-8")
    return Site(latitude=-40.0 if southern else 45.0, weather=Weather(file="w.csv"))


def test_the_coldest_night_after_planting_is_the_records(tmp_path: Path) -> None:
    """A night of 1 °C each 30 May is the coldest to come; planted after it, it is milder; the source is told."""
    site = weather(tmp_path, 1.0, cold="05-30")
    early, late = (days_of(site, tmp_path, day, REMOVED) for day in (PLANTED, date(2027, 6, 5)))
    assert early.coldest_c == pytest.approx(1.0)
    assert late.coldest_c > 10.0
    assert "w.csv" in early.coldest_taken_as
    assert early.safe_from(1.0) == date(2027, 5, 31)
    assert early.safe_from(-5.0) == PLANTED


def test_a_frost_of_autumn_is_no_frost_of_spring(tmp_path: Path) -> None:
    """A night of −3 °C each 1 October ends what it harms on that day, and does not speak against planting."""
    days = days_of(weather(tmp_path, -3.0, cold="10-01"), tmp_path, PLANTED, REMOVED)
    assert days.coldest_c > 5.0
    assert days.ends_on(-3.0) == date(2027, 10, 1)
    assert days.ends_on(-3.1) is None


def test_mix_is_the_air_and_the_walls_warmth(tmp_path: Path) -> None:
    """The mix of planting day is the smoothed mean of that day in all years and the walls' warmth over it."""
    days = days_of(weather(tmp_path, 0.0), tmp_path, PLANTED, REMOVED)
    wave = 12 + 10 * np.cos(2 * np.pi * (134 - 200 + np.arange(-7, 8)) / 365.25)
    assert days.mix_c[0] == pytest.approx(wave.mean() + WALL_C, abs=0.1)
    assert len(days.mix_c) == 366


def test_last_frost_of_the_record(tmp_path: Path) -> None:
    """A night of −1 °C each 3 April is the last frost; planting in autumn leaves spring's dates alone."""
    site = weather(tmp_path, -1.0, cold="04-03")
    days = days_of(site, tmp_path, PLANTED, REMOVED)
    assert days.last_frost is not None
    assert days.last_frost >= date(2027, 4, 3)
    assert not days.in_autumn
    assert days_of(site, tmp_path, date(2027, 10, 1), date(2028, 4, 30)).in_autumn


def test_seasons_of_the_south(tmp_path: Path) -> None:
    """South of the equator a November planting follows the last frost of its own spring, and warms until January."""
    days = days_of(
        weather(tmp_path, -1.0, southern=True, cold="10-03"), tmp_path, date(2027, 11, 15), date(2028, 4, 10)
    )
    assert days.last_frost == date(2027, 10, 3)
    assert not days.in_autumn
    assert 40 < days.warmest < 80


def test_without_weather_all_is_assumed_and_said_so() -> None:
    """No weather, no frost dates: the coldest night is assumed, in those words, and nothing else is known."""
    days = days_of(Site(), Path(), PLANTED, REMOVED)
    assert (days.coldest_c, days.coldest_taken_as) == (ASSUMED_COLDEST_C, ASSUMED)
    assert "assumed" in ASSUMED
    assert (days.known, days.last_frost, days.ends_on(40.0), days.safe_from(40.0)) == (False, None, None, None)


def test_published_dates_go_before_the_record(tmp_path: Path) -> None:
    """With a station's published dates the last frost is theirs: 10 May at one spring in ten; nights after it are
    milder than freezing, those before it are not."""
    names = ("ANN-TMIN-PRBLST-T28FP10", "ANN-TMIN-PRBLST-T32FP10", "ANN-TMIN-PRBLST-T36FP10")
    text = ",".join(f'"{name}"' for name in names) + '\n"04/20","05/10","05/25"\n'
    (tmp_path / "frost.csv").write_text(text, encoding="utf-8")
    site = replace_site(weather(tmp_path, 0.0), "frost.csv")
    days = [days_of(site, tmp_path, date(2027, 5, day), REMOVED) for day in (1, 15, 28)]
    assert {day.last_frost for day in days} == {date(2027, 5, 10)}
    assert [day.coldest_c for day in days] == pytest.approx([0.0, 20 / 9, 20 / 9])
    assert "published" in days[0].coldest_taken_as


def replace_site(site: Site, frost: str) -> Site:
    """The site with a file of frost dates."""
    return site.model_copy(update={"frost_normals": frost})


@given(st.integers(0, 60), st.integers(0, 60))
def test_later_planting_meets_no_colder_night(one: int, other: int) -> None:
    """The longer one waits, the milder the coldest night to come; the safe day never lies before planting."""
    rows = 9.0 + 4.0 * np.sin(np.arange(20 * 150).reshape(20, 150) * 0.7)
    from brimful.domains.climate.nights import SeasonNights, coldest_night_c

    base = SiteDays(PLANTED, REMOVED, mix_c=(15.0,) * 366, warmest=70, nights=SeasonNights(rows))
    early, late = sorted((one, other))
    nights = SeasonNights(rows)
    assert coldest_night_c(nights, late, 70, 0.1) >= coldest_night_c(nights, early, 70, 0.1)
    safe = replace(base, warmest=70).safe_from(6.0)
    assert safe is None or safe >= PLANTED + timedelta(days=0)
