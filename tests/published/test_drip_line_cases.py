"""Worked networks and lines.

Looped network and single pipes: R package `hydraulics` (E. Maurer), vignette section 7, Hardy Cross (read); converged
column calculated. Lateral of 100 emitters and container rows: calculated with two independent solvers, no publisher.
Water by temperature: IAPWS-95 density and IAPWS 2008 viscosity at 101 325 Pa (calculated with the `chemicals`
package).
"""

import math
from dataclasses import replace

import pytest
from tests.domains.hydraulics.engine import GRAVITY_M_S2
from tests.domains.hydraulics.layouts import line, tree

from brimful.domains.hydraulics.assembly import Assembly, Dripline, Tube, inflow_curve
from brimful.domains.hydraulics.emitters import (
    CompensatingEmitter,
    MicrotubeEmitter,
    emitter_from_points,
    rated_emitter,
)
from brimful.domains.hydraulics.friction import FRICTION_LAWS, colebrook_factor
from brimful.domains.hydraulics.losses import barb_equivalent_length, christiansen_factor, k_of_cv
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source
from brimful.domains.hydraulics.pipe import Pipe, Water, hazen_williams_loss, head_loss, laminar_limit_flow_l_h
from brimful.domains.hydraulics.solve import solve
from brimful.domains.hydraulics.uniformity import (
    christiansen_uniformity,
    combined_variation,
    emission_uniformity,
    low_quarter_uniformity,
    run_time_multiplier,
    statistical_uniformity,
)
from brimful.domains.hydraulics.water import water_density, water_viscosity

# from, to, D m, L m, f, printed flow after three iterations, converged flow m³/s (clockwise in the first loop it is in)
LOOPED = [
    ("a", "b", 0.30, 250, 0.01879, 0.0383, 0.03823),
    ("b", "c", 0.20, 100, 0.02075, 0.0383, 0.03823),
    ("c", "d", 0.20, 125, 0.02075, 0.0232, 0.02315),
    ("d", "e", 0.20, 125, 0.02075, -0.0258, -0.02565),
    ("e", "a", 0.20, 100, 0.02075, -0.0417, -0.04177),
    ("d", "f", 0.15, 100, 0.02233, 0.0090, 0.00880),
    ("f", "g", 0.25, 125, 0.01964, 0.0041, 0.00387),
    ("g", "e", 0.15, 100, 0.02233, -0.0159, -0.01613),
    ("c", "h", 0.15, 100, 0.02233, 0.0151, 0.01508),
    ("h", "f", 0.25, 125, 0.01964, -0.0049, -0.00492),
]


def test_looped_network() -> None:
    """Flows in the three loops equal the printed third iteration within 0.0003 and the converged column within 1e-5."""
    drawn = {"d": 0.04, "g": 0.02, "h": 0.02}
    links = tuple(
        Link(f"{i}", s, e, 1e-6, d, 0.0, f * length / d) for i, (s, e, d, length, f, _, _) in enumerate(LOOPED)
    )
    outlets = tuple(Outlet(n, CompensatingEmitter(q * 3.6e6, 0.0, 0.1, 900.0)) for n, q in drawn.items())
    network = Network(tuple(Node(n) for n in "abcdefgh"), links, outlets, Source("a", 500.0), 1.0034e-6)
    flows = solve(network).flow_l_h
    for i, (_, _, _, _, _, printed, converged) in enumerate(LOOPED):
        assert flows[f"{i}"] / 3.6e6 == pytest.approx(printed, abs=3.5e-4)
        assert flows[f"{i}"] / 3.6e6 == pytest.approx(converged, abs=1e-5)


@pytest.mark.parametrize(
    ("law", "inlet_m", "flow_l_h", "first_l_h", "cu", "du"),
    [
        ("blasius", 12.6100, 413.100, 4.4788, 97.137, 96.900),
        ("laminar-blasius", 12.6075, 413.070, 4.4784, 97.140, 96.909),
        ("standard", 12.5618, 412.707, 4.4704, 97.170, 96.989),
    ],
)
def test_lateral_of_100(law: str, inlet_m: float, flow_l_h: float, first_l_h: float, cu: float, du: float) -> None:
    """Lateral of 100 emitters 1 m apart, 13.6 mm bore, 4 L/h at 10 m, end head 10 m: inlet, flows, CU and DUlq."""
    network = line(100, step_m=1.0, laws=(rated_emitter(4.0, 10.0, exponent=0.5),), head_m=inlet_m)
    network = replace(network, links=tuple(replace(k, roughness_m=1.5e-6) for k in network.links))
    solution = solve(network, law=FRICTION_LAWS[law])
    assert solution.pressure_m["n100"] == pytest.approx(10.0, abs=2e-4)
    assert solution.total_l_h == pytest.approx(flow_l_h, abs=5e-3)
    assert solution.outlet_flow_l_h[0] == pytest.approx(first_l_h, abs=1e-4)
    assert christiansen_uniformity(solution.outlet_flow_l_h) == pytest.approx(cu, abs=2e-3)
    assert low_quarter_uniformity(solution.outlet_flow_l_h) == pytest.approx(du, abs=2e-3)


