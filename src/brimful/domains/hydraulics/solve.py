"""Solve a network: every head and every flow, trees and rings alike.

The unknowns are the heads. Flow in a link grows with the head across it and flow from an outlet grows with its head, so
the heads sought are the one minimum of a convex function (the co-content), and Newton with a search along each step
cannot miss it, however dry the supply and whatever the regimes.
"""

from typing import TYPE_CHECKING

from brimful.domains.hydraulics.friction import DEFAULT_LAW, FrictionLaw
from brimful.domains.hydraulics.network import Network, validate
from brimful.domains.hydraulics.water import STANDARD_GRAVITY_M_S2
from brimful.errors import SolverError
from brimful.records import record

if TYPE_CHECKING:
    from brimful.domains.hydraulics.system import State, System

HEAD_TOLERANCE_M = 1e-10
CREEP_M = 1e-5  # good enough where a pipe sits in a jump of friction, to which the steps only creep
MASS_TOLERANCE = 1e-9  # of the whole flow
MOST_STEPS = 200


@record
class Solution:
    """Heads and flows of a solved network, and how exactly they balance."""

    head_m: dict[str, float]  # by node: head above datum (pressure head plus elevation)
    pressure_m: dict[str, float]  # by node: pressure head
    flow_l_h: dict[str, float]  # by link, positive from start to end
    outlet_flow_l_h: tuple[float, ...]  # by outlet of the network, all its emitters together
    total_l_h: float
    mass_residual: float  # greatest imbalance at a node over the total flow
    energy_residual_m: float  # greatest difference between head across a link and its friction
    steps: int


def solve(network: Network, *, law: FrictionLaw = DEFAULT_LAW, gravity_m_s2: float = STANDARD_GRAVITY_M_S2) -> Solution:
    """All heads in m and flows in L/h of a drip zone, trees and rings alike, mass balanced to one part in 1e9.

    Formula: at each node, inflow = outflow + Σ q(h); along each link, head lost = f·(L/D)·V²/2g + K·V²/2g.

    Args:
        network: nodes, links, outlets, source [m, L/h]; law: friction law; gravity_m_s2: [m/s²]
    Returns: heads, pressures, flows and residuals
    Valid: any network for which `validate` finds no problem
    Raises: ValueError on a network that cannot be solved; SolverError where the sum does not converge
    Source: Todini & Pilati (1988) gradient method; co-content after Collins et al. (1978)
    """
    problems = validate(network)
    if problems:
        raise ValueError("; ".join(problem.message for problem in problems))
    from brimful.domains.hydraulics.system import System

    system = System.of(network, law, gravity_m_s2)
    state, steps = _iterate(system)
    return _solution(network, system, state, steps)


def _iterate(system: "System") -> tuple["State", int]:
    """Newton until the heads stand still, then one last linear step that balances the flows exactly."""
    state = system.start()
    for step in range(MOST_STEPS):
        change = system.newton_step(state)
        if abs(change).max() <= HEAD_TOLERANCE_M:
            return system.balanced(state, change), step + 1
        state = system.search(state, change)
    if abs(change).max() <= CREEP_M:
        return system.balanced(state, system.newton_step(state)), MOST_STEPS
    raise SolverError(f"the zone did not settle in {MOST_STEPS} steps; heads still move by {abs(change).max():.1e} m")


def _solution(network: Network, system: "System", state: "State", steps: int) -> Solution:
    """Arrays back to names, with the residuals checked."""
    total, mass, energy = system.residuals(state)
    if mass > MASS_TOLERANCE:
        raise SolverError(f"the flows of the zone do not balance: off by {mass:.1e} of the total")
    heads = dict(zip(system.node_ids, (*state.head.tolist(), network.source.head_m), strict=True))
    return Solution(
        {node.id: heads[node.id] for node in network.nodes},
        {node.id: heads[node.id] - node.elevation_m for node in network.nodes},
        {link.id: q * 3.6e6 for link, q in zip(network.links, state.flow.tolist(), strict=True)},
        tuple(q * 3.6e6 for q in state.outlet.tolist()),
        total * 3.6e6,
        mass,
        energy,
        steps,
    )
