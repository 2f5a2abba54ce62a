"""Reda & Andreas 2003, Solar position algorithm, NREL/TP-560-34302; Haurwitz 1945, J. Meteorology 2:154;
Erbs, Klein & Duffie 1982, Solar Energy 28:293. Clock times of sunrise and sunset from NREL SPA run by an independent
library, 2024."""

from datetime import date

import numpy as np
import pytest

from brimful.domains.climate.sky import distance_factor, erbs_diffuse_share, haurwitz_w_m2, split_light
from brimful.domains.climate.sun import (
    SunPlace,
    apparent_elevation_deg,
    days_since_2000,
    equation_of_time_min,
    sun_events,
    sun_position,
)

SPA_MOMENT = np.array([days_since_2000(date(2003, 10, 17)) + (12.0 + 30.0 / 60.0 + 30.0 / 3600.0 + 7.0) / 24.0])
SPA_PLACE = SunPlace(39.742476, -105.1786)


def test_the_worked_example_of_spa() -> None:
    """17 Oct 2003 near Golden: zenith 50.11162°, azimuth 194.34024° (memory, equal to a library run), within 0.02°."""
    sun = sun_position(SPA_MOMENT, SPA_PLACE)
    assert sun.azimuth_deg[0] == pytest.approx(194.34024, abs=0.02)
    assert 90.0 - sun.elevation_deg[0] == pytest.approx(50.127954, abs=0.005)
    apparent = apparent_elevation_deg(sun.elevation_deg, 82.0, 11.0)
    assert 90.0 - apparent[0] == pytest.approx(50.11162, abs=0.005)


def test_sundial_against_clock_in_the_same_example() -> None:
    """Equation of time 14.6415 min (library run), within two seconds."""
    assert equation_of_time_min(SPA_MOMENT)[0] == pytest.approx(14.6415, abs=2.0 / 60.0)


@pytest.mark.parametrize(
    ("place", "rise", "length_h", "noon_elevation"),
    [
        (
            SunPlace(39.7392, -104.9903, -6.0),
            ("07:02:22", "05:32:04", "08:17:45"),
            (None, 14.985, 9.355),
            (50.52, 73.70, 26.82),
        ),
        (
            SunPlace(47.6062, -122.3321, -7.0),
            ("07:10:51", "05:11:27", "08:55:01"),
            (None, 15.984, 8.417),
            (42.68, 65.83, 18.95),
        ),
        (
            SunPlace(51.5074, -0.1278, 0.0),
            ("06:02:17", "03:42:58", "08:03:58"),
            (12.201, 16.642, 7.828),
            (38.64, 61.93, 15.05),
        ),
    ],
    ids=["Denver", "Seattle", "London"],
)
def test_sunrise_day_length_and_noon(
    place: SunPlace, rise: tuple[str, ...], length_h: tuple[float | None, ...], noon_elevation: tuple[float, ...]
) -> None:
    """20 Mar, 20 Jun, 21 Dec 2024: within ten seconds, one minute of day length, 0.01° of noon elevation."""
    days = np.array([days_since_2000(date(2024, month, day)) for month, day in ((3, 20), (6, 20), (12, 21))])
    events = sun_events(days, place)
    expected = [int(text[:2]) + int(text[3:5]) / 60 + int(text[6:]) / 3600 for text in rise]
    assert events.sunrise_h == pytest.approx(expected, abs=10 / 3600)
    for ours, printed in zip(events.day_length_h, length_h, strict=True):
        assert printed is None or ours == pytest.approx(printed, abs=1 / 60)
    noon = sun_position(days + (events.noon_h - place.utc_offset_h) / 24.0, place)
    assert noon.elevation_deg == pytest.approx(noon_elevation, abs=0.011)


def test_sunrise_through_the_year_against_spa() -> None:
    """A fourth city, Wellington, weekly in 2024: NREL SPA has the sun at −0.833° at our times, ±0.01°."""
    pvlib, pandas = pytest.importorskip("pvlib"), pytest.importorskip("pandas")
    place = SunPlace(-41.2866, 174.7756, 12.0)
    days = np.arange(52) * 7 + days_since_2000(date(2024, 1, 1))
    events = sun_events(days, place)
    for hours, rising in ((events.sunrise_h, True), (events.sunset_h, False)):
        moments = days + (hours - place.utc_offset_h) / 24.0
        times = pandas.to_datetime(moments, unit="D", origin="2000-01-01", utc=True)
        peer = pvlib.solarposition.spa_python(times, place.latitude_deg, place.longitude_deg, delta_t=69.2)
        assert peer.elevation.to_numpy() == pytest.approx(-0.8333, abs=0.01)
        assert ((peer.azimuth.to_numpy() < 180.0) == rising).all()


def test_haurwitz_by_zenith_angle() -> None:
    """Zenith 0, 30, 60, 80°: 1035.09, 888.27, 487.89, 135.74 W/m² (form from memory, equal to a library)."""
    ours = haurwitz_w_m2(90.0 - np.array([0.0, 30.0, 60.0, 80.0]))
    assert ours == pytest.approx([1035.09, 888.27, 487.89, 135.74], abs=0.005)


def test_haurwitz_over_days_in_denver() -> None:
    """20.86, 31.66 and 8.85 MJ/m² on 20 Mar, 20 Jun, 21 Dec (library run)."""
    days = np.array([days_since_2000(date(2024, month, day)) for month, day in ((3, 20), (6, 20), (12, 21))])
    minutes = (np.arange(1440) + 0.5) / 1440.0 + 7.0 / 24.0
    sun = sun_position(days[:, None] + minutes, SunPlace(39.7392, -104.9903))
    energy = haurwitz_w_m2(apparent_elevation_deg(sun.elevation_deg)).sum(axis=1) * 60e-6
    assert energy == pytest.approx([20.86, 31.66, 8.85], abs=0.02)


@pytest.mark.parametrize(
    ("light", "zenith", "clearness", "diffuse", "normal"),
    [(800.0, 30.0, 0.6990, 196.48, 696.89), (400.0, 60.0, 0.6053, 171.11, 457.77)],
)
def test_erbs_split(light: float, zenith: float, clearness: float, diffuse: float, normal: float) -> None:
    """Day 172 (library run): clearness, sky light and light on a plane facing the sun; solar constant 1366.1 there."""
    constant = 1366.1
    cos_zenith = np.cos(np.radians(zenith))
    kt = light / (constant * distance_factor(172) * cos_zenith)
    assert kt == pytest.approx(clearness, abs=5e-5)
    assert erbs_diffuse_share(kt) * light == pytest.approx(diffuse, abs=0.05)
    beam, sky = split_light(light, 90.0 - zenith, distance_factor(172), constant)
    assert sky == pytest.approx(diffuse, abs=0.05)
    assert beam / cos_zenith == pytest.approx(normal, abs=0.05)
