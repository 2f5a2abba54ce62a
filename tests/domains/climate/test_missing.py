"""Missing-data rules: the best that each day allows, and which it was."""

import numpy as np
import pytest

from brimful.domains.climate import atmosphere
from brimful.domains.climate.daily import ReferenceEt, reference_et_of_days
from brimful.domains.climate.record import DailyRecord, Fill, Place

DAYS = np.array([180, 181, 182, 183])
TMAX, TMIN = np.array([28.0, 30.0, 26.0, 31.0]), np.array([14.0, 16.0, 15.0, 17.0])
NAN = np.nan


def worked(place: Place | None = None, **known: list[float]) -> ReferenceEt:
    """Four summer days with these parts known."""
    arrays = {name: np.array(values) for name, values in known.items()}
    return reference_et_of_days(DailyRecord(DAYS, TMAX, TMIN, **arrays), place or Place(45.0))


def rules(result: ReferenceEt, variable: str) -> dict[str, int]:
    """How many days each rule gave this variable."""
    return {fill.rule: fill.days_count for fill in result.fills if fill.variable == variable}


def test_each_day_takes_the_best_rule_it_allows() -> None:
    """Dew point before both humidities before the highest before the mean, day by day."""
    result = worked(
        dew_c=[12.0, NAN, NAN, NAN],
        rh_max_pct=[90.0, 90.0, 90.0, NAN],
        rh_min_pct=[40.0, 40.0, NAN, NAN],
        rh_mean_pct=[60.0, 60.0, 60.0, 60.0],
    )
    assert list(rules(result, "vapour pressure")) == [
        "dew point (FAO-56 eq. 14)",
        "highest and lowest humidity (FAO-56 eq. 17)",
        "highest humidity (FAO-56 eq. 18)",
        "mean humidity (FAO-56 eq. 19)",
    ]
    assert set(rules(result, "vapour pressure").values()) == {1}
    assert result.vapour_kpa[0] == pytest.approx(atmosphere.saturation_vapour_pressure(12.0))
    assert result.vapour_kpa[2] == pytest.approx(0.9 * atmosphere.saturation_vapour_pressure(15.0))


def test_nothing_known_but_temperature() -> None:
    """Night cools to the dew point, 2 m/s of wind, radiation from the swing; and all of it is told as estimated."""
    result = worked()
    assert result.vapour_kpa == pytest.approx(atmosphere.saturation_vapour_pressure(TMIN))
    assert result.wind_2m_m_s == pytest.approx(2.0)
    assert [(fill.variable, fill.days_count, fill.measured) for fill in result.fills] == [
        ("radiation", 4, False),
        ("vapour pressure", 4, False),
        ("wind", 4, False),
    ]


def test_coast_has_more_sun_for_the_same_swing() -> None:
    """k is 0.19 by the coast and 0.16 inland (FAO-56 p.60), and the rule says which."""
    inland, coast = worked(), worked(Place(45.0, coastal=True))
    assert coast.radiation_mj_m2 / inland.radiation_mj_m2 == pytest.approx(0.19 / 0.16)
    assert "0.19 by the coast" in next(iter(rules(coast, "radiation")))


def test_arid_place_is_drier() -> None:
    """At an arid place the dew point is taken 2 °C below Tmin, so more water is drawn (FAO-56 p.58)."""
    humid, arid = worked(), worked(Place(45.0, dew_below_tmin_c=2.0))
    assert np.all(arid.et0_mm > humid.et0_mm)
    assert "Tmin − 2 °C" in next(iter(rules(arid, "vapour pressure")))


def test_sunshine_stands_in_for_radiation() -> None:
    """Radiation is measured on one day, from sunshine on two, from the swing on the last."""
    result = worked(radiation_mj_m2=[20.0, NAN, NAN, NAN], sunshine_h=[9.0, 9.0, 0.0, NAN])
    assert list(rules(result, "radiation").values()) == [1, 2, 1]
    assert result.radiation_mj_m2[0] == 20.0
    assert result.radiation_mj_m2[2] == pytest.approx(0.25 * result.extraterrestrial_mj_m2[2])


def test_wind_is_brought_down_only_where_it_is_measured() -> None:
    """Wind at 10 m counts 0.748 of itself; the default of 2 m/s is already at 2 m."""
    result = worked(Place(45.0, wind_height_m=10.0), wind_m_s=[4.0, NAN, 0.0, 2.0])
    assert result.wind_2m_m_s == pytest.approx([2.992, 2.0, 0.0, 1.496], abs=0.001)
    assert rules(result, "wind") == {"measured at 10 m (FAO-56 eq. 47)": 3, "2 m/s taken (FAO-56 p.63)": 1}


def test_everything_measured_is_told_as_measured() -> None:
    """A whole record has one measured rule for each variable."""
    result = worked(vapour_kpa=[1.2] * 4, radiation_mj_m2=[22.0] * 4, wind_m_s=[2.0] * 4)
    assert result.fills == (
        Fill("radiation", "measured", 4, True),
        Fill("vapour pressure", "measured", 4, True),
        Fill("wind", "measured", 4, True),
    )


def test_unknown_temperature_gives_no_number() -> None:
    """A day without a temperature has no ET0, and spoils no other day."""
    record = DailyRecord(DAYS, np.array([28.0, NAN, 26.0, 31.0]), TMIN)
    assert list(np.isnan(reference_et_of_days(record, Place(45.0)).et0_mm)) == [False, True, False, False]
