"""A drip zone as a network of nodes and links, and what can be wrong with one. Plain data, nothing computed."""

import math
from collections.abc import Iterator

from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.records import record


@record
class Node:
    """A point of the network: a junction, a tee, the place of an emitter."""

    id: str
    elevation_m: float = 0.0


@record
class Link:
    """A length of tube between two nodes; flow counts positive from start to end."""

    id: str
    start: str
    end: str
    length_m: float
    inner_diameter_m: float
    roughness_m: float = 1.5e-6  # plastic
    loss_k: float = 0.0  # sum of K of the fittings on it


@record
class Outlet:
    """Emitters at a node, all following one law."""

    node: str
    law: EmitterLaw
    container: str = ""
    count: float = 1.0  # how many of them; a worn or plugged one counts less than 1


@record
class Source:
    """The one place where water comes in, at a known head above datum (pressure head plus elevation)."""

    node: str
    head_m: float


@record
class Network:
    """A whole zone, ready to be solved."""

    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    outlets: tuple[Outlet, ...]
    source: Source
    viscosity_m2_s: float


@record
class Problem:
    """Something that keeps a network from being solved, or makes the answer meaningless, as data."""

    code: str
    where: str  # id of the node, link or container
    message: str


def validate(network: Network) -> tuple[Problem, ...]:
    """Everything that is wrong with a network, at once; empty when it can be solved.

    Args:
        network: nodes, links, outlets and source
    Returns: problems, each with a code, the place, and what was given and expected
    """
    found = tuple(_measures(network)) + tuple(_names(network))
    return found or tuple(_reach(network))


def _names(network: Network) -> Iterator[Problem]:
    """Names must be unique, and every reference must lead somewhere."""
    nodes = [node.id for node in network.nodes]
    known = set(nodes)
    for kind, ids in (("node", nodes), ("link", [link.id for link in network.links])):
        seen: set[str] = set()
        for name in ids:
            if name in seen:
                yield Problem("duplicate-id", name, f"two {kind}s are called {name}; expected different names")
            seen.add(name)
    for link in network.links:
        for end in (link.start, link.end):
            if end not in known:
                yield Problem("unknown-node", link.id, f"link {link.id} ends at {end}, which is no node")
        if link.start == link.end:
            yield Problem("closed-link", link.id, f"link {link.id} starts and ends at {link.start}")
    for place in [outlet.node for outlet in network.outlets] + [network.source.node]:
        if place not in known:
            yield Problem("unknown-node", place, f"{place} holds an outlet or the source, but is no node")


def _measures(network: Network) -> Iterator[Problem]:
    """Sizes must be finite and of the right sign."""
    for link in network.links:
        for what, value, low in (
            ("length", link.length_m, 0.0),
            ("inner diameter", link.inner_diameter_m, 0.0),
            ("roughness", link.roughness_m, -1e-300),
            ("loss K", link.loss_k, -1e-300),
        ):
            if not (math.isfinite(value) and value > low):
                yield Problem("bad-size", link.id, f"{what} {value} was given for {link.id}; expected more than 0")
    for node in network.nodes:
        if not math.isfinite(node.elevation_m):
            yield Problem("bad-elevation", node.id, f"elevation {node.elevation_m} m was given for {node.id}")
    for outlet in network.outlets:
        if not (math.isfinite(outlet.count) and outlet.count >= 0):
            yield Problem("bad-count", outlet.node, f"{outlet.count} emitters at {outlet.node}; expected 0 or more")
    if not math.isfinite(network.source.head_m):
        yield Problem("bad-head", network.source.node, f"source head {network.source.head_m} m; expected a number")
    if not (math.isfinite(network.viscosity_m2_s) and network.viscosity_m2_s > 0):
        yield Problem("bad-viscosity", "", f"viscosity {network.viscosity_m2_s} m²/s; expected more than 0")


def _reach(network: Network) -> Iterator[Problem]:
    """Every node must hang on the source, something must flow out, and a ring must feed something."""
    if not network.outlets:
        yield Problem("nothing-in-it", network.source.node, "the zone has no emitter; expected at least one")
        return
    neighbours: dict[str, list[str]] = {node.id: [] for node in network.nodes}
    for link in network.links:
        neighbours[link.start].append(link.end)
        neighbours[link.end].append(link.start)
    reached, ahead = {network.source.node}, [network.source.node]
    while ahead:
        new = [n for n in neighbours[ahead.pop()] if n not in reached]
        reached.update(new)
        ahead.extend(new)
    holders = {outlet.node: outlet.container for outlet in network.outlets}
    for node in network.nodes:
        if node.id not in reached:
            name = holders.get(node.id) or node.id
            yield Problem("disconnected", name, f"{name} is not connected to the source {network.source.node}")
    yield from _idle_rings(neighbours, set(holders) | {network.source.node})


def _idle_rings(neighbours: dict[str, list[str]], used: set[str]) -> Iterator[Problem]:
    """Rings of tube from which nothing can flow: prune dead ends, then look for pieces behind a single node."""
    degree = {node: len(ends) for node, ends in neighbours.items()}
    ahead = [node for node, count in degree.items() if count == 1 and node not in used]
    gone: set[str] = set()
    while ahead:
        node = ahead.pop()
        gone.add(node)
        for end in neighbours[node]:
            if end not in gone:
                degree[end] -= 1
                if degree[end] == 1 and end not in used:
                    ahead.append(end)
    passing = {node for node in neighbours if node not in gone and node not in used and degree[node] == 2}
    while passing:
        chain, ends = _chain(passing.pop(), neighbours, gone, passing)
        if len(ends) <= 1:
            yield Problem("idle-ring", chain[0], f"the ring through {chain[0]} has no emitter on it")


def _chain(
    first: str, neighbours: dict[str, list[str]], gone: set[str], passing: set[str]
) -> tuple[list[str], set[str]]:
    """A run of plain nodes, taken out of `passing`, and the other nodes it ends at."""
    chain, ends, ahead = [first], set[str](), [first]
    while ahead:
        for end in neighbours[ahead.pop()]:
            if end in passing:
                passing.discard(end)
                chain.append(end)
                ahead.append(end)
            elif end not in gone and end not in chain:
                ends.add(end)
    return chain, ends
