"""Speed of the drip-zone solver against the EPANET engine, in one run, on the same networks and friction law.

    python3 run.py bench hydraulics [--json]

Every figure is the best of several runs, in milliseconds for one answer, every emitter's head included. Both sides
start from a description in memory. The engine is called through `owa-epanet` with its own default accuracy; `wntr`
writes the network to a file, as it always does.
"""

import os
import sys
import tempfile
import time
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from epanet import toolkit as t
from telling import tell

from brimful.domains.hydraulics.assembly import Assembly, Dripline, Feeder, Tube, inflow_curve
from brimful.domains.hydraulics.emitters import PowerEmitter, rated_emitter
from brimful.domains.hydraulics.network import Network
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.solve import solve
from brimful.domains.hydraulics.variants import solve_variants
from brimful.domains.hydraulics.zone import Lateral, Main, Station, Zone
from brimful.domains.hydraulics.zone_network import network_of
from brimful.domains.hydraulics.zone_solve import ReducedZone, emitter_heads_along

WATER = Water(1.0034e-6, 32.2 * 0.3048)  # the engine's gravity
ENGINE_VISCOSITY = 1.1e-5 * 0.3048**2
HEAD_M = 17.577
SIZES = {14: (2, 7, 0.0208, 0.01524), 100: (4, 25, 0.0408, 0.0208), 1000: (20, 50, 0.1, 0.0265)}
LPS = 1.0 / 3600.0


def best(work: Callable[[], Any], runs: int) -> float:
    """Least time of several runs [ms]."""
    least = float("inf")
    for _ in range(runs):
        start = time.perf_counter()
        work()
        least = min(least, time.perf_counter() - start)
    return 1e3 * least


