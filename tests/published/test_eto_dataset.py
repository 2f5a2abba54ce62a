"""Sixteen years of shipped answers.

The data set of the Python package eto (Apache-2.0), example_daily and example_daily_results: 5,821 days 2000–2015 at
43.6° S and 500 m, wind 2 m/s, R_s missing on 1,728 of them; two decimals (read).
"""

import csv
import io
import zipfile
from pathlib import Path

import eto
import numpy as np
import pytest
from numpy.typing import NDArray

from brimful.domains.climate import radiation
from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.evapotranspiration import hargreaves_evapotranspiration
from brimful.domains.climate.record import DailyRecord, Place
from brimful.weather.record import day_of_year

Columns = dict[str, NDArray[np.float64]]
ROUNDED = 0.0051  # half the last digit


def load(name: str) -> tuple[NDArray[np.datetime64], Columns]:
    """The dates and columns of one of the two tables."""
    path = Path(eto.__file__).parent / "datasets" / f"{name}.csv.zip"
    with zipfile.ZipFile(path) as packed, packed.open(f"{name}.csv") as file:
        header, *rows = csv.reader(io.TextIOWrapper(file))
    columns = dict(zip(header, zip(*rows, strict=True), strict=True))
    dates = np.array(columns.pop("date"), dtype="datetime64[D]")
    return dates, {key: np.array([float(x) if x else np.nan for x in cells]) for key, cells in columns.items()}


@pytest.fixture(scope="module")
def given() -> tuple[DailyRecord, Columns]:
    """The record, and the shipped answers."""
    dates, days = load("example_daily")
    record = DailyRecord(
        day_of_year(dates), days["T_max"], days["T_min"], vapour_kpa=days["e_a"], radiation_mj_m2=days["R_s"]
    )
    return record, load("example_daily_results")[1]


def test_penman_monteith(given: tuple[DailyRecord, Columns]) -> None:
    """Every day with an answer agrees to its last digit, but for seven on which R_s passes that of a cloudless day.

    FAO-56 p.52 and p.60 cap it there; the data set does not.
    """
    record, answers = given
    worked = reference_et_of_days(record, Place(-43.6, 500.0))
    off = np.abs(worked.et0_mm - answers["ETo_FAO_mm"])
    known = np.isfinite(answers["ETo_FAO_mm"])
    assert record.tmax_c.size == 5821
    assert np.count_nonzero(known) == 5816
    assert np.count_nonzero(off[known] <= ROUNDED) >= 5809
    clear = radiation.clear_sky_radiation(500.0, worked.extraterrestrial_mj_m2)
    assert np.all(worked.radiation_mj_m2[known & (off > ROUNDED)] >= np.asarray(clear)[known & (off > ROUNDED)])
    assert off[known].max() < 0.15


def test_hargreaves(given: tuple[DailyRecord, Columns]) -> None:
    """Equation 52 agrees to its last digit on all 5,821 days."""
    record, answers = given
    above = np.asarray(radiation.extraterrestrial_radiation(-43.6, record.day_of_year.astype(float)))
    et0 = hargreaves_evapotranspiration(record.tmax_c, record.tmin_c, extraterrestrial_mj_m2=above)
    assert np.all(np.abs(et0 - answers["ETo_Har_mm"]) <= ROUNDED)
