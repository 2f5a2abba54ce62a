"""Networks that nobody thought of, against the engine and against themselves."""

import math
import os
from dataclasses import replace

from hypothesis import HealthCheck, event, given, settings, target
from hypothesis import strategies as st
from tests.domains.hydraulics.engine import GRAVITY_M_S2, greatest_difference_m

from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, MicrotubeEmitter, rated_emitter
from brimful.domains.hydraulics.network import Link, Network, Node, Outlet, Source, validate
from brimful.domains.hydraulics.solve import solve

MANY = 200 if os.environ.get("BRIMFUL_TEST_ALL") else 25
LAWS: tuple[EmitterLaw, ...] = (
    rated_emitter(2.0, 10.0, exponent=0.5),
    rated_emitter(30.0, 10.0, exponent=0.5),
    rated_emitter(4.0, 10.0, exponent=0.5),
    rated_emitter(3.0, 10.0, exponent=0.65),
    CompensatingEmitter(2.0, 0.05, 6.0, 40.0),
    MicrotubeEmitter(0.0011, 1.5, 1.0034e-6, gravity_m_s2=GRAVITY_M_S2),
)


@st.composite
def networks(draw: st.DrawFn) -> Network:
    """Trees with some rings closed in them, uneven ground, any bores of the trade, mixed emitters, any supply."""
    n = draw(st.integers(3, 25))
    lengths, bores = st.floats(0.15, 30.0), st.sampled_from([0.00318, 0.00406, 0.00432, 0.0136, 0.01524, 0.0208])
    ends = [(draw(st.integers(0, i - 1)), i) for i in range(1, n)]
    for _ in range(draw(st.integers(0, 3))):
        a, b = draw(st.integers(0, n - 1)), draw(st.integers(0, n - 1))
        if a != b:
            ends.append((a, b))
    links = tuple(
        Link(f"l{i}", f"n{a}", f"n{b}", draw(lengths), draw(bores), loss_k=draw(st.sampled_from([0.0, 0.6, 3.0])))
        for i, (a, b) in enumerate(ends)
    )
    levels = st.floats(-1.0, 3.0)
    nodes = (Node("n0"), *(Node(f"n{i}", round(draw(levels), 2)) for i in range(1, n)))
    wet = draw(st.sets(st.integers(1, n - 1), min_size=1))
    outlets = tuple(Outlet(f"n{i}", draw(st.sampled_from(LAWS)), f"pot {i}") for i in sorted(wet))
    return Network(nodes, links, outlets, Source("n0", draw(st.sampled_from([1.0, 3.5, 10.5, 17.6, 28.0]))), 1.0034e-6)


@settings(max_examples=MANY, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(network=networks())
def test_any_network_balances_and_equals_the_engine(network: Network) -> None:
    """Any network balances to 1e-9 in mass and 1e-8 m round every loop, and its heads equal EPANET's within 1 mm."""
    if any(problem.code == "idle-ring" for problem in validate(network)):
        return
    solution = solve(network, gravity_m_s2=GRAVITY_M_S2)
    assert solution.mass_residual <= 1e-9
    assert solution.energy_residual_m <= 1e-8
    difference = greatest_difference_m(network, solution.head_m)
    event("the engine did not settle" if math.isnan(difference) else "compared")
    target(0.0 if math.isnan(difference) else difference, label="greatest difference, m")
    assert math.isnan(difference) or difference < 1e-3


@settings(max_examples=MANY, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(network=networks())
def test_wider_bores_never_lower_the_worst_pressure(network: Network) -> None:
    """Doubling every bore never lowers the worst pressure, however the tubes are joined."""
    if any(problem.code == "idle-ring" for problem in validate(network)):
        return
    wide = replace(network, links=tuple(replace(k, inner_diameter_m=2 * k.inner_diameter_m) for k in network.links))
    worst = [min(s.pressure_m[o.node] for o in network.outlets) for s in (solve(network), solve(wide))]
    assert worst[1] >= worst[0] - 1e-7