ROW = {"A": 17.21087, "B1": 17.08653, "B8": 16.99849, "C1": 16.92976, "C8": 16.84721}
ROW |= {"E1": 16.87074, "E8": 16.78439, "G1": 16.73581, "G8": 16.65478}
ROW_BLASIUS = {"A": 17.20520, "B1": 17.08038, "B8": 16.99017, "C1": 16.92350, "C8": 16.83858}
ROW_BLASIUS |= {"E1": 16.81799, "E8": 16.72900, "G1": 16.67676, "G8": 16.59299}


def test_container_row() -> None:
    """Container row of two branches: nine heads within 1e-4 m and seven flows within 0.01 L/h, the engine's gravity."""
    solution = solve(tree(), gravity_m_s2=GRAVITY_M_S2)
    for node, head in ROW.items():
        assert solution.head_m[node] == pytest.approx(head, abs=1e-4)
    flows = {"R-A": 601.209, "A-B1": 305.840, "A-C1": 295.369, "B1-E1": 38.298, "B8-E8": 38.200}
    flows |= {"C1-G1": 36.988, "C8-G8": 36.892}
    for link, flow in flows.items():
        assert solution.flow_l_h[link] == pytest.approx(flow, abs=0.01)


def test_container_row_by_blasius() -> None:
    """The same row with laminar below Re 2000 and Blasius above, standard gravity."""
    solution = solve(tree(), law=FRICTION_LAWS["laminar-blasius"])
    for node, head in ROW_BLASIUS.items():
        assert solution.head_m[node] == pytest.approx(head, abs=1e-4)


@pytest.mark.parametrize(
    ("outlets", "smooth", "williams", "rough", "half"),
    [
        (1, 1.0, 1.0, 1.0, 1.0),
        (4, 0.4975, 0.4852, 0.4688, 0.4257),
        (10, 0.4151, 0.4022, 0.3850, 0.3843),
        (20, 0.3890, 0.3760, 0.3588, 0.3733),
        (50, 0.3737, 0.3607, 0.3434, 0.3674),
        (100, 0.3687, 0.3556, 0.3383, 0.3655),
    ],
)
def test_christiansen_table(outlets: int, smooth: float, williams: float, rough: float, half: float) -> None:
    """Christiansen's F for three exponents, and with the first outlet at half a spacing (calculated exact sums)."""
    assert christiansen_factor(outlets, 1.75) == pytest.approx(smooth, abs=2.5e-4)
    assert christiansen_factor(outlets, 1.852) == pytest.approx(williams, abs=2.5e-4)
    assert christiansen_factor(outlets, 2.0) == pytest.approx(rough, abs=2.5e-4)
    assert christiansen_factor(outlets, 1.75, first=0.5) == pytest.approx(half, abs=2.5e-4)


@pytest.mark.parametrize(("exponent", "outlets"), [(1.75, 5), (1.852, 12), (2.0, 40)])
def test_christiansen_equals_its_sum(exponent: float, outlets: int) -> None:
    """F equals the sum it stands for, Σ k^m / N^(m+1), within 0.0003 from four outlets on."""
    exact = sum(k**exponent for k in range(1, outlets + 1)) / outlets ** (exponent + 1)
    assert christiansen_factor(outlets, exponent) == pytest.approx(exact, abs=3e-4)


@pytest.mark.parametrize(
    ("cv", "plant", "ratio", "eu"),
    [
        (0.05, 1, 0.95, 88.97),
        (0.05, 4, 0.95, 91.98),
        (0.03, 2, 0.95, 92.44),
        (0.10, 4, 0.90, 84.29),
        (0.07, 1, 1.0, 91.11),
    ],
)
def test_emission_uniformity(cv: float, plant: int, ratio: float, eu: float) -> None:
    """EU of Keller & Karmeli (calculated from the formula as read)."""
    assert emission_uniformity(4.0 * ratio, 4.0, cv=cv, per_plant=plant) == pytest.approx(eu, abs=0.01)


def test_catch_of_fifteen() -> None:
    """A catch of 15: DUlq 49.62039 as printed in a statistics package's documentation (read)."""
    catch = [47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12]
    assert low_quarter_uniformity(catch) == pytest.approx(49.62039, abs=5e-6)


