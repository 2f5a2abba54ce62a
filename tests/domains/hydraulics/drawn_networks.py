"""Networks drawn by a seeded random generator: trees and rings, uneven ground, mixed emitters, any supply."""

import random

from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, rated_emitter
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source, validate

LAWS: tuple[EmitterLaw, ...] = (
    rated_emitter(2.0, 10.0, exponent=0.5),
    rated_emitter(30.0, 10.0, exponent=0.5),
    rated_emitter(3.0, 10.0, exponent=0.65),
    CompensatingEmitter(2.0, 0.05, 6.0, 40.0),
)
BORES_M = (0.00318, 0.00406, 0.00432, 0.0136, 0.01524, 0.0208)


def drawn_networks(count: int, seed: int = 0) -> list[Network]:
    """So many networks that can be solved, the same for the same seed."""
    draw = random.Random(seed)
    found: list[Network] = []
    while len(found) < count:
        network = _network(draw)
        if not validate(network):
            found.append(network)
    return found


def _network(draw: random.Random) -> Network:
    n = draw.randint(3, 25)
    ends = [(draw.randrange(i), i) for i in range(1, n)]
    ends += [(a, b) for a, b in ((draw.randrange(n), draw.randrange(n)) for _ in range(draw.randint(0, 3))) if a != b]
    links = tuple(
        Link(
            f"l{i}",
            f"n{a}",
            f"n{b}",
            draw.uniform(0.15, 30.0),
            draw.choice(BORES_M),
            loss_k=draw.choice([0.0, 0.6, 3.0]),
        )
        for i, (a, b) in enumerate(ends)
    )
    nodes = (Node("n0"), *(Node(f"n{i}", round(draw.uniform(-1.0, 3.0), 2)) for i in range(1, n)))
    wet = sorted(draw.sample(range(1, n), draw.randint(1, n - 1)))
    outlets = tuple(Outlet(f"n{i}", draw.choice(LAWS), f"pot {i}") for i in wet)
    return Network(nodes, links, outlets, Source("n0", draw.choice([1.0, 3.5, 10.5, 17.6, 28.0])), 1.0034e-6)
