"""Rows of docs/evidence.md: friction, networks, emitters, uniformity."""

import math
from dataclasses import replace
from functools import cache

from tests.docs.evidence_row import Row
from tests.domains.hydraulics.drawn_networks import drawn_networks
from tests.domains.hydraulics.engine import GRAVITY_M_S2, greatest_difference_m
from tests.domains.hydraulics.layouts import LAYOUTS, line, tree

from brimful.domains.hydraulics.emitters import CompensatingEmitter, MicrotubeEmitter, rated_emitter
from brimful.domains.hydraulics.friction import (
    FRICTION_LAWS,
    blasius_factor,
    colebrook_factor,
    friction_factor,
)
from brimful.domains.hydraulics.losses import barb_equivalent_length, christiansen_factor, k_of_cv
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source
from brimful.domains.hydraulics.pipe import Pipe, Water, hazen_williams_loss
from brimful.domains.hydraulics.solve import Solution, solve
from brimful.domains.hydraulics.uniformity import (
    christiansen_uniformity,
    emission_uniformity,
    low_quarter_uniformity,
    statistical_uniformity,
)
from brimful.domains.hydraulics.water import water_density, water_viscosity

FT, GPM_L_H, GALLON_L, NU = 0.3048, 227.12470704, 3.785411784, 1.0034e-6


@cache
def drawn_difference_m() -> float:
    """The greatest difference from the engine over two hundred drawn networks, less those it does not settle on."""
    apart = [greatest_difference_m(n, solve(n, gravity_m_s2=GRAVITY_M_S2).head_m) for n in drawn_networks(200)]
    return max(one for one in apart if not math.isnan(one))


INSTITUTE = "Hydraulic Institute, Engineering Data Library IIIB, schedule 40"
STEEL = Water(1.21e-5 * FT**2, law=FRICTION_LAWS["colebrook"])
SEVERAL = "two independent solvers"
CATCH = (47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12)
MEASURED = (1.98, 2.04, 2.01, 1.95, 2.08, 1.90, 2.02, 1.99, 2.05, 1.93, 2.00, 2.06)
CELLS = (
    (0.269, 0.02, "0.272"), (0.269, 0.10, "1.359"), (0.269, 0.50, "24.2"), (0.364, 0.40, "3.7"), (0.364, 2.0, "69.0"),
    (0.622, 1.5, "2.85"), (0.622, 3.0, "10.0"), (0.824, 2.0, "1.21"), (0.824, 5.0, "6.32"), (0.824, 10.0, "23.0"),
)  # fmt: skip
LOOPED = (
    ("a", "b", 0.30, 250, 0.01879), ("b", "c", 0.20, 100, 0.02075), ("c", "d", 0.20, 125, 0.02075),
    ("d", "e", 0.20, 125, 0.02075), ("e", "a", 0.20, 100, 0.02075), ("d", "f", 0.15, 100, 0.02233),
    ("f", "g", 0.25, 125, 0.01964), ("g", "e", 0.15, 100, 0.02233), ("c", "h", 0.15, 100, 0.02233),
    ("h", "f", 0.25, 125, 0.01964),
)  # fmt: skip


def steel(bore_in: float, gpm: float) -> float:
    """Head lost over 100 ft of steel pipe [ft]."""
    return Pipe.of(100.0, bore_in * 0.0254, roughness_m=0.00015 * FT, loss_k=0.0, water=STEEL).loss(gpm * GPM_L_H)[0]


def long_pipe() -> float:
    """10 560 ft of 20 in pipe at 4 ft³/s [ft]."""
    nu = 4 * 4 * FT**3 / (math.pi * 20 * 0.0254 * 248625)
    water = Water(nu, 32.2 * FT, FRICTION_LAWS["colebrook"])
    pipe = Pipe.of(10560 * FT, 20 * 0.0254, roughness_m=0.0005 * FT, loss_k=0.0, water=water)
    return pipe.loss(4 * FT**3 * 3.6e6)[0] / FT


def plastic(bore_in: float, gpm: float) -> float:
    """Hazen–Williams loss over 100 ft of PVC, C 150 [psi]."""
    return hazen_williams_loss(gpm * GPM_L_H, 30.48, inner_diameter_m=bore_in * 0.0254, c=150) / FT * 0.4335


@cache
def looped() -> Solution:
    """The network of three loops."""
    drawn = {"d": 0.04, "g": 0.02, "h": 0.02}
    links = tuple(
        Link(f"{s}{e}", s, e, 1e-6, d, 0.0, f * length / d) for s, e, d, length, f in LOOPED
    )  # friction as a loss coefficient, since the example fixes f
    outlets = tuple(Outlet(n, CompensatingEmitter(q * 3.6e6, 0.0, 0.1, 900.0)) for n, q in drawn.items())
    return solve(Network(tuple(Node(n) for n in "abcdefgh"), links, outlets, Source("a", 500.0), 1.0034e-6))


@cache
def hundred() -> Solution:
    """The lateral of 100 emitters."""
    network = line(100, step_m=1.0, laws=(rated_emitter(4.0, 10.0, exponent=0.5),), head_m=12.5618)
    network = replace(network, links=tuple(replace(k, roughness_m=1.5e-6) for k in network.links))
    return solve(network, law=FRICTION_LAWS["standard"])


@cache
def row() -> Solution:
    """The container row of two branches, with the engine's gravity."""
    return solve(tree(), gravity_m_s2=GRAVITY_M_S2)


@cache
def against_epanet() -> float:
    """Greatest difference of any head over all layouts [m]."""
    solved = {name: solve(network, gravity_m_s2=GRAVITY_M_S2).head_m for name, network in LAYOUTS.items()}
    return max(greatest_difference_m(LAYOUTS[name], heads) for name, heads in solved.items())


