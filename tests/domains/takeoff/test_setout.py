"""Set-out, levels and the way in for the tube: laws."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from brimful.domains.takeoff.levels import Datum, packing, pad_levels, steady_fall
from brimful.domains.takeoff.pads import Brick, Pad, brick_count, layer_m3, sleeve_bore_m, trench_m3
from brimful.domains.takeoff.setout import Obstacle, even_counts, footprint_m, out_from_fence_m, set_out
from brimful.domains.takeoff.tube_way import Under, height_for_tube_m, tube_into_container_m, tube_way

GROUND = st.lists(st.floats(-2, 2), min_size=2, max_size=30)


@st.composite
def obstacles(draw: st.DrawFn) -> list[Obstacle]:
    """Up to three stretches on a line of 40 m."""
    starts = draw(st.lists(st.floats(0, 39), max_size=3))
    return [Obstacle(f"o{i}", start, start + draw(st.floats(0, 3))) for i, start in enumerate(starts)]


@given(st.integers(1, 20), st.floats(0.3, 1.2), obstacles(), st.floats(0, 0.3))
@example(2, 1.0, [Obstacle("a hair at the mark", 0.0, 6e-8)], 0.0)
def test_every_container_stands_clear(count: int, along: float, kept: list[Obstacle], gap: float) -> None:
    """Containers stay between the marks, clear of obstacles and of one another, in order; a full line is refused."""
    try:
        out = set_out(count, 40, along, obstacles=kept, gap_m=gap, out_m=1)
    except ValueError:
        assert count * (along + gap) + sum(o.to_m - o.from_m + 2 * along + gap for o in kept) > 25
        return
    tiny = 1e-6
    for station in out.stations:
        assert -tiny <= station.near_edge_m <= station.far_edge_m <= 40 + tiny
        assert all(station.far_edge_m <= o.from_m + tiny or station.near_edge_m >= o.to_m - tiny for o in kept)
        assert station.diagonal_m**2 == pytest.approx(station.middle_m**2 + 1)
    assert all(b.near_edge_m - a.far_edge_m >= gap - tiny for a, b in pairwise(out.stations))
    assert out.even == (count in even_counts(40, along, kept, gap_m=gap, most=20))


@given(st.integers(2, 30), st.floats(0.3, 1.2))
def test_a_clear_line_is_even_from_mark_to_mark(count: int, along: float) -> None:
    """Without obstacles all gaps are equal and the end containers touch the marks."""
    out = set_out(count, 40, along, out_m=0)
    gaps = [b.middle_m - a.middle_m for a, b in pairwise(out.stations)]
    assert gaps == pytest.approx([out.pitch_m] * (count - 1))
    assert out.even
    assert (out.stations[0].near_edge_m, out.stations[-1].far_edge_m) == pytest.approx((0, 40))


def test_only_the_container_at_the_tap_moves() -> None:
    """A tap under the middle one of five moves it by the least, and no other."""
    out = set_out(5, 10, 1, obstacles=[Obstacle("tap", 4.9, 5.2)], out_m=1)
    moves = [station.moved_m for station in out.stations]
    assert moves == pytest.approx([0, 0, -0.6, 0, 0], abs=1e-6)
    assert out.largest_move_m == pytest.approx(0.6, abs=1e-6)
    assert out.narrowest_gap_m == pytest.approx(out.pitch_m - 1 - 0.6, abs=1e-6)
    assert 5 not in even_counts(10, 1, [Obstacle("tap", 4.9, 5.2)], gap_m=0, most=9)


def test_one_container_stands_in_the_middle() -> None:
    """A single container has no pitch and stands midway."""
    out = set_out(1, 10, 1, out_m=0)
    assert (out.stations[0].middle_m, out.pitch_m, out.narrowest_gap_m) == (5, 0, 0)


@given(st.floats(0.2, 2), st.floats(0.2, 2), st.floats(-180, 180))
def test_turning_never_shrinks_below_the_short_side(width: float, depth: float, turn: float) -> None:
    """A turned container takes at least its short side and at most its diagonal, and a quarter turn swaps the sides."""
    along, across = footprint_m(width, depth, turn)
    assert min(width, depth) - 1e-9 <= along <= (width**2 + depth**2) ** 0.5 + 1e-9
    assert footprint_m(width, depth, turn + 90) == pytest.approx((across, along))


def test_room_behind_adds_up() -> None:
    """Half the container, the plants' overhang and the mower's passage add up (1.1 m)."""
    assert out_from_fence_m(0.8, overhang_m=0.2, passage_m=0.5) == pytest.approx(1.1)


@given(GROUND, st.floats(-0.05, 0.05), st.floats(0, 0.3), st.sampled_from(Datum))
def test_tops_lie_on_one_fall_and_the_layers_fit(ground: list[float], fall: float, layers: float, datum: Datum) -> None:
    """Every top is on the one fall, and ground − cut + fill + layers is the top of every pad."""
    along = [float(i) for i in range(len(ground))]
    levels = pad_levels(ground, along, build_up_m=layers, fall=fall, datum=datum)
    assert [b.top_m - a.top_m for a, b in pairwise(levels)] == pytest.approx([fall] * (len(ground) - 1))
    for level in levels:
        assert level.ground_m - level.cut_m + level.fill_m + layers == pytest.approx(level.top_m)
        assert min(level.cut_m, level.fill_m) == 0
        assert datum is not Datum.HIGHEST or level.rise_m >= -1e-9
        assert datum is not Datum.LOWEST or level.rise_m <= 1e-9


@given(GROUND, st.floats(0, 0.3))
def test_a_reveal_of_the_layers_balances_the_earth(ground: list[float], layers: float) -> None:
    """With tops proud of the mean ground by the layers, as much earth is cut as filled."""
    levels = pad_levels(ground, [0.0] * len(ground), build_up_m=layers, reveal_m=layers)
    assert sum(level.cut_m for level in levels) == pytest.approx(sum(level.fill_m for level in levels))


@given(st.floats(-0.1, 0.1), st.floats(-2, 2), st.integers(2, 20))
def test_ground_on_one_fall_is_found(fall: float, start: float, count: int) -> None:
    """Ground that lies on one fall gives that fall, and then no pad needs earth but for its layers."""
    along = [1.5 * i for i in range(count)]
    ground = [start + fall * x for x in along]
    assert steady_fall(ground, along) == pytest.approx(fall, abs=1e-9)
    levels = pad_levels(ground, along, build_up_m=0.18, fall=fall)
    assert [level.cut_m for level in levels] == pytest.approx([0.18] * count)


@given(st.floats(0, 1), st.floats(0.03, 0.1), st.floats(0.002, 0.02))
def test_packing_is_right_to_half_a_shim(rise: float, brick: float, shim: float) -> None:
    """Bricks and shims make the rise to within half a shim, and bricks alone never pass it."""
    packed = packing(rise, brick_m=brick, shim_m=shim)
    made = packed.bricks * brick + packed.shims * shim
    assert abs(made - rise) <= shim / 2 + 1e-8
    assert packed.error_m == pytest.approx(made - rise, abs=1e-8)
    assert packed.bricks * brick <= rise + 1e-8


@given(st.floats(0.004, 0.04), st.sampled_from([Under.FEET, Under.CHANNEL]))
def test_the_least_height_is_just_clear(tube: float, under: Under) -> None:
    """At the least height the tube passes, a millimetre lower a tube of that size on a channel does not."""
    height = height_for_tube_m(tube, under)
    assert tube_way(tube, under=under, height_m=height + 1e-9, hole_m=0.1).clear
    lower = tube_way(tube, under=Under.CHANNEL, height_m=tube + 0.002, hole_m=0.1)
    assert not lower.clear


def test_a_container_flat_on_its_pad_crushes_the_tube() -> None:
    """Without feet or channel there is no room, whatever height is given, and two tubes need a wider hole."""
    assert not tube_way(0.016, under=Under.NOTHING, height_m=0.05, hole_m=0.05).clear
    assert tube_way(0.016, under=Under.FEET, height_m=0.025, hole_m=0.025).clear
    assert not tube_way(0.016, under=Under.FEET, height_m=0.025, hole_m=0.025, tubes=2).clear


def test_tube_in_has_way_height_and_slack() -> None:
    """0.5 m to the hole, 0.6 m up and 0.3 m of slack make 1.4 m."""
    assert tube_into_container_m(0.5, 0.6) == pytest.approx(1.4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: set_out(0, 10, 1, out_m=0),
        lambda: set_out(11, 10, 1, out_m=0),
        lambda: set_out(2, 10, 1, obstacles=[Obstacle("gate", 5, 4)], out_m=0),
        lambda: out_from_fence_m(1, overhang_m=-1, passage_m=0),
        lambda: pad_levels([], [], build_up_m=0.1),
        lambda: pad_levels([1.0], [1.0, 2.0], build_up_m=0.1),
        lambda: packing(-1, brick_m=0.06, shim_m=0.005),
        lambda: tube_way(0, under=Under.FEET, height_m=0, hole_m=0),
        lambda: height_for_tube_m(0.01, Under.NOTHING),
        lambda: tube_into_container_m(-1, 0),
        lambda: Brick(0, 1, 1),
        lambda: Pad(0, 1),
        lambda: brick_count(-1, Brick(0.2, 0.1, 0.06)),
        lambda: trench_m3(1, 1, 1, swell=0.9),
        lambda: sleeve_bore_m(0),
        lambda: layer_m3(-1, 1),
    ],
)
def test_what_cannot_be_set_out_is_refused(call: Callable[[], object]) -> None:
    """Sizes that cannot be are refused with a ValueError."""
    with pytest.raises(ValueError, match="expected"):
        call()


def test_a_fall_needs_two_places() -> None:
    """One place has no fall."""
    with pytest.raises(ValueError, match="at least two"):
        steady_fall([1.0, 2.0], [3.0, 3.0])
