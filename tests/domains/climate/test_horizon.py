"""Laws of horizon, sky view and hours of sun."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.climate.horizon import Block, Crown, Obstacle, SkyView, Wall, horizon_deg, sky_view
from brimful.domains.climate.shade import DirectSun, LightClass, direct_sun, light_class, season_hours, sun_path
from brimful.domains.climate.sun import SunPlace

HERE = np.array([[0.0, 0.0, 0.6]])
DENVER = SunPlace(39.7392, -104.9903, -7.0)
PATH = sun_path(DENVER, 2024)

far = st.floats(-8.0, 8.0)
point = st.tuples(far, far)
wall = st.builds(Wall, point, point, st.floats(0.1, 9.0), st.sampled_from([0.0, 0.3, 1.0]))
crown = st.builds(
    Crown, point, st.floats(0.3, 4.0), st.floats(0.0, 3.0), st.floats(3.5, 9.0), st.sampled_from([0.0, 0.4])
)
obstacles = st.lists(wall | crown, max_size=4)


def seen(*things: Obstacle) -> tuple[SkyView, DirectSun]:
    """View and hours at one container."""
    view = sky_view(things, HERE)
    return view, direct_sun(PATH, view)


def long_wall(rise_m: float, distance_m: float) -> Wall:
    """A wall that ends beyond sight, to the north."""
    return Wall((-1e5, distance_m), (1e5, distance_m), HERE[0, 2] + rise_m)


@settings(max_examples=60)
@given(first=obstacles, more=obstacles)
def test_more_shade_never_raises_sun(first: list[Obstacle], more: list[Obstacle]) -> None:
    """Whatever is added, sky, hours and beam at a container do not grow, and stay between none and all."""
    before_view, before = seen(*first)
    after_view, after = seen(*first, *more)
    assert (after_view.sky_view + 1e-9 >= 0.0).all()
    assert (after_view.sky_view <= before_view.sky_view + 1e-9).all()
    assert (before_view.sky_view <= 1.0 + 1e-9).all()
    assert (after.hours <= before.hours + 1e-9).all()
    assert (after.lit_beam_share <= before.lit_beam_share + 1e-9).all()
    assert (after.hours >= -1e-9).all()


@settings(max_examples=40)
@given(things=obstacles)
def test_order_does_not_matter(things: list[Obstacle]) -> None:
    """Obstacles named in another order shade alike."""
    there, back = seen(*things)[0].sky_view, seen(*reversed(things))[0].sky_view
    assert there == pytest.approx(back)


@pytest.mark.parametrize(("rise_m", "distance_m"), [(1.8, 2.0), (7.4, 3.0), (0.5, 10.0), (30.0, 1.0)])
def test_sky_view_behind_one_long_wall(rise_m: float, distance_m: float) -> None:
    """Closed form (1 + cos β) / 2."""
    beta = math.atan(rise_m / distance_m)
    assert seen(long_wall(rise_m, distance_m))[0].sky_view[0] == pytest.approx((1 + math.cos(beta)) / 2, abs=2e-3)


def test_horizon_of_a_long_wall_by_azimuth() -> None:
    """Rise 1.8 m at 2 m: 41.987, 32.473, 8.883° at 0, 45, 80° from the square line (ray cast, calculated)."""
    profile = horizon_deg([long_wall(1.8, 2.0)], HERE)[0]
    assert profile[[0, 45, 80]] == pytest.approx([41.987, 32.473, 8.883], abs=5e-4)
    assert profile[[280, 315]] == pytest.approx([8.883, 32.473], abs=5e-4)
    assert profile[91:270].max() == 0.0


def test_a_wall_ends_where_it_ends() -> None:
    """A wall from due north to north-east hides azimuths 0–45° and nothing else."""
    profile = horizon_deg([Wall((0.0, 2.0), (2.0, 2.0), 5.0)], HERE)[0]
    assert (profile[0:46] > 0.0).all()
    assert profile[46:].max() == 0.0


def test_a_box_is_its_nearest_faces() -> None:
    """A building shades as its walls do, and its back wall adds nothing."""
    corners = ((-3.0, 2.0), (3.0, 2.0), (3.0, 7.0), (-3.0, 7.0))
    faces = [Wall(a, b, 4.0) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    box = horizon_deg([Block(corners, 4.0)], HERE)
    assert box == pytest.approx(horizon_deg(faces, HERE))
    assert box[0, 0] == pytest.approx(math.degrees(math.atan2(3.4, 2.0)))


def test_a_horizon_that_hides_everything() -> None:
    """Inside a building there is no sun, no sky and no error."""
    view, sun = seen(Block(((-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)), 4.0))
    assert view.sky_view[0] == pytest.approx(0.0, abs=1e-12)
    assert sun.hours.max() == pytest.approx(0.0, abs=1e-9)
    assert sun.lit_beam_share.max() == pytest.approx(0.0, abs=1e-9)


def test_what_is_lower_than_the_canopy_hides_nothing() -> None:
    """A kerb below the receptor is no horizon."""
    assert horizon_deg([Wall((-9.0, 1.0), (9.0, 1.0), 0.5)], HERE).max() == 0.0


def test_a_round_crown_covers_its_own_angle() -> None:
    """A sphere of radius 1 m seen at 5 m covers asin(1/5) to each side, up and down."""
    view, _ = seen(Crown((0.0, 4.0), 1.0, 2.6, 4.6, 0.3))
    half = math.degrees(math.asin(1.0 / 5.0))
    aim = math.degrees(math.atan2(3.0, 4.0))
    covered = view.edges_deg[0, 0]
    assert covered[1:] == pytest.approx([aim - half, aim + half])
    assert view.passing[0, 0] == pytest.approx([1.0, 0.3, 1.0])
    assert view.sky_view[0] < 1.0


def test_under_a_crown_the_zenith_is_covered() -> None:
    """A container below a tree sees light only low on the sides; crowns behind each other multiply."""
    shade = Crown((0.0, 0.0), 4.0, 3.0, 8.0, 0.2)
    view, sun = seen(shade)
    assert view.passing[0, :, 1] == pytest.approx(np.full(360, 0.2))
    twice = seen(shade, shade)[0]
    assert twice.passing[0, :, 2] == pytest.approx(np.full(360, 0.04))
    assert sun.hours[0, 5] < 14.0


@pytest.mark.parametrize("latitude", [-90.0, -70.0, 0.0, 80.0, 90.0])
def test_polar_and_equatorial_years(latitude: float) -> None:
    """Months without sun have zero hours, months of midnight sun up to 24; the share stays a share."""
    sun = direct_sun(sun_path(SunPlace(latitude, 0.0), 2023, 30), sky_view([], HERE))
    assert sun.hours.min() >= 0.0
    assert sun.hours.max() <= 24.0 + 1e-9
    assert sun.lit_beam_share == pytest.approx(np.ones((1, 12)))
    assert sun.hours.sum() / 12 == pytest.approx(12.2, abs=0.6)


def test_counting_equals_asking_every_moment() -> None:
    """Hours from the sorted counts equal a test of every ten minutes of the year against the horizon."""
    from datetime import date

    from brimful.domains.climate.sun import apparent_elevation_deg, days_since_2000, sun_grid

    things = [long_wall(1.8, 2.0), Wall((3.0, -4.0), (-2.0, -3.0), 4.0)]
    profile = horizon_deg(things, HERE)[0]
    june = np.arange(30) + days_since_2000(date(2024, 6, 1))
    grid = sun_grid(june, DENVER, 10)
    elevation = apparent_elevation_deg(grid.elevation_deg)
    lit = elevation > profile[np.rint(grid.azimuth_deg).astype(int) % 360]
    assert seen(*things)[1].hours[0, 5] == pytest.approx(lit.sum() / 6.0 / 30.0)


def test_light_classes_and_seasons() -> None:
    """Hours become the words of the trade; a southern season runs over the new year."""
    assert [light_class(hours).value for hours in (9, 6, 5.9, 4, 3, 2, 1)] == [
        "full sun", "full sun", "part sun", "part sun", "part shade", "part shade", "full shade",
    ]  # fmt: skip
    assert light_class(5.0, (5.0, 3.0, 1.0)) is LightClass.FULL_SUN
    hours = np.arange(12.0)[None, :]
    sun = DirectSun(hours, hours, hours)
    assert season_hours(sun)[0] == 6.0
    assert season_hours(sun, 11, 3)[0] == pytest.approx((10 + 11 + 0 + 1 + 2) / 5)


def test_shapes_that_cannot_stand_are_refused() -> None:
    """Sizes must be positive, a share a share, receptors numbers."""
    for bad in (Wall((0, 0), (1, 1), -1.0), Block(((0, 0), (1, 1)), 2.0), Crown((0, 0), 1.0, 3.0, 2.0)):
        with pytest.raises(ValueError, match="cannot stand"):
            sky_view([bad], HERE)
    with pytest.raises(ValueError, match="cannot stand"):
        sky_view([Wall((0, 0), (1, 1), 1.0, 1.5)], HERE)
    with pytest.raises(ValueError, match="receptors_m"):
        sky_view([], np.array([[0.0, math.nan, 1.0]]))
    with pytest.raises(ValueError, match="months"):
        season_hours(DirectSun(np.zeros((1, 12)), np.zeros((1, 12)), np.zeros((1, 12))), 0, 3)
    with pytest.raises(ValueError, match="breaks_h"):
        light_class(3.0, (1.0, 2.0, 3.0))
