"""The solved network in the JSON: anyone can solve it again, and water and pressure balance by its own numbers."""

import json
from collections import defaultdict
from functools import cache
from typing import Any

import pytest
from tests.design.plans import EXAMPLES, design_of, text_of
from tests.domains.hydraulics.engine import GRAVITY_M_S2, greatest_difference_m

from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, PowerEmitter
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source
from brimful.render.as_json import to_data

HIGHEST_M = 42.0  # above the head of any of these zones: where a maker's range ends plays no part


@cache
def zones() -> dict[str, Any]:
    """The zones of all examples, as they stand in the JSON."""
    found = {}
    for name in EXAMPLES:
        for zone in json.loads(json.dumps(to_data(design_of(text_of(name)))))["zones"]:
            found[f"{name}/{zone['name']}"] = zone
    return found


ZONES = pytest.mark.parametrize("zone", [pytest.param(zone, id=name) for name, zone in zones().items()])


def law_of(emitter: dict[str, Any]) -> EmitterLaw:
    """The law of an outlet by its numbers."""
    coefficient, exponent = emitter["coefficient_l_h"], emitter["exponent"]
    if emitter["compensating"]:
        return CompensatingEmitter(coefficient, exponent, emitter["start_head_m"], HIGHEST_M)
    return PowerEmitter(coefficient, exponent)


def network_of(network: dict[str, Any]) -> Network:
    """The network, built from nothing but its JSON.

    The engine's own gravity is 32.2 ft/s²; lengths and losses are stretched by as much, so that each link loses what it
    loses at 9.80665 m/s².
    """
    stretch = GRAVITY_M_S2 / 9.80665
    nodes = tuple(Node(n["id"], n["elevation_m"]) for n in network["nodes"])
    links = tuple(
        Link(
            k["id"],
            k["from"],
            k["to"],
            stretch * k["length_m"],
            k["inner_diameter_m"],
            k["roughness_m"],
            stretch * k["loss_k"],
        )
        for k in network["links"]
    )
    outlets = tuple(Outlet(e["node"], law_of(e), e["container"], e["count"]) for e in network["emitters"])
    source = Source(network["source"]["node"], network["source"]["head_m"])
    return Network(nodes, links, outlets, source, network["viscosity_m2_s"])


@ZONES
def test_another_engine_finds_the_same_heads(zone: dict[str, Any]) -> None:
    """EPANET, given the JSON alone, finds every head within a millimetre of water."""
    heads = {node["id"]: node["head_m"] for node in zone["network"]["nodes"]}
    assert len(heads) > 5
    assert greatest_difference_m(network_of(zone["network"]), heads) < 1e-3


@ZONES
def test_what_flows_in_flows_out(zone: dict[str, Any]) -> None:
    """At every node the links bring what the next links and the emitters take, to 1e-9 of the zone's flow."""
    network = zone["network"]
    left: dict[str, float] = defaultdict(float)
    for link in network["links"]:
        left[link["from"]] -= link["flow_l_h"]
        left[link["to"]] += link["flow_l_h"]
    for emitter in network["emitters"]:
        left[emitter["node"]] -= emitter["flow_l_h"]
    source = network["source"]["node"]
    assert -left.pop(source) == pytest.approx(zone["flow_l_h"], rel=1e-9)
    assert max(map(abs, left.values())) <= 1e-9 * zone["flow_l_h"]
    assert left.keys() | {source} == {node["id"] for node in network["nodes"]}


@ZONES
def test_emitters_follow_their_law(zone: dict[str, Any]) -> None:
    """Each outlet gives coefficient times head to the exponent for the head at its node, once for each emitter."""
    network = zone["network"]
    head = {node["id"]: node["head_m"] - node["elevation_m"] for node in network["nodes"]}
    for emitter in network["emitters"]:
        flow = emitter["count"] * law_of(emitter).at(head[emitter["node"]])[0]
        assert emitter["flow_l_h"] == pytest.approx(flow, rel=1e-7)


@ZONES
def test_containers_get_what_their_emitters_give(zone: dict[str, Any]) -> None:
    """The flow of each container is the sum over its emitters, and the count of emitters is the zone's."""
    gives: dict[str, float] = defaultdict(float)
    for emitter in zone["network"]["emitters"]:
        gives[emitter["container"]] += emitter["flow_l_h"]
    assert {c["container"] for c in zone["containers"]} == gives.keys()
    for container in zone["containers"]:
        assert container["flow_l_h"] == pytest.approx(gives[container["container"]], rel=1e-6)
    assert sum(emitter["count"] for emitter in zone["network"]["emitters"]) == zone["emitters_count"]