def test_twelve_emitters() -> None:
    """Twelve measured emitters: CU, DUlq and Us (calculated)."""
    q = [1.98, 2.04, 2.01, 1.95, 2.08, 1.90, 2.02, 1.99, 2.05, 1.93, 2.00, 2.06]
    assert christiansen_uniformity(q) == pytest.approx(97.876, abs=1e-3)
    assert low_quarter_uniformity(q) == pytest.approx(96.293, abs=1e-3)
    assert statistical_uniformity(q) == pytest.approx(97.284, abs=1e-3)
    assert 100 * (1 - combined_variation(0.06, 0.05, exponent=0.5)) == pytest.approx(94.17, abs=5e-3)


@pytest.mark.parametrize(
    ("du", "low", "tempered", "half"),
    [
        (60, 1.6667, 1.3158, 1.3256),
        (70, 1.4286, 1.2195, 1.2258),
        (80, 1.25, 1.1364, 1.14),
        (90, 1.1111, 1.0638, 1.0654),
    ],
)
def test_run_time_multipliers(du: float, low: float, tempered: float, half: float) -> None:
    """Run-time multipliers by three rules (rules from memory, values calculated)."""
    found = [run_time_multiplier(du, rule) for rule in ("low quarter", "tempered", "low half")]
    assert found == pytest.approx([low, tempered, half], abs=5.1e-5)


def test_emitter_of_two_points() -> None:
    """Printed worked example: x 0.42, 4 L/h at 10 m; 4.32 L/h wants 12 m (read)."""
    law = rated_emitter(4.0, 10.0, exponent=0.42)
    assert (4.32 / law.coefficient_l_h) ** (1 / 0.42) == pytest.approx(12.0, abs=0.05)
    assert emitter_from_points(10, 4.0, head_2_m=12.011, flow_2_l_h=4.32).exponent == pytest.approx(0.42, abs=1e-3)


@pytest.mark.parametrize(("bore_mm", "length_m", "flow"), [(0.9, 1.5, 3.777), (1.2, 3.0, 5.969)])
def test_microtube(bore_mm: float, length_m: float, flow: float) -> None:
    """Laminar microtube under 10 m of head, no entry or exit loss (calculated, Hagen–Poiseuille)."""
    law = MicrotubeEmitter(bore_mm / 1e3, length_m, 1.0034e-6, loss_k=0.0)
    assert law.at(10.0)[0] == pytest.approx(flow, abs=1e-3)


@pytest.mark.parametrize(
    ("bore_mm", "large", "standard", "small"),
    [
        (12.0, 0.238, 0.181, 0.131),
        (13.6, 0.189, 0.144, 0.104),
        (15.2, 0.154, 0.117, 0.084),
        (20.8, 0.087, 0.065, 0.046),
    ],
)
def test_barbs(bore_mm: float, large: float, standard: float, small: float) -> None:
    """Equivalent length of emitter barbs, Montalvo's fit (from memory)."""
    found = [barb_equivalent_length(bore_mm / 1e3, size) for size in ("large", "standard", "small")]
    assert found == pytest.approx([large, standard, small], abs=1e-3)


def test_valve_coefficient() -> None:
    """Cv 4 on a 20.8 mm bore is K 25.017 (fluids.Cv_to_K, calculated)."""
    assert k_of_cv(4.0, 0.0208) == pytest.approx(25.017, rel=2e-3)


@pytest.mark.parametrize(
    ("celsius", "density", "nu"),
    [
        (5, 999.967, 1.51822),
        (10, 999.702, 1.30629),
        (20, 998.207, 1.00340),
        (30, 995.649, 0.80071),
        (40, 992.216, 0.65785),
    ],
)
def test_water_by_temperature(celsius: float, density: float, nu: float) -> None:
    """Density within 0.01 kg/m³ and viscosity within 0.1 % of IAPWS."""
    assert water_density(celsius) == pytest.approx(density, abs=0.01)
    assert water_viscosity(celsius) * 1e6 == pytest.approx(nu, rel=1e-3)


@pytest.mark.parametrize(
    ("bore_in", "gpm", "psi"),
    [(0.696, 1, 0.25), (0.696, 4, 3.24), (0.696, 9, 14.53), (0.874, 5, 1.61), (1.101, 8, 1.25)],
)
def test_hazen_williams_table(bore_in: float, gpm: float, psi: float) -> None:
    """Printed SDR 13.5 PVC table, C 150, psi per 100 ft (read); the SI form is within 1.3 % of the table's US form."""
    lost = hazen_williams_loss(gpm * 227.12470704, 30.48, inner_diameter_m=bore_in * 0.0254, c=150)
    assert lost / 0.3048 * 0.4335 == pytest.approx(psi, rel=0.013, abs=0.005)


