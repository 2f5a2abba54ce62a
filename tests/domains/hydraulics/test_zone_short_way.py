"""The short way through a zone: equal to the full solution, whatever the assembly and however dry."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.domains.hydraulics.zones import dripped, looped, rows

from brimful.domains.hydraulics.assembly import Assembly
from brimful.domains.hydraulics.solve import solve
from brimful.domains.hydraulics.zone import Zone
from brimful.domains.hydraulics.zone_network import network_of
from brimful.domains.hydraulics.zone_solve import ReducedZone, emitter_heads_along, solve_zone

KINDS = {
    "open line": (looped(),),
    "closed ring": (looped(closed=True),),
    "odd ring": (looped(closed=True, count=15),),
    "two lines": (looped(lines=2),),
    "single emitters": (dripped(),),
    "all of them": (looped(), looped(closed=True), dripped(), looped(count=9, rise_m=0.9)),
}


def greatest_difference(zone: Zone, head_m: float) -> float:
    """Greatest difference of container flows between the short way and the full network, over the greatest flow."""
    short = solve_zone(zone, head_m)
    full = solve(network_of(zone, head_m))
    ours = {row.station.container: q for row, q in zip(short.rows, short.trunk.inflow_l_h, strict=True) if row.station}
    theirs = dict.fromkeys(ours, 0.0)
    for outlet, flow in zip(network_of(zone, head_m).outlets, full.outlet_flow_l_h, strict=True):
        theirs[outlet.container] += flow
    return max(abs(ours[name] - theirs[name]) for name in ours) / max(*theirs.values(), 1e-9)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("head_m", [17.5, 3.0, 0.75])
def test_short_way_equals_the_full_solution(kind: str, head_m: float) -> None:
    """Every container's flow by the short way equals the full solution within 1e-6, rings and a dry supply included."""
    assert greatest_difference(rows(2, 6, KINDS[kind]), head_m) < 1e-6


def test_short_way_equals_the_full_solution_in_numpy() -> None:
    """The same holds for a zone large enough to be solved in numpy."""
    assert greatest_difference(rows(6, 20, KINDS["all of them"], bore_m=0.0265, main_m=0.05), 17.5) < 1e-6


@settings(max_examples=20, deadline=None)
@given(
    laterals=st.integers(1, 4),
    pots=st.integers(1, 8),
    bore_mm=st.floats(4.0, 25.0),
    head_m=st.floats(0.1, 30.0),
    kind=st.sampled_from(sorted(KINDS)),
)
def test_short_way_equals_the_full_solution_anywhere(
    laterals: int, pots: int, bore_mm: float, head_m: float, kind: str
) -> None:
    """Short way and full solution agree for any number of rows, any bore and any supply, starved zones included."""
    assert greatest_difference(rows(laterals, pots, KINDS[kind], bore_m=bore_mm / 1e3), head_m) < 1e-6


def test_more_head_gives_every_container_more() -> None:
    """Raising the source never lowers the flow into any container."""
    zone = rows(2, 6, KINDS["all of them"])
    flows = [solve_zone(zone, 0.5 + 0.75 * i).trunk.inflow_l_h for i in range(24)]
    assert all(b >= a - 1e-9 for low, high in pairwise(flows) for a, b in zip(low, high, strict=True))


@pytest.mark.parametrize("kind", ["open line", "closed ring", "single emitters"])
def test_heads_at_emitters_come_back(kind: str) -> None:
    """Heads at single emitters, read off the curve, equal those of the full network within 1e-5 m."""
    zone = rows(2, 5, KINDS[kind])
    reduced = ReducedZone(zone)
    found = emitter_heads_along(reduced, reduced.solve(17.5))
    full = solve(network_of(zone, 17.5))
    assembly: Assembly = KINDS[kind][0]
    row = found[assembly][0]
    name = {"open line": "dripline/16", "closed ring": "dripline/8", "single emitters": "in"}[kind]
    assert row[0] == pytest.approx(full.pressure_m[f"row 1/1/{name}"], abs=1e-5)


def test_the_whole_zone_is_one_curve() -> None:
    """A zone's response curve gives the flow of a direct solution within 1e-6, at heads it was not made at."""
    reduced = ReducedZone(rows(2, 6, KINDS["all of them"]))
    for head in (2.345, 9.87, 17.531):
        assert reduced.response.at(head)[0] == pytest.approx(reduced.solve(head).flow_l_h[0], rel=1e-6)


def test_an_empty_zone_is_refused() -> None:
    """A zone with nothing in it says so."""
    with pytest.raises(ValueError, match="no container"):
        solve_zone(rows(1, 0), 17.5)
