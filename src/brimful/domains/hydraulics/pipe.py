"""One pipe in plain Python: head loss from flow, and flow from head loss."""

import math

from brimful.domains.hydraulics.friction import DEFAULT_LAW, LAMINAR_LIMIT, FrictionLaw
from brimful.domains.hydraulics.water import L_H_PER_M3_S, STANDARD_GRAVITY_M_S2, VISCOSITY_20_C_M2_S
from brimful.records import record


@record
class Water:
    """The water, and how it rubs along a wall."""

    viscosity_m2_s: float = VISCOSITY_20_C_M2_S
    gravity_m_s2: float = STANDARD_GRAVITY_M_S2
    law: FrictionLaw = DEFAULT_LAW


@record
class Pipe:
    """A pipe made ready for many sums, in L/h and m."""

    friction: float  # times f·q² gives metres
    local: float  # times q²
    reynolds: float  # Re per L/h
    laminar: float  # times q gives metres while the flow is laminar
    laminar_to_l_h: float  # up to which flow that holds; 0 where the law has no laminar part
    relative: float  # ε/D
    law: FrictionLaw

    @classmethod
    def of(cls, length_m: float, inner_diameter_m: float, *, roughness_m: float, loss_k: float, water: Water) -> "Pipe":
        """From plain measures."""
        d, c = inner_diameter_m, 8.0 / (math.pi**2 * water.gravity_m_s2 * L_H_PER_M3_S**2)
        re = 4.0 / (math.pi * d * water.viscosity_m2_s * L_H_PER_M3_S)
        friction = c * length_m / d**5
        limit = LAMINAR_LIMIT / re if water.law.laminar else 0.0
        return cls(friction, c * loss_k / d**4, re, 64.0 * friction / re, limit, roughness_m / d, water.law)

    def loss(self, flow_l_h: float) -> tuple[float, float]:
        """Head lost [m], signed as the flow, and its slope against flow [m per L/h]."""
        q = abs(flow_l_h)
        if q < self.laminar_to_l_h:
            return flow_l_h * (self.laminar + self.local * q), self.laminar + 2.0 * self.local * q
        q = max(q, 1e-10)
        f, slope = self.law.at(self.reynolds * q, self.relative)
        rise = (self.friction * f + self.local) * q
        return flow_l_h * rise, 2.0 * rise + self.friction * slope * q

    def flow(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] that loses a given head [m], and its slope; Newton within a bracket."""
        wanted, low = abs(head_m), 0.0
        high = q = wanted / self.laminar
        while not self.law.laminar and self.loss(high)[0] < wanted:
            high *= 4.0
        for _ in range(80):
            lost, slope = self.loss(q)
            low, high = (q, high) if lost < wanted else (low, q)
            new = q + (wanted - lost) / slope
            if not low <= new <= high:
                new = 0.5 * (low + high)
            q, step = new, abs(new - q)
            if step <= 1e-14 * q:
                break
        return math.copysign(q, head_m), 1.0 / self.loss(q)[1]


def head_loss(
    flow_l_h: float,
    length_m: float,
    *,
    inner_diameter_m: float,
    viscosity_m2_s: float,
    roughness_m: float = 1.5e-6,
    loss_k: float = 0.0,
) -> float:
    """Head lost along a pipe in m (Darcy–Weisbach).

    Formula: hf = f·(L/D)·V²/(2g) + K·V²/(2g), V = 4Q/(π·D²).

    Args:
        flow_l_h: flow [L/h]; length_m: length [m]; inner_diameter_m: bore [m]; viscosity_m2_s: of the water [m²/s];
        roughness_m: of the wall [m], 0.0015 mm for plastic; loss_k: sum of K of the fittings [-]
    Returns: head lost [m], signed as the flow
    Valid: every regime; see friction_factor
    Source: Darcy–Weisbach (Hydraulic Institute Engineering Data Library eq. 3.A.1, read)

    >>> round(head_loss(8.0, 1.0, inner_diameter_m=0.00432, viscosity_m2_s=1.0034e-6), 4)
    0.0266
    """
    if length_m < 0 or inner_diameter_m <= 0 or loss_k < 0:
        raise ValueError(
            f"length {length_m} m, bore {inner_diameter_m} m, K {loss_k} were given; expected a bore above 0"
        )
    water = Water(viscosity_m2_s)
    pipe = Pipe.of(length_m, inner_diameter_m, roughness_m=roughness_m, loss_k=loss_k, water=water)
    return pipe.loss(flow_l_h)[0]


def hazen_williams_loss(flow_l_h: float, length_m: float, *, inner_diameter_m: float, c: float) -> float:
    """Head lost by Hazen–Williams in m: only to compare with older tables; it has no laminar flow.

    Formula: hf = 10.67·L·Q^1.852 / (C^1.852·D^4.8704), Q in m³/s.

    Args:
        flow_l_h: flow [L/h]; length_m: length [m]; inner_diameter_m: bore [m]; c: Hazen–Williams C [-]
    Returns: head lost [m]
    Valid: water, turbulent flow; never for 1/4-inch tube
    Source: SI form of Hazen–Williams (read)
    """
    if inner_diameter_m <= 0 or c <= 0:
        raise ValueError(f"bore {inner_diameter_m} m and C {c} were given; expected both above 0")
    q = abs(flow_l_h) / L_H_PER_M3_S
    return math.copysign(10.67 * length_m * q**1.852 / (c**1.852 * inner_diameter_m**4.8704), flow_l_h)


def velocity_m_s(flow_l_h: float, inner_diameter_m: float) -> float:
    """Mean speed of the water in a round bore in m/s (V = 4Q/(π·D²))."""
    return 4.0 * abs(flow_l_h) / L_H_PER_M3_S / (math.pi * inner_diameter_m**2)


def laminar_limit_flow_l_h(inner_diameter_m: float, viscosity_m2_s: float) -> float:
    """The flow in L/h up to which a bore runs laminar (Re = 2000).

    >>> round(laminar_limit_flow_l_h(0.00432, 1.0034e-6), 1)
    24.5
    """
    return 2000.0 * math.pi * inner_diameter_m * viscosity_m2_s / 4.0 * L_H_PER_M3_S