@pytest.mark.parametrize(
    ("bore_m", "flow_l_h", "lost_m"),
    [(0.00432, 4, 0.0133), (0.00432, 24, 0.0798), (0.004, 4, 0.0181), (0.004, 8, 0.0362), (0.004, 16, 0.0724)],
)
def test_feeder_table(bore_m: float, flow_l_h: float, lost_m: float) -> None:
    """Head loss a metre of thin feeder, laminar (calculated)."""
    lost = head_loss(flow_l_h, 1.0, inner_diameter_m=bore_m, viscosity_m2_s=1.0034e-6)
    assert lost == pytest.approx(lost_m, abs=7e-5)


def test_laminar_limits() -> None:
    """Laminar limit: 6.5 gph in 0.170 in, 22.8 gph in 0.600 in at 20 °C (calculated, 1 %)."""
    assert laminar_limit_flow_l_h(0.17 * 0.0254, 1.0034e-6) / 3.785411784 == pytest.approx(6.5, rel=0.01)
    assert laminar_limit_flow_l_h(0.6 * 0.0254, 1.0034e-6) / 3.785411784 == pytest.approx(22.8, rel=0.01)


@pytest.mark.parametrize(
    ("re", "relative", "f"),
    [(248625, 0.0005 / (20 / 12), 0.0173), (1010337, 0.046e-3 / 0.5, 0.0133), (134126, 0.002 / 50, 0.017188)],
)
def test_printed_single_pipes(re: float, relative: float, f: float) -> None:
    """Friction factors of two printed pipes (R package `hydraulics`, read), and Cengel & Cimbala 8-3 (calculated)."""
    assert colebrook_factor(re, relative) == pytest.approx(f, abs=5e-5)


def test_printed_head_losses() -> None:
    """5.72 ft over 10 560 ft of 20 in pipe at 4 ft³/s (read); 9.817 m in Cengel & Cimbala example 8-3 (calculated)."""
    foot, water = 0.3048, FRICTION_LAWS["colebrook"]
    nu = 4 * 4 * foot**3 / (math.pi * 20 * 0.0254 * 248625)
    pipe = Pipe.of(
        10560 * foot, 20 * 0.0254, roughness_m=0.0005 * foot, loss_k=0.0, water=Water(nu, 32.2 * foot, water)
    )
    assert pipe.loss(4 * foot**3 * 3.6e6)[0] / foot == pytest.approx(5.72, abs=0.01)
    pipe = Pipe.of(60.0, 0.05, roughness_m=2e-6, loss_k=0.0, water=Water(1.138e-3 / 999, law=water))
    assert pipe.loss(0.006 * 3.6e6)[0] == pytest.approx(9.817, rel=2e-3)


PSI_M_20_C = 6894.757 / (998.207 * 9.80665)


@pytest.mark.parametrize(
    ("bore_in", "gph", "psi"),
    [
        (0.600, 20, 0.070),
        (0.600, 100, 1.546),
        (0.600, 200, 5.185),
        (0.600, 300, 10.60),
        (0.622, 120, 1.789),
        (0.622, 240, 6.019),
        (0.818, 200, 1.187),
        (0.818, 480, 5.538),
        (0.170, 2, 1.091),
        (0.170, 5, 2.728),
        (0.170, 15, 22.9),
        (0.160, 5, 3.477),
        (0.125, 2, 3.734),
    ],
)
def test_tubing_table(bore_in: float, gph: float, psi: float) -> None:
    """Friction of drip tubing, psi per 100 ft at 20 °C, laminar or Colebrook (calculated, no printed table found; 1
    %)."""
    water = Water(1.0034e-6, law=FRICTION_LAWS["colebrook"])
    pipe = Pipe.of(30.48, bore_in * 0.0254, roughness_m=1.5e-6, loss_k=0.0, water=water)
    assert pipe.loss(gph * 3.785411784)[0] / PSI_M_20_C == pytest.approx(psi, rel=0.01)


@pytest.mark.parametrize(
    ("bore_mm", "gph", "rated_psi", "step_in", "count"),
    [
        (4.32, 0.8, 25.0, 6, 38),
        (4.32, 0.8, 25.0, 9, 33),
        (4.32, 0.8, 25.0, 12, 30),
        (4.32, 0.5, 15.0, 6, 43),
        (4.06, 0.8, 25.0, 6, 34),
    ],
)
def test_longest_dripline(bore_mm: float, gph: float, rated_psi: float, step_in: float, count: int) -> None:
    """Emitters on 1/4-inch dripline before head falls by 20 %, the head at the inlet the rated one (calculated, ±1)."""
    head = rated_psi * 0.70307
    law = rated_emitter(gph * 3.785411784, head, exponent=0.5)

    def last_share(n: int) -> float:
        line = Assembly(None, Dripline(Tube(bore_mm / 1e3), step_in * 0.0254, n, law))
        return inflow_curve(line, Water(1.0034e-6)).point(head).heads_m[0] / head

    assert last_share(count - 1) > 0.8
    assert last_share(count + 2) < 0.8
