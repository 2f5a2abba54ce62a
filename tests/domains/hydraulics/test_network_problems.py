"""What is wrong with a network, as data."""

from dataclasses import replace

import pytest
from tests.domains.hydraulics.layouts import EMITTER, LAYOUTS, line

from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source, validate

GOOD = line(3)
RING = (Node("a"), Node("b"), Node("c"))
ROUND = (
    Link("in", "n1", "a", 1.0, 0.004),
    Link("ab", "a", "b", 1.0, 0.004),
    Link("bc", "b", "c", 1.0, 0.004),
    Link("ca", "c", "a", 1.0, 0.004),
)
BROKEN = {
    "nothing-in-it": replace(GOOD, outlets=()),
    "disconnected": replace(
        GOOD, nodes=(*GOOD.nodes, Node("far")), outlets=(*GOOD.outlets, Outlet("far", EMITTER, "urn"))
    ),
    "idle-ring": replace(GOOD, nodes=(*GOOD.nodes, *RING), links=(*GOOD.links, *ROUND)),
    "bad-size": replace(GOOD, links=(replace(GOOD.links[0], length_m=-1.0), *GOOD.links[1:])),
    "bad-elevation": replace(GOOD, nodes=(*GOOD.nodes[:3], Node("n3", float("nan")))),
    "bad-count": replace(GOOD, outlets=(Outlet("n1", EMITTER, count=-1.0),)),
    "bad-head": replace(GOOD, source=Source("n0", float("inf"))),
    "bad-viscosity": replace(GOOD, viscosity_m2_s=0.0),
    "unknown-node": replace(GOOD, outlets=(Outlet("nowhere", EMITTER),)),
    "duplicate-id": replace(GOOD, links=(*GOOD.links, GOOD.links[0])),
    "closed-link": replace(GOOD, links=(*GOOD.links, Link("round", "n1", "n1", 1.0, 0.01))),
}


@pytest.mark.parametrize("code", BROKEN)
def test_each_problem_is_found_and_named(code: str) -> None:
    """Each thing that can be wrong is found, alone, with a place and words."""
    problems = validate(BROKEN[code])
    assert [problem.code for problem in problems] == [code]
    assert problems[0].message


def test_disconnected_container_is_called_by_its_name() -> None:
    """A container that hangs on nothing is called by its own name, not by a node's."""
    assert validate(BROKEN["disconnected"])[0].where == "urn"


@pytest.mark.parametrize("name", LAYOUTS)
def test_good_networks_have_no_problem(name: str) -> None:
    """Networks that can be solved have no problem, rings with emitters on them included."""
    network: Network = LAYOUTS[name]
    assert validate(network) == ()


def test_a_ring_with_one_emitter_is_no_problem() -> None:
    """A ring that feeds one emitter is not idle."""
    ring = replace(GOOD, nodes=(*GOOD.nodes, *RING), links=(*GOOD.links, *ROUND), outlets=(Outlet("b", EMITTER),))
    assert validate(ring) == ()
