"""ET0: laws of the equation, whole records, and two independent libraries."""

import numpy as np
import pandas as pd
import pyet
import pytest
import refet
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.climate import atmosphere, hourly, radiation
from brimful.domains.climate.daily import BLOCK_DAYS, reference_et_of_days
from brimful.domains.climate.evapotranspiration import (
    hargreaves_evapotranspiration,
    reference_evapotranspiration,
    soil_heat_of_month,
    soil_heat_of_month_so_far,
)
from brimful.domains.climate.record import DailyRecord, Place

TEMPERATURE = st.floats(-10.0, 40.0)
SWING = st.floats(1.0, 25.0)
LATITUDE = st.floats(-90.0, 90.0)
DAY = st.integers(1, 366)


def et0(tmin_c: float, swing_c: float, *, humidity: float = 0.4, energy: float = 12.0, wind: float = 2.0) -> float:
    """ET0 of one day with the vapour given as a share of saturation."""
    tmax_c = tmin_c + swing_c
    vapour = humidity * atmosphere.mean_saturation_vapour_pressure(tmax_c, tmin_c)
    return float(
        reference_evapotranspiration(
            tmax_c, tmin_c, vapour_kpa=vapour, net_energy_mj_m2=energy, wind_2m_m_s=wind, elevation_m=100.0
        )
    )


@given(TEMPERATURE, SWING, st.floats(0.0, 25.0), st.floats(0.5, 10.0))
def test_more_sun_more_water(tmin_c: float, swing_c: float, energy: float, more: float) -> None:
    """ET0 rises with the energy that is left."""
    assert et0(tmin_c, swing_c, energy=energy + more) > et0(tmin_c, swing_c, energy=energy)


@given(TEMPERATURE, SWING, st.floats(0.05, 0.6), st.floats(0.05, 0.3))
def test_damper_air_less_water(tmin_c: float, swing_c: float, humidity: float, more: float) -> None:
    """ET0 falls as the air gets damper."""
    assert et0(tmin_c, swing_c, humidity=humidity + more) < et0(tmin_c, swing_c, humidity=humidity)


@given(st.floats(5.0, 35.0), SWING, st.floats(0.5, 8.0), st.floats(0.5, 4.0))
def test_more_wind_in_dry_air_more_water(tmin_c: float, swing_c: float, wind: float, more: float) -> None:
    """In dry air ET0 rises with wind."""
    assert et0(tmin_c, swing_c, humidity=0.1, wind=wind + more) > et0(tmin_c, swing_c, humidity=0.1, wind=wind)


@given(TEMPERATURE, SWING, st.floats(0.5, 8.0))
def test_wind_in_saturated_air_only_cools(tmin_c: float, swing_c: float, wind: float) -> None:
    """In saturated air wind draws nothing: ET0 falls with it."""
    assert et0(tmin_c, swing_c, humidity=1.0, wind=wind + 1.0) < et0(tmin_c, swing_c, humidity=1.0, wind=wind)


@given(TEMPERATURE, SWING, st.floats(0.5, 10.0))
def test_warmer_at_the_same_humidity_more_water(tmin_c: float, swing_c: float, more: float) -> None:
    """At the same relative humidity a warmer day draws more."""
    assert et0(tmin_c + more, swing_c) > et0(tmin_c, swing_c)


def test_still_air_counts_as_a_breath() -> None:
    """Below 0.5 m/s the wind counts as 0.5 m/s (FAO-56 p.63)."""
    assert et0(15.0, 10.0, wind=0.0) == et0(15.0, 10.0, wind=0.5) < et0(15.0, 10.0, wind=0.6)


def test_never_below_zero() -> None:
    """A cold damp night gives no negative water."""
    assert et0(-5.0, 2.0, humidity=1.0, energy=-5.0) == 0.0


@given(LATITUDE, DAY)
def test_sun_at_any_latitude(latitude_deg: float, day: int) -> None:
    """R_a lies in 0 to 50 MJ/m², the day in 0 to 24 h, up to the poles; R_so stays below R_a."""
    above = radiation.extraterrestrial_radiation(latitude_deg, day)
    assert 0.0 <= above < 50.0
    assert 0.0 <= radiation.day_length(latitude_deg, day) <= 24.0
    assert radiation.clear_sky_radiation(1000.0, above) <= above


