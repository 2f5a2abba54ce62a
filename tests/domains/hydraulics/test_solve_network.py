"""Solving a zone: balance first, then the engine."""

from dataclasses import replace
from itertools import pairwise

import pytest
from tests.domains.hydraulics.engine import GRAVITY_M_S2, greatest_difference_m
from tests.domains.hydraulics.layouts import LAYOUTS, line, ringed, tree

from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source
from brimful.domains.hydraulics.solve import solve


@pytest.mark.parametrize("name", LAYOUTS)
def test_mass_and_energy_balance(name: str) -> None:
    """Mass balances to 1e-9 of the flow at every node, and every link loses exactly the head across it."""
    network = LAYOUTS[name]
    solution = solve(network)
    into = {node.id: 0.0 for node in network.nodes}
    for link in network.links:
        into[link.start] -= solution.flow_l_h[link.id]
        into[link.end] += solution.flow_l_h[link.id]
    for outlet, flow in zip(network.outlets, solution.outlet_flow_l_h, strict=True):
        into[outlet.node] -= flow
    into[network.source.node] += solution.total_l_h
    assert max(map(abs, into.values())) <= 1e-9 * solution.total_l_h
    assert solution.energy_residual_m < 1e-9


@pytest.mark.parametrize("name", LAYOUTS)
def test_heads_equal_the_engine(name: str) -> None:
    """Heads equal EPANET's within 1 mm on the same network with the same friction law."""
    network = LAYOUTS[name]
    assert greatest_difference_m(network, solve(network, gravity_m_s2=GRAVITY_M_S2).head_m) < 1e-3


def test_flow_falls_along_a_level_line() -> None:
    """On level ground equal emitters give less the farther they stand from the source."""
    flows = solve(line(30)).outlet_flow_l_h
    assert all(near > far for near, far in pairwise(flows))


@pytest.mark.parametrize("name", LAYOUTS)
def test_wider_bores_never_lower_the_worst_pressure(name: str) -> None:
    """Doubling every bore never lowers the pressure at the worst emitter."""
    network = LAYOUTS[name]
    wide = replace(network, links=tuple(replace(k, inner_diameter_m=2 * k.inner_diameter_m) for k in network.links))
    worst = [min(s.pressure_m[o.node] for o in network.outlets) for s in (solve(network), solve(wide))]
    assert worst[1] >= worst[0] - 1e-9


def test_a_ring_carries_the_same_both_ways_round() -> None:
    """A symmetric ring splits its flow evenly, and the head losses round it add up to nothing."""
    solution = solve(ringed())
    assert solution.flow_l_h["r3/0"] == pytest.approx(-solution.flow_l_h["r3/7"], rel=1e-9)


def test_nothing_flows_where_there_is_no_head() -> None:
    """A row that stands above the supply's head gives nothing, and takes nothing back."""
    network = tree(0.9)
    flows = dict(zip((o.container for o in network.outlets), solve(network).outlet_flow_l_h, strict=True))
    assert all(flows[f"G{i}"] == 0 for i in range(1, 9))
    assert all(flows[f"E{i}"] > 0 for i in range(1, 9))


def test_a_broken_network_is_refused() -> None:
    """A network that cannot be solved says what is wrong with it."""
    lonely = Network((Node("R"), Node("x")), (), (Outlet("x", line().outlets[0].law, "pot"),), Source("R", 10.0), 1e-6)
    with pytest.raises(ValueError, match="pot is not connected"):
        solve(lonely)
    with pytest.raises(ValueError, match="length -1"):
        solve(replace(lonely, links=(Link("l", "R", "x", -1.0, 0.01),)))