def make_zone(containers: int, *, feeder_m: float = 1.0, flow_l_h: float = 1.9, lateral_mm: float = 0.0) -> Zone:
    """Rows of containers left and right of a main, on rising ground, each with 16 emitters behind a feeder."""
    laterals, pots, main, lateral = SIZES.get(containers, (1, containers, 0.0208, 0.0208))
    tube = Tube(0.00432)
    law = rated_emitter(flow_l_h, 10.546, exponent=0.5)
    assembly = Assembly(Feeder(tube, feeder_m, 1.5), Dripline(tube, 0.1524, 16, law), 0.6)
    lines = tuple(
        Lateral(
            f"row {i + 1}",
            Tube(lateral_mm / 1e3 or lateral),
            tuple(Station(f"pot {i}.{j}", 2.0 + 1.5 * j, assembly, 0.02 * j) for j in range(pots)),
            3.0 + 4.0 * (i // 2),
            0.9,
            0.6,
        )
        for i in range(laterals)
    )
    return Zone("bench", Main(Tube(main), 0.3), lines, water=WATER)


class Engine:
    """A network in the engine's memory."""

    def __init__(self, network: Network) -> None:
        self.p = p = t.createproject()
        folder = Path.cwd()
        t.init(p, f"{folder}/report.txt", f"{folder}/out.bin", t.LPS, t.DW)
        t.setoption(p, t.SP_VISCOS, network.viscosity_m2_s / ENGINE_VISCOSITY)
        t.setoption(p, t.EMITEXPON, 0.5)
        names = {node.id: f"N{i}" for i, node in enumerate(network.nodes)}
        for node in network.nodes[1:]:
            t.setnodevalue(p, t.addnode(p, names[node.id], t.JUNCTION), t.ELEVATION, node.elevation_m)
        self.source = t.addnode(p, names[network.nodes[0].id], t.RESERVOIR)
        t.setnodevalue(p, self.source, t.ELEVATION, network.source.head_m)
        for i, k in enumerate(network.links):
            index = t.addlink(p, f"L{i}", t.PIPE, names[k.start], names[k.end])
            t.setpipedata(p, index, k.length_m, k.inner_diameter_m * 1e3, k.roughness_m * 1e3, k.loss_k)
        for outlet in network.outlets:
            assert isinstance(outlet.law, PowerEmitter)
            t.setnodevalue(p, t.getnodeindex(p, names[outlet.node]), t.EMITTER, outlet.law.coefficient_l_h * LPS)
        self.names = names

    def open(self) -> None:
        """Make ready to solve."""
        t.openH(self.p)

    def solve(self) -> None:
        """One solution, from its usual first guess."""
        t.initH(self.p, t.INITFLOW)
        t.runH(self.p)

    def steps(self, heads_m: np.ndarray[Any, Any]) -> Callable[[], None]:
        """Ready for one run of many steps, each at its own source head: the engine's best mode."""
        p = self.p
        t.addpattern(p, "heads")
        index = t.getpatternindex(p, "heads")
        values = t.doubleArray(len(heads_m))
        for i, head in enumerate(heads_m / HEAD_M):
            values[i] = float(head)
        t.setpattern(p, index, values, len(heads_m))
        t.setnodevalue(p, self.source, t.PATTERN, index)
        t.settimeparam(p, t.DURATION, 3600 * (len(heads_m) - 1))
        t.settimeparam(p, t.HYDSTEP, 3600)
        t.settimeparam(p, t.PATTERNSTEP, 3600)

        def run() -> None:
            t.initH(p, t.INITFLOW)
            while True:
                t.runH(p)
                if t.nextH(p) <= 0:
                    break

        return run

    def heads(self) -> dict[str, float]:
        """Heads by node [m]."""
        return {
            name: t.getnodevalue(self.p, t.getnodeindex(self.p, short), t.HEAD) for name, short in self.names.items()
        }

    def close(self) -> None:
        """Free the engine's memory."""
        t.closeH(self.p)
        t.close(self.p)
        t.deleteproject(self.p)


def short_way(zone: Zone) -> tuple[ReducedZone, Any]:
    """Build and solve, every emitter's head included."""
    inflow_curve.cache_clear()
    reduced = ReducedZone(zone)
    answer = reduced.solve(HEAD_M)
    emitter_heads_along(reduced, answer)
    return reduced, answer


def difference(zone: Zone, heads: dict[str, float]) -> float:
    """Greatest difference of any head, emitters included, from the other engine's [m]."""
    reduced, answer = short_way(zone)
    worst = max(abs(heads[row.node] - head) for row, head in zip(reduced.rows, answer.heads_m, strict=True))
    (along,) = emitter_heads_along(reduced, answer).values()
    rows = [row for row in reduced.rows if row.station is not None]
    for row, pressures in zip(rows, along, strict=True):
        assert row.station is not None
        level = row.elevation_m + row.station.assembly.rise_m
        for i, pressure in enumerate(pressures[:-1]):
            worst = max(worst, abs(heads[f"{row.node}/dripline/{16 - i}"] - level - pressure))
    return worst


def row(case: str, ours: float, peer: str, theirs: float, apart: float | None = None) -> dict[str, Any]:
    """One line of the table."""
    return {
        "case": case,
        "ours_ms": round(ours, 4),
        "peer": peer,
        "peer_ms": round(theirs, 4),
        "ratio": round(theirs / ours, 1),
        "largest_difference": apart,
    }


def against_engine(containers: int) -> Iterator[dict[str, Any]]:
    """One solve, build and solve, and batches, against the engine in memory."""
    runs = 30 if containers < 1000 else 8
    zone = make_zone(containers)
    network = network_of(zone, HEAD_M)
    engine = Engine(network)
    engine.open()
    theirs = best(engine.solve, runs)
    apart = difference(zone, engine.heads())
    reduced, _ = short_way(zone)

    once = best(lambda: emitter_heads_along(reduced, reduced.solve(HEAD_M)), runs)
    yield row(f"{containers} containers, one solve", once, "engine", theirs, apart)
    heads = np.linspace(0.6 * HEAD_M, HEAD_M, 100)
    batch = best(engine.steps(heads), max(3, runs // 6)) / len(heads)
    engine.close()

    def build_theirs() -> None:
        made = Engine(network)
        made.open()
        made.solve()
        made.close()

    build = best(lambda: short_way(zone), runs)
    yield row(
        f"{containers} containers, build and solve", build, "engine", best(build_theirs, max(3, runs // 4)), apart
    )

    def ours_batch() -> None:
        inflow_curve.cache_clear()
        ReducedZone(zone).response.along(heads)

    found = ReducedZone(zone).response.along(heads)[0]
    exact = [ReducedZone(zone).solve(float(h)).flow_l_h[0] for h in heads[::9]]
    apart_batch = float(np.abs(found[::9] / exact - 1).max())
    ours = best(ours_batch, max(3, runs // 6)) / len(heads)
    yield row(f"{containers} containers, an answer of a batch of 100", ours, "engine, 100 steps", batch, apart_batch)
    yield full_network(containers, network, theirs, apart)


def full_network(containers: int, network: Network, theirs: float, apart: float) -> dict[str, Any]:
    """Our solver for networks of any shape, which knows nothing of containers built alike."""
    ours = best(lambda: solve(network, gravity_m_s2=WATER.gravity_m_s2), 3)
    return row(f"{containers} containers, network of any shape", ours, "engine", theirs, apart)


def build_in_engine(network: Network) -> None:
    """Build and solve once in the engine."""
    made = Engine(network)
    made.open()
    made.solve()
    made.close()


def batch_of(zone: Zone, heads: np.ndarray[Any, Any], runs: int) -> tuple[float, float]:
    """Our time for one answer of a batch [ms], curves made anew, and the greatest relative difference of flow."""

    def ours() -> None:
        inflow_curve.cache_clear()
        ReducedZone(zone).response.along(heads)

    reduced = ReducedZone(zone)
    found = reduced.response.along(heads)[0]
    exact = [reduced.solve(float(head)).flow_l_h[0] for head in heads[::9]]
    return best(ours, runs) / len(heads), float(np.abs(found[::9] / exact - 1).max())


def against_wntr(containers: int) -> Iterator[dict[str, Any]]:
    """One solve against wntr, which writes and reads files around the same engine."""
    try:
        import wntr
    except ImportError as missing:
        print(f"wntr left out: {missing}", file=sys.stderr)
        return
    zone = make_zone(containers)
    network = network_of(zone, HEAD_M)
    model = _wntr_model(wntr, network)
    folder = tempfile.mkdtemp()
    found: dict[str, Any] = {}

    def theirs() -> None:
        found["result"] = wntr.sim.EpanetSimulator(model).run_sim(file_prefix=f"{folder}/run", version=2.2)

    reduced, _ = short_way(zone)
    ours = best(lambda: emitter_heads_along(reduced, reduced.solve(HEAD_M)), 10)
    slow = best(theirs, 3 if containers < 1000 else 2)
    values = found["result"].node["head"].iloc[0]
    heads = {node.id: float(values[f"N{i}"]) for i, node in enumerate(network.nodes)}
    yield row(f"{containers} containers, one solve", ours, "wntr", slow, difference(zone, heads))


def _wntr_model(wntr: Any, network: Network) -> Any:
    model = wntr.network.WaterNetworkModel()
    names = {node.id: f"N{i}" for i, node in enumerate(network.nodes)}
    model.add_reservoir(names[network.source.node], base_head=network.source.head_m)
    for node in network.nodes[1:]:
        model.add_junction(names[node.id], elevation=node.elevation_m)
    for i, k in enumerate(network.links):
        size = {"length": k.length_m, "diameter": k.inner_diameter_m, "roughness": k.roughness_m}
        model.add_pipe(f"L{i}", names[k.start], names[k.end], minor_loss=k.loss_k, **size)
    for outlet in network.outlets:
        model.get_node(names[outlet.node]).emitter_coefficient = outlet.law.coefficient_l_h / 3.6e6  # type: ignore[attr-defined]
    model.options.hydraulic.headloss = "D-W"
    model.options.hydraulic.viscosity = network.viscosity_m2_s / ENGINE_VISCOSITY
    model.options.hydraulic.emitter_exponent = 0.5
    model.options.time.duration = 0
    return model


def variants_of_25() -> Iterator[dict[str, Any]]:
    """500 design variants of a zone of 25 containers in one call, against building and solving each in the engine."""
    zones = [
        make_zone(
            25, feeder_m=0.6 + 0.1 * (i % 10), flow_l_h=1.2 + 0.1 * (i // 10 % 10), lateral_mm=13.0 + 2.0 * (i // 100)
        )
        for i in range(500)
    ]

    networks = [network_of(zone, HEAD_M) for zone in zones[::25]]

    def ours() -> None:
        inflow_curve.cache_clear()
        solve_variants(zones, [HEAD_M] * len(zones))

    def theirs() -> None:
        for network in networks:
            build_in_engine(network)

    flows = solve_variants(zones, [HEAD_M] * len(zones)).total_l_h
    exact = [solve(network, gravity_m_s2=WATER.gravity_m_s2).total_l_h for network in networks]
    apart = float(np.abs(flows[::25] / exact - 1).max())
    yield row(
        "500 variants of 25 containers, all of them",
        best(ours, 3),
        "engine, build and solve",
        25 * best(theirs, 2),
        apart,
    )


def everything() -> list[dict[str, Any]]:
    """All cases."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        rows = [line for size in SIZES for line in (*against_engine(size), *against_wntr(size))]
        return [*rows, *variants_of_25()]


def main() -> None:
    """Print a table, or with --json the list."""
    home = Path.cwd()
    os.chdir(tempfile.mkdtemp())
    rows = everything()
    os.chdir(home)
    peer = {"ours, ms": "{ours_ms:.3g}", "peer": "{peer}", "peer, ms": "{peer_ms:.3g}", "times as fast": "{ratio:g}"}
    tell(rows, {"case": "{case}"} | peer | {"largest difference": "{largest_difference:.1e}"})


if __name__ == "__main__":
    main()
