"""Laws of the sun's path."""

import math
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.climate.sky import (
    air_mass,
    daily_diffuse_share,
    distance_factor,
    erbs_diffuse_share,
    haurwitz_w_m2,
    radiation_at_container,
    split_light,
)
from brimful.domains.climate.sun import (
    SunPlace,
    SunPosition,
    apparent_elevation_deg,
    days_since_2000,
    refraction_deg,
    sun_events,
    sun_grid,
    sun_position,
)

DAYS_2024 = np.arange(366) + days_since_2000(date(2024, 1, 1))


def apart_deg(one: SunPosition, elevation_deg: np.ndarray, azimuth_deg: np.ndarray) -> np.ndarray:
    """Angle between two directions."""

    def direction(elevation: np.ndarray, azimuth: np.ndarray) -> np.ndarray:
        flat = np.cos(np.radians(elevation))
        parts = flat * np.sin(np.radians(azimuth)), flat * np.cos(np.radians(azimuth)), np.sin(np.radians(elevation))
        return np.stack(parts)

    ours = direction(one.elevation_deg.ravel(), one.azimuth_deg.ravel())
    chord = np.linalg.norm(ours - direction(elevation_deg.ravel(), azimuth_deg.ravel()), axis=0)
    return np.degrees(2.0 * np.arcsin(chord / 2.0))


@given(latitude=st.floats(-90, 90), longitude=st.floats(-180, 180), step=st.sampled_from([1, 10, 30, 60]))
def test_the_grid_is_the_position_at_mid_step(latitude: float, longitude: float, step: int) -> None:
    """Rotation gives what the direct way gives, at any place, also at the zenith and the poles."""
    place, days = SunPlace(latitude, longitude, -7.0), DAYS_2024[::61]
    share = (np.arange(1440 // step) + 0.5) * step / 1440.0
    direct = sun_position(days[:, None] + share + 7.0 / 24.0, place)
    grid = sun_grid(days, place, step)
    assert apart_deg(grid, direct.elevation_deg, direct.azimuth_deg).max() < 2e-3


@pytest.mark.parametrize("latitude", [-90.0, -43.6, 0.0, 39.7, 69.0])
def test_position_against_the_full_algorithm(latitude: float) -> None:
    """Within 0.02° of NREL SPA (Reda & Andreas 2003, by pvlib) at every hour of a year."""
    pvlib, pandas = pytest.importorskip("pvlib"), pytest.importorskip("pandas")
    times = pandas.date_range("2024-01-01 00:30", periods=366 * 24, freq="60min", tz="UTC")
    peer = pvlib.solarposition.spa_python(times, latitude, 10.0, delta_t=69.2)
    ours = sun_grid(DAYS_2024, SunPlace(latitude, 10.0), 60)
    assert apart_deg(ours, peer.elevation.to_numpy(), peer.azimuth.to_numpy()).max() < 0.02


@given(latitude=st.floats(-65, 65), longitude=st.floats(-180, 180))
def test_the_sun_stands_on_the_horizon_when_it_rises(latitude: float, longitude: float) -> None:
    """Sunrise, noon and sunset found are moments at which the position says so, the offset of the clock aside."""
    place = SunPlace(latitude, longitude, 5.0)
    days = DAYS_2024[::40]
    events = sun_events(days, place)
    for hours in (events.sunrise_h, events.sunset_h):
        there = sun_position(days + (hours - 5.0) / 24.0, place)
        assert there.elevation_deg == pytest.approx(-0.8333, abs=2e-3)
    noon = sun_position(days + (events.noon_h - 5.0) / 24.0, place)
    steep = np.cos(np.radians(noon.elevation_deg))
    assert (np.abs(np.sin(np.radians(noon.azimuth_deg))) * steep).max() < 1e-4


def test_polar_night_and_midnight_sun() -> None:
    """Beyond the circle there are days of 0 and of 24 hours, without a sunrise; nothing fails."""
    events = sun_events(DAYS_2024, SunPlace(75.0, 0.0))
    assert {0.0, 24.0} <= set(events.day_length_h)
    assert np.isnan(events.sunrise_h[events.day_length_h == 24.0]).all()
    assert np.isfinite(sun_events(DAYS_2024, SunPlace(90.0, 0.0)).day_length_h).all()


def test_both_hemispheres_mirror_each_other() -> None:
    """Longest day in June in the north and in December in the south."""
    north = sun_events(DAYS_2024, SunPlace(45.0, 0.0)).day_length_h
    south = sun_events(DAYS_2024, SunPlace(-45.0, 0.0)).day_length_h
    assert abs(int(north.argmax()) - 172) <= 2
    assert abs(int(south.argmax()) - 355) <= 2


def test_refraction_two_ways() -> None:
    """Bennett from the apparent and Sæmundsson from the geometric elevation undo each other within 0.1 arc minute."""
    geometric = np.linspace(-0.5, 89.0, 500)
    apparent = apparent_elevation_deg(geometric)
    assert (apparent - refraction_deg(apparent)) == pytest.approx(geometric, abs=0.3 / 60)
    assert refraction_deg(np.array([0.0]))[0] * 60 == pytest.approx(34.0, abs=1.0)


@given(low=st.floats(-90, 90), rise=st.floats(0, 90))
def test_a_higher_sun_gives_more_light_through_less_air(low: float, rise: float) -> None:
    """Haurwitz light grows and air mass falls with elevation."""
    high = min(low + rise, 90.0)
    assert haurwitz_w_m2(high) >= haurwitz_w_m2(low) >= 0.0
    assert air_mass(high) <= air_mass(low)
    assert air_mass(90.0) == pytest.approx(1.0, abs=1e-3)


@given(light=st.floats(0, 1300), elevation=st.floats(-20, 90), day=st.integers(1, 366))
def test_beam_and_sky_light_make_the_whole(light: float, elevation: float, day: int) -> None:
    """The split loses nothing and makes nothing negative."""
    beam, diffuse = split_light(light, elevation, distance_factor(day))
    assert beam + diffuse == pytest.approx(light)
    assert beam >= 0.0
    assert diffuse >= 0.0


@given(clearness=st.floats(0, 1), sunset=st.floats(0, 180))
def test_diffuse_share_is_a_share(clearness: float, sunset: float) -> None:
    """Between some and all, and near all under a closed cloud."""
    for share in (erbs_diffuse_share(clearness), daily_diffuse_share(clearness, sunset)):
        assert 0.1 < share <= 1.01
    assert daily_diffuse_share(0.0, sunset) == 1.0


@given(diffuse=st.floats(0, 1), lit=st.floats(0, 1), view=st.floats(0, 1))
def test_shade_never_adds_light(diffuse: float, lit: float, view: float) -> None:
    """Open ground gets it all, a hole gets none, everything else lies between."""
    got = radiation_at_container(20.0, diffuse, lit_beam_share=lit, sky_view=view)
    assert 0.0 <= got <= 20.0 + 1e-9
    assert radiation_at_container(20.0, diffuse, lit_beam_share=1.0, sky_view=1.0) == pytest.approx(20.0)


def test_places_off_the_globe_and_odd_steps_are_refused() -> None:
    """The message says what was expected."""
    with pytest.raises(ValueError, match="latitude"):
        SunPlace(91.0, 0.0)
    with pytest.raises(ValueError, match="latitude"):
        SunPlace(math.nan, 0.0)
    with pytest.raises(ValueError, match="step_minutes"):
        sun_grid(DAYS_2024, SunPlace(0.0, 0.0), 7)
