"""GHCN-Daily by station: both layouts, invented values."""

import pytest

from brimful.errors import WeatherError
from brimful.weather import DailyWeather
from brimful.weather.ghcn import is_lean, is_wide
from brimful.weather.order import in_order
from brimful.weather.reading import read_days

LEAN = """USW00099999,20150701,TMAX,306,,,W,2400
USW00099999,20150701,TMIN,117,,,W,2400
USW00099999,20150701,PRCP,25,,,W,2400
USW00099999,20150701,AWND,31,,,W,
USW00099999,20150701,WT01,1,,,W,
USW00099999,20150702,TMAX,322,,,W,2400
USW00099999,20150702,TMIN,128,,,W,2400
USW00099999,20150702,PRCP,0,T,,W,2400
USW00099999,20150703,TMAX,999,,X,W,2400
USW00099999,20150703,TMIN,139,,,W,2400
USW00099999,20150704,TMAX,344,,,W,2400
USW00099999,20150704,TMIN,-9999,,,W,2400
USW00099999,20150705,TMAX,350,,,W,2400
USW00099999,20150705,TMIN,150,,,W,2400
"""
WIDE = """"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES","TSUN","TSUN_ATTRIBUTES"
"USW00099999","2015-07-01","39.5","-118.8","1208.5","SOMEWHERE, NV US","   25",",,W,2400","  306",",,W","  117",",,W","  660",",,W"
"USW00099999","2015-07-02","39.5","-118.8","1208.5","SOMEWHERE, NV US","    0","T,,W,2400","  322",",,W","  128",",,W","",""
"USW00099999","2015-07-03","39.5","-118.8","1208.5","SOMEWHERE, NV US","     ","","  999",",X,W","  139",",,W","",""
"USW00099999","2015-07-04","39.5","-118.8","1208.5","SOMEWHERE, NV US","     ","","  344",",,W","  150",",,W","",""
"""  # noqa: E501


def read(text: str) -> DailyWeather:
    """The record that this text makes."""
    return in_order(read_days(text, {}, "some.csv"), "some.csv")


def test_lean_layout() -> None:
    """Tenths become °C, mm and m/s; the failed and the missing value are filled from their neighbours and told."""
    weather = read(LEAN)
    assert weather.tmax_c == pytest.approx([30.6, 32.2, 33.3, 34.4, 35.0])
    assert weather.tmin_c == pytest.approx([11.7, 12.8, 13.9, 14.45, 15.0])
    assert weather.rain_mm is not None
    assert weather.wind_m_s is not None
    assert weather.rain_mm[0] == pytest.approx(2.5)
    assert weather.wind_m_s[0] == pytest.approx(3.1)
    assert weather.wind_height_m == 10.0
    assert {(note.code, note.line) for note in weather.notes if note.line} == {("quality", 9)}


def test_wide_layout() -> None:
    """The wide layout gives the same days, the place, and minutes of sunshine as hours."""
    weather = read(WIDE)
    assert weather.tmax_c == pytest.approx([30.6, 32.2, 33.3, 34.4])
    assert weather.sunshine_h is not None
    assert weather.sunshine_h[0] == pytest.approx(11.0)
    assert (weather.latitude_deg, weather.elevation_m) == (39.5, 1208.5)
    assert [note.line for note in weather.notes if note.code == "quality"] == [4]


def test_layouts_are_told_apart() -> None:
    """The first line tells the layout; an export in °F without flags is a table whose units must be said."""
    assert is_lean(LEAN.splitlines()[0])
    assert not is_lean(WIDE.splitlines()[0])
    assert is_wide(WIDE.splitlines()[0])
    assert not is_wide("STATION,NAME,DATE,TMAX,TMIN")
    with pytest.raises(WeatherError, match="has no unit"):
        read("STATION,NAME,DATE,TMAX,TMIN\nUSW00099999,SOMEWHERE,2015-07-01,87,53\n")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (LEAN.replace("USW00099999,20150705", "USW00088888,20150705"), "some.csv:13: the station changes"),
        (LEAN.replace(",322,", ",warm,"), 'some.csv:6: TMAX is "warm"'),
        (LEAN + "USW00099999,20150706\n", "some.csv:15: the line"),
        (LEAN.replace("TMAX", "TAVG"), "tmax is not known on any day"),
    ],
)
def test_what_is_wrong_is_said(text: str, said: str) -> None:
    """A broken file is one sentence with its line."""
    with pytest.raises(WeatherError) as caught:
        read(text)
    assert said in str(caught.value)
