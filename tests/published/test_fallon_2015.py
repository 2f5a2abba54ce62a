"""A whole year beside the answers of a weather network.

US Bureau of Reclamation agricultural weather network, station Fallon, Nevada (39.4575 N, 1208.5 m), daily record of
2015 with its published short-reference evapotranspiration ETOS (ASCE-EWRI 2005 standardized equation), inches, two
decimals (read). One day (22 April) has no wind. We use FAO-56, which differs from it by about 0.01 mm a day.
"""

from pathlib import Path

import numpy as np
import pytest

import brimful
from brimful.domains.climate.daily import ReferenceEt
from brimful.weather import DailyWeather, read_weather, reference_et

FILE = Path(brimful.__file__).parent / "examples" / "fallon_2015.csv"
COLUMNS = {
    "tmax": "MX °F",
    "tmin": "MN °F",
    "radiation": "SR langley",
    "dew": "YM °F",
    "wind": "UA mph",
    "et0": "ETOS in",
}


@pytest.fixture(scope="module")
def fallon() -> DailyWeather:
    """The year as the general CSV reader reads it."""
    return read_weather(FILE, COLUMNS, wind_height_m=3.0, latitude_deg=39.4575, elevation_m=1208.5)


@pytest.fixture(scope="module")
def worked(fallon: DailyWeather) -> ReferenceEt:
    """The year worked out."""
    return reference_et(fallon)


def test_whole_year_agrees_with_the_network(fallon: DailyWeather, worked: ReferenceEt) -> None:
    """The network's days sum to 1322.3 mm; ours come within 0.5 % of it."""
    assert fallon.et0_mm is not None
    assert fallon.et0_mm.sum() == pytest.approx(1322.3, abs=0.05)  # 52.06 in, sum of the file's ETOS column
    assert worked.et0_mm.sum() == pytest.approx(fallon.et0_mm.sum(), rel=0.005)


def test_every_day_agrees_with_the_network(fallon: DailyWeather, worked: ReferenceEt) -> None:
    """No day differs by more than 0.25 mm, 0.01 in; the mean difference is under 0.1 mm."""
    assert fallon.et0_mm is not None
    known = fallon.dates != np.datetime64("2015-04-22")  # that day's wind is a guess
    difference = np.abs(worked.et0_mm - fallon.et0_mm)[known]
    assert difference.mean() < 0.1
    assert difference.max() < 0.254


def test_a_day_above_100_f(fallon: DailyWeather, worked: ReferenceEt) -> None:
    """1 July 2015, 102.8 °F: the network published 0.31 in, so between 0.305 and 0.315 in plus one rounding."""
    at = int(np.flatnonzero(fallon.dates == np.datetime64("2015-07-01"))[0])
    assert fallon.et0_mm is not None
    assert fallon.et0_mm[at] == pytest.approx(0.31 * 25.4)
    assert worked.et0_mm[at] == pytest.approx(7.998, abs=0.01)  # refet 0.5.0, method asce (run)


def test_the_missing_wind_is_told(fallon: DailyWeather) -> None:
    """The words NO RECORD become a note with the rule that filled it."""
    assert any("wind" in note.message and "2015-04-22" in note.message for note in fallon.notes)