@given(st.floats(0.0, 89.0), DAY)
def test_days_of_north_and_south_make_one_whole(latitude_deg: float, day: int) -> None:
    """Day lengths at mirrored latitudes add up to 24 hours."""
    both = radiation.day_length(latitude_deg, day) + radiation.day_length(-latitude_deg, day)
    assert both == pytest.approx(24.0)


@given(LATITUDE, DAY, st.floats(0.0, 30.0))
def test_sunshine_beyond_the_day_changes_nothing(latitude_deg: float, day: int, sunshine_h: float) -> None:
    """R_s from sunshine never passes 0.75 R_a nor falls below 0.25 R_a, even in the polar night."""
    above, hours = radiation.extraterrestrial_radiation(latitude_deg, day), radiation.day_length(latitude_deg, day)
    sunlight = radiation.radiation_from_sunshine(sunshine_h, hours, extraterrestrial_mj_m2=above)
    assert 0.25 * above - 1e-9 <= sunlight <= 0.75 * above + 1e-9


@given(TEMPERATURE, st.floats(0.0, 60.0), LATITUDE, DAY)
def test_radiation_from_temperatures_stays_below_clear_sky(
    tmin_c: float, swing_c: float, latitude_deg: float, day: int
) -> None:
    """Equation 50 is capped at R_so (FAO-56 p.60)."""
    above = radiation.extraterrestrial_radiation(latitude_deg, day)
    clear = radiation.clear_sky_radiation(0.0, above)
    sunlight = radiation.radiation_from_temperatures(
        tmin_c + swing_c, tmin_c, extraterrestrial_mj_m2=above, clear_sky_mj_m2=clear, coefficient=0.16
    )
    assert 0.0 <= sunlight <= clear


@given(st.floats(-66.0, 66.0), DAY)
def test_hours_add_up_to_the_day(latitude_deg: float, day: int) -> None:
    """The 24 hours of R_a (equation 28) make the day of it (equation 21)."""
    angles = np.pi / 12.0 * (np.arange(24) + 0.5 - 12.0)
    hours = hourly.extraterrestrial_radiation_of_hour(latitude_deg, day, angles)
    assert np.sum(hours) == pytest.approx(radiation.extraterrestrial_radiation(latitude_deg, day), rel=1e-9)


def test_soil_heat_forward_and_backward_agree_on_a_steady_rise() -> None:
    """On a steady rise the two month rules give the same, and a steady month none."""
    assert soil_heat_of_month(10.0, 14.0) == pytest.approx(soil_heat_of_month_so_far(10.0, 12.0))
    assert soil_heat_of_month(12.0, 12.0) == 0.0


def test_hargreaves_needs_a_swing() -> None:
    """Without a swing between day and night equation 52 gives nothing, nor in the cold."""
    assert hargreaves_evapotranspiration(20.0, 20.0, extraterrestrial_mj_m2=30.0) == 0.0
    assert hargreaves_evapotranspiration(-20.0, -30.0, extraterrestrial_mj_m2=5.0) == 0.0


