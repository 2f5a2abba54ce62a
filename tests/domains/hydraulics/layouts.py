"""Small zones that several tests solve, all invented."""

from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, MicrotubeEmitter, rated_emitter
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source

NU = 1.0034e-6
EMITTER = rated_emitter(2.5, 10.0, exponent=0.5)


def line(
    count: int = 20,
    *,
    step_m: float = 0.5,
    bore_m: float = 0.0136,
    laws: tuple[EmitterLaw, ...] = (EMITTER,),
    rise_m: float = 0.0,
    head_m: float = 15.0,
) -> Network:
    """A lateral with emitters at even steps, the laws taken in turn; each step rises by `rise_m`."""
    nodes = tuple(Node(f"n{i}", i * rise_m) for i in range(count + 1))
    links = tuple(Link(f"p{i}", f"n{i - 1}", f"n{i}", step_m, bore_m) for i in range(1, count + 1))
    outlets = tuple(Outlet(f"n{i}", laws[i % len(laws)], f"pot {i}") for i in range(1, count + 1))
    return Network(nodes, links, outlets, Source("n0", head_m), NU)


def tree(head_m: float = 17.577, heights_m: tuple[float, float] = (0.0, 1.0)) -> Network:
    """Two rows of eight containers behind one tee, each on a 1 m feeder of 4.32 mm bore, as in a container row."""
    law = rated_emitter(30.28, 10.546, exponent=0.5)
    nodes, links, outlets = [Node("R"), Node("A")], [Link("R-A", "R", "A", 20.0, 0.0208)], []
    for row, pot, first_m, z in (("B", "E", 5.0, heights_m[0]), ("C", "G", 12.0, heights_m[1])):
        before = "A"
        for i in range(1, 9):
            here, end = f"{row}{i}", f"{pot}{i}"
            nodes += [Node(here, z), Node(end, z)]
            links += [
                Link(f"{before}-{here}", before, here, first_m if i == 1 else 1.5, 0.01524),
                Link(f"{here}-{end}", here, end, 1.0, 0.00432),
            ]
            outlets.append(Outlet(end, law, end))
            before = here
    return Network(tuple(nodes), tuple(links), tuple(outlets), Source("R", head_m), NU)


def ringed() -> Network:
    """Six containers on one lateral, each a closed ring of eight emitters behind a feeder."""
    nodes, links, outlets, before = [Node("R")], [], [], "R"
    for c in range(6):
        here = f"t{c}"
        nodes += [Node(here, 0.1 * c), *(Node(f"{here}/{i}", 0.1 * c + 0.6) for i in range(8))]
        links += [Link(f"l{c}", before, here, 2.2, 0.0136), Link(f"f{c}", here, f"{here}/0", 1.2, 0.00432)]
        links += [Link(f"r{c}/{i}", f"{here}/{i}", f"{here}/{(i + 1) % 8}", 0.15, 0.0043) for i in range(8)]
        outlets += [Outlet(f"{here}/{i}", EMITTER, here) for i in range(8)]
        before = here
    return Network(tuple(nodes), tuple(links), tuple(outlets), Source("R", 17.0), NU)


LAYOUTS = {
    "tree": tree(),
    "long lateral": line(100, step_m=1.0),
    "uneven ground": line(40, step_m=1.0, rise_m=0.12),
    "mixed emitters": line(
        30, laws=(EMITTER, rated_emitter(4.0, 10.0, exponent=0.65), CompensatingEmitter(2.0, 0.02, 6.0, 40.0))
    ),
    "microtube only": line(12, laws=(MicrotubeEmitter(0.0012, 3.0, NU), MicrotubeEmitter(0.0009, 1.5, NU))),
    "nearly dry supply": tree(1.1),
    "closed rings": ringed(),
}
