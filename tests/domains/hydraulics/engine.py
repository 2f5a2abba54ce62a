"""EPANET as an independent engine for our networks (tests and benchmarks only), with the same friction law.

The engine has one emitter exponent for a whole project. An outlet whose exponent is another, and every compensating
one, is given to it as a general purpose valve with a head-loss curve into a reservoir at the outlet's elevation; a
microtube is a pipe into such a reservoir.
"""

import math
import warnings
from collections import Counter
from itertools import count
from tempfile import TemporaryDirectory

from brimful.domains.hydraulics.emitters import CompensatingEmitter, MicrotubeEmitter, PowerEmitter
from brimful.domains.hydraulics.network import Link, Network, Outlet

GRAVITY_M_S2 = 32.2 * 0.3048  # the engine's own figure
ENGINE_VISCOSITY_M2_S = 1.1e-5 * 0.3048**2  # the engine's viscosity multiplier counts in these
LPS = 1.0 / 3600.0


class Engine:
    """A network in the engine's memory; use as a context."""

    def __init__(self, network: Network) -> None:
        from epanet import toolkit

        self.t = toolkit
        self.network = network
        self.folder = TemporaryDirectory()
        self.p = toolkit.createproject()
        self.names = {node.id: f"N{i}" for i, node in enumerate(network.nodes)}
        self.numbers = count()
        self.open: set[str] = set()  # pipes that lead into the open, through which nothing may flow back
        self._build()

    def __enter__(self) -> "Engine":
        return self

    def __exit__(self, *_: object) -> None:
        self.t.close(self.p)
        self.t.deleteproject(self.p)
        self.folder.cleanup()

    def _build(self) -> None:
        t, p, network = self.t, self.p, self.network
        t.init(p, f"{self.folder.name}/report.txt", f"{self.folder.name}/out.bin", t.LPS, t.DW)
        t.setoption(p, t.SP_VISCOS, network.viscosity_m2_s / ENGINE_VISCOSITY_M2_S)
        t.setoption(p, t.ACCURACY, 1e-8)
        t.setoption(p, t.HEADERROR, 0.00001)
        t.setoption(p, t.TRIALS, 500)
        t.setoption(p, t.CHECKFREQ, 1)
        t.setoption(p, t.MAXCHECK, 500)
        t.setoption(p, t.EMITBACKFLOW, 0)
        powers = Counter(o.law.exponent for o in network.outlets if isinstance(o.law, PowerEmitter))
        self.exponent = powers.most_common(1)[0][0] if powers else 0.5
        t.setoption(p, t.EMITEXPON, self.exponent)
        self.index = {node.id: self._node(node.id, node.elevation_m) for node in network.nodes}
        for link in network.links:
            self._pipe(link.start, link.end, link)
        for outlet in network.outlets:
            self._outlet(outlet)

    def _node(self, name: str, elevation_m: float) -> int:
        t, p = self.t, self.p
        if name == self.network.source.node:
            index = t.addnode(p, self.names[name], t.RESERVOIR)
            t.setnodevalue(p, index, t.ELEVATION, self.network.source.head_m)
        else:
            index = t.addnode(p, self.names[name], t.JUNCTION)
            t.setnodevalue(p, index, t.ELEVATION, elevation_m)
        return int(index)

    def _pipe(self, start: str, end: str, like: Link | MicrotubeEmitter) -> None:
        """A pipe; one that is not a link of ours leads into the open, and may have to be shut (see solve)."""
        t, p = self.t, self.p
        name = f"L{next(self.numbers)}"
        index = t.addlink(p, name, t.PIPE, self.names[start], self.names[end])
        if not isinstance(like, Link):
            self.open.add(name)
        t.setpipedata(p, index, like.length_m, like.inner_diameter_m * 1e3, like.roughness_m * 1e3, like.loss_k)

    def _outlet(self, outlet: Outlet) -> None:
        """The engine's own emitter where the exponent allows it, else a pipe or a valve into the open."""
        t, p, law = self.t, self.p, outlet.law
        if isinstance(law, PowerEmitter) and law.exponent == self.exponent:
            node = self.index[outlet.node]
            before = t.getnodevalue(p, node, t.EMITTER)
            t.setnodevalue(p, node, t.EMITTER, before + outlet.count * law.coefficient_l_h * LPS)
            return
        z = next(n.elevation_m for n in self.network.nodes if n.id == outlet.node)
        away = f"X{next(self.numbers)}"
        self.names[away] = away
        end = t.addnode(p, away, t.RESERVOIR)
        t.setnodevalue(p, end, t.ELEVATION, z)
        if isinstance(law, MicrotubeEmitter):
            self._pipe(outlet.node, away, law)
        else:
            self._valve(outlet, away)

    def _valve(self, outlet: Outlet, away: str) -> None:
        t, p = self.t, self.p
        curve = f"C{next(self.numbers)}"
        t.addcurve(p, curve)
        index = t.getcurveindex(p, curve)
        flows, heads = _points(outlet)
        xs, ys = t.doubleArray(len(flows)), t.doubleArray(len(heads))
        for i, (q, h) in enumerate(zip(flows, heads, strict=True)):
            xs[i], ys[i] = q, h
        t.setcurve(p, index, xs, ys, len(flows))
        t.setcurvetype(p, index, t.HLOSS_CURVE)
        between = f"Y{next(self.numbers)}"
        self.names[between] = between
        t.setnodevalue(p, t.addnode(p, between, t.JUNCTION), t.ELEVATION, t.getnodevalue(p, self.index[outlet.node], 0))
        self._pipe(outlet.node, between, MicrotubeEmitter(0.05, 0.01, self.network.viscosity_m2_s, loss_k=0.0))
        valve = t.addlink(p, f"V{next(self.numbers)}", t.GPV, between, away)
        t.setlinkvalue(p, valve, t.DIAMETER, 10.0)
        t.setlinkvalue(p, valve, t.GPV_CURVE, index)

    def solve(self) -> dict[str, float]:
        """Heads by node [m].

        Nothing flows back through an outlet. The engine's check valves let up to 10 L/h pass backwards and its closed
        pipes leak, so a way into the open that draws water in is taken out and the engine asked again, until none does.
        """
        t, p = self.t, self.p
        while True:
            self._run()
            back = {name for name in self.open if t.getlinkvalue(p, t.getlinkindex(p, name), t.FLOW) < 0}
            if not back:
                break
            self.open -= back
            for name in back:
                t.deletelink(p, t.getlinkindex(p, name), t.UNCONDITIONAL)
        return {k: t.getnodevalue(p, t.getnodeindex(p, self.names[k]), t.HEAD) for k in self.index}

    def _run(self) -> None:
        t, p = self.t, self.p
        t.openH(p)
        t.initH(p, t.INITFLOW)
        with warnings.catch_warnings():  # the engine warns of low pressure through Python's own warnings
            warnings.simplefilter("ignore")
            t.runH(p)
        self.settled = t.getstatistic(p, t.RELATIVEERROR) < 1e-5
        t.closeH(p)


def _points(outlet: Outlet) -> tuple[list[float], list[float]]:
    """A head-loss curve of an outlet, close enough that straight lines between the points do no harm."""
    law, flows, heads = outlet.law, [0.0], [0.0]
    top = 40.0
    for i in range(1, 2001):
        h = top * (i / 2000) ** 2
        q = outlet.count * law.at(h)[0] * LPS
        if q > flows[-1] * (1 + 1e-12):
            flows.append(q)
            heads.append(h)
    if isinstance(law, CompensatingEmitter) and law.exponent == 0:
        flows.append(flows[-1] * (1 + 1e-7))
        heads.append(top)
    return flows, heads


def greatest_difference_m(network: Network, head_m: dict[str, float]) -> float:
    """Greatest difference between our heads and the engine's [m]; nan where the engine itself does not settle."""
    with Engine(network) as engine:
        theirs = engine.solve()
        if not engine.settled:
            return math.nan
    return max(abs(theirs[name] - head) for name, head in head_m.items() if math.isfinite(head))
