"""The CSV reader: columns, units, dates, order, gaps, and clear words on what is wrong."""

import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.errors import WeatherError
from brimful.weather import DailyWeather, WeatherNote, read_weather, reference_et
from brimful.weather.order import in_order
from brimful.weather.reading import read_days


def read(text: str, *, latitude_deg: float | None = None, **columns: str) -> DailyWeather:
    """The record that this text makes."""
    return in_order(read_days(text, columns, "some.csv"), "some.csv", latitude_deg=latitude_deg)


def notes(weather: DailyWeather) -> dict[str, WeatherNote]:
    """The first note of each code."""
    return {note.code: note for note in reversed(weather.notes)}


def year_text(
    tmax: str = "tmax_c", tmin: str = "tmin_c", *, south: bool = False, skip: tuple[int, int] = (0, 0)
) -> str:
    """Three years of smooth days, warm in July or in January."""
    dates = np.arange(np.datetime64("2010-01-01"), np.datetime64("2013-01-01"))
    days = (dates - dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(int)
    warm = 12 + (-10 if south else 10) * np.cos(2 * np.pi * (days - 200) / 365.25)
    rows = [f"{d},{w + 5:.2f},{w - 5:.2f}" for d, w in zip(dates, warm, strict=True)]
    return "\n".join([f"date,{tmax},{tmin}", *rows[: skip[0]], *rows[skip[1] :]])


@pytest.mark.parametrize(
    ("header", "columns"),
    [
        ("date,tmax_F,tmin_F,rain_in,wind_mph", {}),
        ("Date,Tmax (°F),Tmin (°F),Rain (in),Wind (mph)", {}),
        ("DATE,TMAX [degF],TMIN [degF],PRCP [inches],AWND [mph]", {}),
        (
            "day of record,MX,MN,P,U",
            {"date": "day of record", "tmax": "MX °F", "tmin": "MN °F", "rain": "P in", "wind": "U mph"},
        ),
        ("time,temp_max °F,temp_min °F,precipitation in,wind mph", {}),
    ],
)
def test_headers_and_maps_that_mean_the_same(header: str, columns: dict[str, str]) -> None:
    """Units in the header or in the column map give the same record in °C, mm and m/s."""
    weather = read(f"{header}\n2015-07-01,86,50,1.0,10\n2015-07-02,95,59,0,5\n", **columns)
    assert weather.tmax_c == pytest.approx([30.0, 35.0])
    assert weather.tmin_c == pytest.approx([10.0, 15.0])
    assert weather.rain_mm == pytest.approx([25.4, 0.0])
    assert weather.wind_m_s == pytest.approx([4.4704, 2.2352])


@pytest.mark.parametrize(
    "dates",
    [
        ("2015-07-30", "2015-07-31"),
        ("2015/7/30", "2015/7/31"),
        ("20150730", "20150731"),
        ("7/30/2015", "7/31/2015"),
        ("30.7.2015", "31.7.2015"),
        ("2015-07-30T00:00", "2015-07-31T00:00"),
    ],
)
def test_dates_as_people_write_them(dates: tuple[str, str]) -> None:
    """Six ways to write the same two days."""
    weather = read(f"date,tmax_c,tmin_c\n{dates[0]},30,10\n{dates[1]},31,11\n")
    assert [str(day) for day in weather.dates] == ["2015-07-30", "2015-07-31"]


def test_date_that_can_be_read_two_ways_is_told() -> None:
    """4/5/2015 is taken as April 5 and the doubt is told."""
    weather = read("date,tmax_c,tmin_c\n4/5/2015,30,10\n4/6/2015,31,11\n")
    assert str(weather.dates[0]) == "2015-04-05"
    assert "date_order" in notes(weather)


def test_semicolons_and_decimal_commas() -> None:
    """A spreadsheet's export with semicolons and decimal commas."""
    assert read("date;tmax_c;tmin_c\n2015-07-01;30,5;10,25\n").tmax_c == pytest.approx([30.5])


def test_order_duplicates_and_swaps() -> None:
    """Days out of order are sorted, the second of two is dropped, tmin above tmax is exchanged; each is told once."""
    text = "date,tmax_c,tmin_c\n2015-07-02,31,11\n2015-07-01,30,10\n2015-07-03,12,32\n2015-07-04,33,13\n"
    weather = read(text + "2015-07-05,34,14\n2015-07-05,99,14\n")
    assert weather.tmax_c == pytest.approx([30, 31, 32, 33, 34])
    assert weather.tmin_c == pytest.approx([10, 11, 12, 13, 14])
    told = notes(weather)
    assert (told["unsorted"].line, told["swapped"].line, told["duplicate"].line) == (3, 4, 7)


def test_short_gap_lies_on_a_line() -> None:
    """A gap of two days, one row missing and one cell empty, lies on the line between its neighbours."""
    weather = read("date,tmax_c,tmin_c,rain_mm\n2015-07-01,30,10,0\n2015-07-03,,,\n2015-07-04,36,16,4\n")
    assert weather.tmax_c == pytest.approx([30, 32, 34, 36])
    assert weather.rain_mm == pytest.approx([0, 0, 0, 4])
    assert {"gap", "filled"} <= set(notes(weather))


def test_missing_month_takes_other_years() -> None:
    """One missing July takes the mean of the same days in the other years, and the month is named."""
    weather = read(year_text(skip=(546, 577)))
    assert weather.days_count == 1096
    assert np.abs(weather.tmax_c[546:577] - weather.tmax_c[181:212]).max() < 0.3
    assert "2011-07" in notes(weather)["month_missing"].message
    assert any("rest of the record" in note.message for note in weather.notes)


def test_leap_day_is_a_day() -> None:
    """29 February is kept, day 60 of its year; in a common year it is no date."""
    weather = read("date,tmax_c,tmin_c\n2012-02-28,10,1\n2012-02-29,11,2\n2012-03-01,12,3\n")
    assert list(weather.day_of_year) == [59, 60, 61]
    assert weather.years[1] == 2012
    assert weather.months[1] == 2
    wrong = read("date,tmax_c,tmin_c\n2013-02-28,10,1\n2013-02-29,11,2\n2013-03-01,12,3\n")
    assert list(wrong.tmax_c) == [10.0, 12.0]
    assert notes(wrong)["bad_date"].line == 3


def test_hemisphere_is_doubted() -> None:
    """A record warm in January below a northern latitude is doubted, and only then."""
    assert "hemisphere" in notes(read(year_text(south=True), latitude_deg=47.0))
    assert "hemisphere" not in notes(read(year_text(south=True), latitude_deg=-47.0))
    assert "hemisphere" not in notes(read(year_text(), latitude_deg=47.0))


def test_fahrenheit_said_to_be_celsius() -> None:
    """86 to 104 "°C" looks like °F, with its line."""
    text = "date,tmax,tmin\n" + "\n".join(f"2015-07-{n:02},{85 + n},{60 + n}" for n in range(1, 20))
    with pytest.raises(WeatherError, match=r"some.csv:20: tmax 104 °C was given, which looks like °F"):
        read(text, tmax="tmax °C", tmin="tmin °C")


def test_stray_values_are_blanked() -> None:
    """One tmax of 300 °C among many days is a slip: told, and filled as a gap."""
    rows = [f"2015-07-{n:02},{300 if n == 9 else 30},10" for n in range(1, 31)]
    weather = read("date,tmax_c,tmin_c\n" + "\n".join(rows))
    assert weather.tmax_c == pytest.approx(30.0)
    assert notes(weather)["impossible"].line == 10


def test_words_for_missing_and_trace() -> None:
    """NO RECORD and -9999 are missing without fuss, T is a trace of rain, anything else is told with its line."""
    text = "date,tmax_c,tmin_c,rain_mm,rh_%\n2015-07-01,30,10,T,NO RECORD\n2015-07-02,30,10,-9999,50\n"
    weather = read(text)
    assert weather.rain_mm is not None
    assert weather.rh_mean_pct is not None
    assert list(weather.rain_mm) == [0.0, 0.0]
    assert math.isnan(weather.rh_mean_pct[0])
    assert weather.rh_mean_pct[1] == pytest.approx(50.0)
    assert "no_number" not in notes(weather)
    odd = read("date,tmax_c,tmin_c\n2015-07-01,30,10\n2015-07-02,hot,10\n2015-07-03,30,10\n")
    assert notes(odd)["no_number"].line == 3


def test_wind_height_is_told_when_taken() -> None:
    """Wind without a height is taken as at 10 m, and that is told; a given height is not."""
    text = "date,tmax_c,tmin_c,wind_m_s\n2015-07-01,30,10,2\n"
    assert "wind_height" in notes(read(text))
    given_height = in_order(read_days(text, {}, "some.csv"), "some.csv", wind_height_m=3.0)
    assert given_height.wind_height_m == 3.0
    assert "wind_height" not in notes(given_height)


def test_optional_column_without_unit_is_left_out() -> None:
    """A wind column of which nothing says the unit is left out, and the note says how to bring it in."""
    weather = read("date,tmax_c,tmin_c,wind\n2015-07-01,30,10,2\n")
    assert weather.wind_m_s is None
    assert 'wind = "wind m/s"' in notes(weather)["no_unit"].message


@pytest.mark.parametrize(
    ("text", "columns", "said"),
    [
        ("date,tmax,tmin\n2015-07-01,30,10\n", {}, 'the column "tmax" for tmax has no unit'),
        ("date,tmax_c,tmin_c\n2015-07-01,30,10\n", {"tmax": "TX °C"}, 'the column "TX °C" for tmax is not in the file'),
        ("date,a,b\n2015-07-01,30,10\n", {"tmax": "a psi", "tmin": "b °C"}, 'the unit "psi"'),
        ("date,a,b\n2015-07-01,30,10\n", {"heat": "a °C"}, 'the column map names "heat"'),
        ("date,tmax_c,low\n2015-07-01,30,10\n", {"tmin": ""}, "no tmin column"),
        ("when,tmax_c,tmin_c\n2015-07-01,30,10\n", {}, "no date column"),
        ("date,tmax_c,tmin_c\n", {}, "there are no days"),
        ("date,tmax_c,tmin_c\nx,30,10\ny,31,11\n", {}, "no row has a date"),
        ("date,tmax_c,tmin_c\n2015-07-01,,10\n", {}, "tmax is not known on any day"),
        ("date,tmax_c,tmin_c\n1815-07-01,30,10\n2115-07-01,30,10\n", {}, "the days run from 1815-07-01 to 2115-07-01"),
        ("date,tmax_c,tmin_c\n" + "2015-07-01,30,10\n" * 24, {}, "24 rows for 1 days"),
        ("hello\n", {}, 'the line "hello" is no header of a table'),
        ("date,rain (mm),tmax_c,tmin_c\n2015-07-01,-3,30,10\n2015-07-02,-4,30,10\n", {}, "rain -4 mm"),
    ],
)
def test_what_is_wrong_is_said(text: str, columns: dict[str, str], said: str) -> None:
    """Each unusable file is one clear sentence with the file's name, what was expected, and no traceback."""
    with pytest.raises(WeatherError) as caught:
        read(text, **columns)
    assert said in str(caught.value)
    assert str(caught.value).startswith("some.csv")
    assert "expected" in str(caught.value)


def test_missing_file_and_directory(tmp_path: Path) -> None:
    """A file that is not there, and a directory, are said to be so."""
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(WeatherError, match="cannot be read"):
            read_weather(path)


@pytest.mark.parametrize(
    "noise", [b"\x00\x01\x02noise" * 1_000_000, b"zq x," * 2_000_000, b"\xfe\xff\x80\x81" * 9, b" \n"]
)
def test_noise(tmp_path: Path, noise: bytes) -> None:
    """10 MB of noise, of text, odd bytes and nothing at all are clear errors."""
    path = tmp_path / "noise.csv"
    path.write_bytes(noise)
    with pytest.raises(WeatherError) as caught:
        read_weather(path)
    assert len(str(caught.value)) < 800


CELL = st.text(max_size=5) | st.sampled_from(["2015-07-01", "1/2/2015", "30", "nan", "inf", "-9999", "1e308", '"', "T"])
ROWS = st.lists(st.lists(CELL, min_size=1, max_size=6).map(",".join), max_size=6).map("\n".join)
STARTS = st.sampled_from(
    [
        "",
        "date,tmax_c,tmin_c,rain_in,wind_mph\n",
        "year,month,day,tmax_F,tmin_F\n",
        '{"daily":',
        "USW00099999,20150422,TMAX,",
        "STATION,DATE,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES,PRCP,LATITUDE\n",
    ]
)


@given(STARTS, ROWS, st.dictionaries(st.sampled_from(["tmax", "date", "wind"]), st.text(max_size=6), max_size=2))
def test_any_text_is_weather_or_an_error(start: str, rows: str, columns: dict[str, str]) -> None:
    """Whatever the text and the column map, the reader gives a record or a WeatherError."""
    try:
        weather = read(start + rows, latitude_deg=40.0, **columns)
    except WeatherError:
        return
    assert weather.days_count > 0


def test_record_cannot_be_changed() -> None:
    """The arrays of a record are read-only."""
    weather = read("date,tmax_c,tmin_c\n2015-07-01,30,10\n")
    with pytest.raises(ValueError, match="read-only"):
        weather.tmax_c[0] = 99.0


def test_no_latitude_is_said() -> None:
    """ET0 without a latitude is a clear error."""
    with pytest.raises(WeatherError, match="no latitude"):
        reference_et(read("date,tmax_c,tmin_c\n2015-07-01,30,10\n"))
