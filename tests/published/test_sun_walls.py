"""Hours of direct sun behind walls in Denver, 2024, one-minute steps: an independent calculation with NREL SPA
positions and the wall formula tan β = rise · cos(A − A_w) / distance (calculated), walls of ±50 m."""

from datetime import date

import numpy as np
import pytest

from brimful.domains.climate.horizon import Block, Obstacle, Wall, sky_view
from brimful.domains.climate.sun import SunPlace, apparent_elevation_deg, days_since_2000, sun_grid

DENVER = SunPlace(39.7392, -104.9903, -7.0)
DAYS = np.array([days_since_2000(date(2024, month, day)) for month, day in ((3, 20), (6, 20), (9, 22))])
WEST, NORTH, SOUTH = (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)


def wall(rise_m: float, distance_m: float, towards: tuple[float, float]) -> Wall:
    """A wall of ±50 m square to the given direction."""
    foot, along = np.array(towards) * distance_m, np.array([-towards[1], towards[0]]) * 50.0
    return Wall(tuple((foot - along).tolist()), tuple((foot + along).tolist()), rise_m)


def lit_hours(things: list[Obstacle]) -> np.ndarray:
    """Hours on the three days, canopy at the level the rise counts from."""
    grid = sun_grid(DAYS, DENVER, 1)
    profile = sky_view(things, np.zeros((1, 3))).edges_deg[0, :, 0]
    around = np.concatenate([profile, profile[:1]])
    horizon = np.interp(grid.azimuth_deg, np.arange(361.0), around)
    return (apparent_elevation_deg(grid.elevation_deg) > horizon).sum(axis=1) / 60.0


@pytest.mark.parametrize(
    ("things", "hours"),
    [
        ([], (12.12, 14.92, 12.07)),
        ([wall(1.8, 2.0, WEST)], (8.77, 11.07, 8.73)),
        ([wall(1.8, 2.0, NORTH)], (12.12, 11.88, 12.07)),
        ([wall(1.8, 2.0, SOUTH)], (12.12, 14.92, 12.07)),
        ([wall(1.2, 1.0, WEST)], (8.23, 10.38, 8.22)),
        ([wall(7.4, 3.0, WEST)], (7.22, 9.03, 7.20)),
        ([wall(7.4, 3.0, SOUTH)], (0.88, 14.92, 0.77)),
    ],
    ids=["open", "wall west", "wall north", "wall south", "fence west", "building west", "building south"],
)
def test_hours_behind_walls(things: list[Obstacle], hours: tuple[float, ...]) -> None:
    """20 Mar, 20 Jun, 22 Sep, ± 0.05 h."""
    assert lit_hours(things) == pytest.approx(hours, abs=0.05)


def test_a_building_is_as_dark_as_its_front() -> None:
    """A box of 7.4 m behind the same front gives the same hours."""
    box = Block(((-3.0, -50.0), (-3.0, 50.0), (-20.0, 50.0), (-20.0, -50.0)), 7.4)
    assert lit_hours([box]) == pytest.approx((7.22, 9.03, 7.20), abs=0.05)