def random_years(days: int = 3 * BLOCK_DAYS // 2) -> tuple[DailyRecord, Place]:
    """Days of all kinds, seeded, over more than one block."""
    rng = np.random.default_rng(20)
    tmax = rng.uniform(5.0, 38.0, days)
    tmin = tmax - rng.uniform(2.0, 18.0, days)
    vapour = rng.uniform(0.3, 0.95, days) * np.asarray(atmosphere.saturation_vapour_pressure(tmin))
    day_of_year = np.arange(days) % 365 + 1
    clear = radiation.clear_sky_radiation(300.0, radiation.extraterrestrial_radiation(47.0, day_of_year.astype(float)))
    sunlight = clear * rng.uniform(0.35, 1.0, days)  # within 0.3 to 1, where the ASCE clip does nothing
    record = DailyRecord(
        day_of_year,
        tmax,
        tmin,
        vapour_kpa=vapour,
        radiation_mj_m2=np.asarray(sunlight),
        wind_m_s=rng.uniform(1.0, 8.0, days),
    )
    return record, Place(47.0, 300.0, wind_height_m=10.0)


def test_agrees_with_refet() -> None:
    """The ASCE standardized equation of refet differs by its rounded constants only: under 0.02 mm on any day."""
    record, place = random_years()
    other = refet.Daily(
        tmin=record.tmin_c,
        tmax=record.tmax_c,
        ea=record.vapour_kpa,
        rs=record.radiation_mj_m2,
        uz=record.wind_m_s,
        zw=10.0,
        elev=300.0,
        lat=47.0,
        doy=record.day_of_year,
        method="asce",
        input_units={"lat": "deg"},
    ).eto()
    assert np.abs(reference_et_of_days(record, place).et0_mm - other).max() < 0.02


def test_agrees_with_pyet() -> None:
    """FAO-56 as pyet has it, on a year of days, agrees within 0.01 mm."""
    record, place = random_years(365)
    index = pd.date_range("2019-01-01", periods=365)  # not a leap year, so that its day of the year is ours
    worked = reference_et_of_days(record, place)
    other = pyet.pm_fao56(
        pd.Series((record.tmax_c + record.tmin_c) / 2, index),
        pd.Series(worked.wind_2m_m_s, index),
        rs=pd.Series(worked.radiation_mj_m2, index),
        tmax=pd.Series(record.tmax_c, index),
        tmin=pd.Series(record.tmin_c, index),
        ea=pd.Series(worked.vapour_kpa, index),
        elevation=300.0,
        lat=np.radians(47.0),
    )
    assert np.abs(worked.et0_mm - other.to_numpy()).max() < 0.01


def test_shape_is_kept_and_blocks_do_not_show() -> None:
    """Years × days give the same numbers as one long row, whatever the block."""
    record, place = random_years(365 * 40)
    long = reference_et_of_days(record, place)
    squared = {name: np.reshape(values, (40, 365)) for name, values in record.known().items()}
    table = reference_et_of_days(DailyRecord(**squared), place)  # type: ignore[arg-type]
    assert table.et0_mm.shape == (40, 365)
    assert np.array_equal(table.et0_mm.ravel(), long.et0_mm)
    assert table.fills == long.fills


@pytest.mark.parametrize("latitude_deg", [-90.0, -80.0, 80.0, 90.0])
def test_polar_year_is_finite(latitude_deg: float) -> None:
    """A year beyond the polar circles gives finite, non-negative water, from temperatures alone."""
    days = np.arange(1, 366)
    record = DailyRecord(days, np.full(365, -2.0), np.full(365, -9.0))
    worked = reference_et_of_days(record, Place(latitude_deg))
    assert np.all(np.isfinite(worked.et0_mm) & (worked.et0_mm >= 0.0))


def test_empty_record() -> None:
    """No days give no days."""
    nothing = np.zeros(0)
    worked = reference_et_of_days(DailyRecord(np.zeros(0, dtype=int), nothing, nothing), Place(45.0))
    assert worked.et0_mm.size == 0


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (lambda: Place(95.0), "latitude 95.0°"),
        (lambda: Place(45.0, 12000.0), "elevation 12000.0 m"),
        (lambda: Place(45.0, wind_height_m=0.0), "wind height 0.0 m"),
    ],
)
def test_impossible_places(wrong: "type[Place]", said: str) -> None:
    """A place that cannot be says so."""
    record, _ = random_years(10)
    with pytest.raises(ValueError, match=said):
        reference_et_of_days(record, wrong())  # type: ignore[call-arg]


def test_impossible_days() -> None:
    """Days of the year outside 1 to 366 and arrays of other lengths are refused."""
    two = np.zeros(2)
    with pytest.raises(ValueError, match="day_of_year"):
        DailyRecord(np.array([0, 1]), two, two)
    with pytest.raises(ValueError, match="wind_m_s"):
        DailyRecord(np.array([1, 2]), two, two, wind_m_s=np.zeros(3))