def rated_head() -> float:
    """Head at which the emitter of the printed example gives 4.32 L/h [m]."""
    law = rated_emitter(4.0, 10.0, exponent=0.42)
    return (4.32 / law.coefficient_l_h) ** (1 / 0.42)


ROWS = (
    *(Row(f"friction, {bore} in at {gpm:g} gpm, ft per 100 ft", INSTITUTE, "read", printed,
          lambda bore=bore, gpm=gpm: steel(bore, gpm), 0.01 * float(printed))  # type: ignore[misc]
      for bore, gpm, printed in CELLS),
    Row("Colebrook's f, Re 100 000, ε/D 0.0001", "docstring of the `fluids` package", "read", "0.0185138660775",
        lambda: colebrook_factor(1e5, 1e-4), 1e-13),
    Row("Blasius's f, Re 10 000", "docstring of the `fluids` package", "read", "0.03164",
        lambda: blasius_factor(10000), 5e-6),
    Row("measured f of smooth pipe, Re 10 900", "McKeon et al. 2004, J. Fluid Mech. 511:41", "read", "0.03088",
        lambda: friction_factor(10900), 0.035 * 0.03088),
    Row("f in transition, Re 3000, smooth", "EPANET engine, constants of the cubic", "calculated", "0.033074",
        lambda: friction_factor(3000), 5e-6),
    Row("20 in pipe, 10 560 ft, 4 ft³/s: head lost, ft", "R package `hydraulics`, vignette", "read", "5.72",
        long_pipe, 0.01),
    Row("PVC 0.696 in at 4 gpm, Hazen–Williams, psi per 100 ft", "SDR 13.5 table, C 150", "read", "3.24",
        lambda: plastic(0.696, 4), 0.013 * 3.24),
    Row("three loops, flow a to b, third iteration, m³/s", "R package `hydraulics`, vignette, section 7", "read",
        "0.0383", lambda: looped().flow_l_h["ab"] / 3.6e6, 3.5e-4),
    Row("the same, converged", "Hardy Cross carried on", "calculated", "0.03823",
        lambda: looped().flow_l_h["ab"] / 3.6e6, 1e-5),
    Row("three loops, flow g to e, converged, m³/s", "Hardy Cross carried on", "calculated", "-0.01613",
        lambda: looped().flow_l_h["ge"] / 3.6e6, 1e-5),
    Row("lateral of 100 emitters, flow in, L/h", SEVERAL, "calculated", "412.707", lambda: hundred().total_l_h, 5e-3),
    Row("its Christiansen uniformity, %", SEVERAL, "calculated", "97.170",
        lambda: christiansen_uniformity(hundred().outlet_flow_l_h), 2e-3),
    Row("container row N1, head at the last container, m", SEVERAL, "calculated", "16.65478",
        lambda: row().head_m["G8"], 1e-4),
    Row("container row N1, flow in, L/h", SEVERAL, "calculated", "601.209", lambda: row().flow_l_h["R-A"], 0.01),
    Row("200 networks drawn at random against EPANET 2.2, trees and rings: greatest difference of head, m",
        "EPANET engine, run", "calculated", "0.0000", drawn_difference_m, 1e-3),
    Row(f"{len(LAYOUTS)} layouts against EPANET 2.2, greatest difference of head, m", "EPANET engine, run",
        "calculated", "0.000", against_epanet, 1e-3),
    Row("Christiansen's F, 10 outlets, m 1.75", "exact sum", "calculated", "0.4151",
        lambda: christiansen_factor(10, 1.75), 2.5e-4),
    Row("Christiansen's F, 20 outlets, m 1.852", "exact sum", "calculated", "0.3760",
        lambda: christiansen_factor(20, 1.852), 2.5e-4),
    Row("Christiansen's F, 50 outlets, m 2", "exact sum", "calculated", "0.3434",
        lambda: christiansen_factor(50, 2.0), 2.5e-4),
    Row("emission uniformity, Cv 0.05, 4 a plant, q least/mean 0.95, %", "Keller & Karmeli (formula read)",
        "calculated", "91.98", lambda: emission_uniformity(3.8, 4.0, cv=0.05, per_plant=4), 0.01),
    Row("low-quarter uniformity of a catch of 15, %", "statistics package, documentation", "read", "49.62039",
        lambda: low_quarter_uniformity(CATCH), 5e-6),
    Row("statistical uniformity of 12 emitters, %", "hand", "calculated", "97.284",
        lambda: statistical_uniformity(MEASURED), 1e-3),
    Row("emitter x 0.42, 4 L/h at 10 m: head for 4.32 L/h, m", "printed worked example", "read", "12.0",
        rated_head, 0.05),
    Row("microtube 1.2 mm, 3 m, 10 m of head, L/h", "Hagen–Poiseuille", "calculated", "5.969",
        lambda: MicrotubeEmitter(0.0012, 3.0, NU, loss_k=0.0).at(10.0)[0], 1e-3),
    Row("standard barb in 13.6 mm, equivalent length, m", "Montalvo's fit", "memory", "0.144",
        lambda: barb_equivalent_length(0.0136, "standard"), 1e-3),
    Row("K of a valve of Cv 4 on 20.8 mm", "`fluids` package", "calculated", "25.017",
        lambda: k_of_cv(4.0, 0.0208), 0.05),
    Row("density of water at 20 °C, kg/m³", "IAPWS-95", "calculated", "998.207", lambda: water_density(20), 0.01),
    Row("viscosity of water at 20 °C, mm²/s", "IAPWS 2008", "calculated", "1.00340",
        lambda: 1e6 * water_viscosity(20), 1e-3),
)  # fmt: skip
