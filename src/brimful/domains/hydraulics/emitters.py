"""What an emitter gives at a pressure: the laws, one class each, and which name picks which.

Heads are pressure heads at the emitter in metres of water; flows are of one emitter in L/h. Nothing flows at h ≤ 0, and
nothing flows back into the line. Every law gives the flow and its slope against head, for one number (`at`) and for an
array (`along`).
"""

import math
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from brimful.records import record

if TYPE_CHECKING:
    from brimful.domains.hydraulics.arrays import Array


@runtime_checkable
class EmitterLaw(Protocol):
    """Anything that gives a flow at a head, never falling as the head rises, and zero where there is no head."""

    def at(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] and its slope [L/h per m] at one pressure head [m]."""
        ...

    def along(self, head_m: "Array") -> "tuple[Array, Array]":
        """The same over an array of heads."""
        ...


@record
class PowerEmitter:
    """An emitter that follows its pressure: q = k·h^x."""

    coefficient_l_h: float  # k, L/h at 1 m of head
    exponent: float  # x: 0.5 for a turbulent path or orifice, 1 for a laminar one

    def __post_init__(self) -> None:
        if not (self.coefficient_l_h > 0 and math.isfinite(self.coefficient_l_h) and 0 < self.exponent <= 1):
            raise ValueError(
                f"coefficient {self.coefficient_l_h} L/h and exponent {self.exponent} were given; "
                "expected a coefficient above 0 and an exponent above 0 and at most 1"
            )

    def at(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] and its slope at one head [m]."""
        if head_m <= 0:
            return 0.0, 0.0
        q = self.coefficient_l_h * head_m**self.exponent
        return q, self.exponent * q / head_m

    def along(self, head_m: "Array") -> "tuple[Array, Array]":
        """The same over an array of heads."""
        import numpy as np

        wet = head_m > 0
        safe = np.where(wet, head_m, 1.0)
        q = np.where(wet, self.coefficient_l_h * safe**self.exponent, 0.0)
        return q, self.exponent * q / safe


@record
class CompensatingEmitter:
    """A pressure-compensating emitter: k·h^x from its start to its greatest pressure, an orifice below the start."""

    coefficient_l_h: float  # k, L/h at 1 m of head; with exponent 0 simply the flow
    exponent: float  # x: 0 ideal, 0 to 0.1 typical
    start_m: float  # below this the rubber does not yet work (5 to 10 m: common practice, no source)
    most_m: float  # above this the maker promises nothing (35 to 42 m: common practice, no source)

    def __post_init__(self) -> None:
        if not (self.coefficient_l_h > 0 and 0 <= self.exponent <= 0.5 and 0 < self.start_m < self.most_m):
            raise ValueError(
                f"coefficient {self.coefficient_l_h} L/h, exponent {self.exponent}, range {self.start_m} to "
                f"{self.most_m} m were given; expected a coefficient above 0, an exponent of 0 to 0.5, a start above 0"
            )

    def at(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] and its slope at one head [m]."""
        if head_m <= 0:
            return 0.0, 0.0
        if head_m < self.start_m:
            q = self.coefficient_l_h * self.start_m**self.exponent * math.sqrt(head_m / self.start_m)
            return q, 0.5 * q / head_m
        q = self.coefficient_l_h * head_m**self.exponent
        return q, self.exponent * q / head_m

    def along(self, head_m: "Array") -> "tuple[Array, Array]":
        """The same over an array of heads."""
        import numpy as np

        wet = head_m > 0
        safe = np.where(wet, head_m, 1.0)
        working = np.maximum(safe, self.start_m)
        below = safe < self.start_m
        q = self.coefficient_l_h * working**self.exponent * np.where(below, np.sqrt(safe / working), 1.0)
        q = np.where(wet, q, 0.0)
        return q, np.where(below, 0.5, self.exponent) * q / safe


@record
class MicrotubeEmitter:
    """A length of thin open tube as an emitter: friction along it in every regime, plus entry and exit."""

    inner_diameter_m: float
    length_m: float
    viscosity_m2_s: float
    roughness_m: float = 1.5e-6
    loss_k: float = 1.57  # sharp entry 0.57 and exit 1.0 (fluids package, read)
    gravity_m_s2: float = 9.80665

    def __post_init__(self) -> None:
        if not (self.inner_diameter_m > 0 and self.length_m > 0 and self.viscosity_m2_s > 0 and self.loss_k >= 0):
            raise ValueError(
                f"bore {self.inner_diameter_m} m, length {self.length_m} m, viscosity {self.viscosity_m2_s} m²/s, "
                f"K {self.loss_k} were given; expected all above 0 (K may be 0)"
            )

    def at(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] and its slope at one head [m]."""
        from brimful.domains.hydraulics.pipe import Pipe, Water

        if head_m <= 0:
            return 0.0, 0.0
        water = Water(self.viscosity_m2_s, self.gravity_m_s2)
        pipe = Pipe.of(
            self.length_m, self.inner_diameter_m, roughness_m=self.roughness_m, loss_k=self.loss_k, water=water
        )
        return pipe.flow(head_m)

    def along(self, head_m: "Array") -> "tuple[Array, Array]":
        """The same over an array of heads."""
        import numpy as np

        from brimful.domains.hydraulics.arrays import PipeArrays
        from brimful.domains.hydraulics.friction import DEFAULT_LAW

        one = np.ones(1)
        pipes = PipeArrays.of(
            one * self.length_m,
            one * self.inner_diameter_m,
            one * self.roughness_m,
            one * self.loss_k,
            viscosity_m2_s=self.viscosity_m2_s,
            gravity_m_s2=self.gravity_m_s2,
            law=DEFAULT_LAW,
        )
        wet = head_m > 0
        flow, slope = pipes.flow(np.where(wet, head_m, 1.0), np.zeros_like(head_m))
        return np.where(wet, flow * 3.6e6, 0.0), np.where(wet, slope * 3.6e6, 0.0)


EMITTER_LAWS: dict[str, type[EmitterLaw]] = {
    "power": PowerEmitter,
    "compensating": CompensatingEmitter,
    "microtube": MicrotubeEmitter,
}


def emitter_from_points(head_1_m: float, flow_1_l_h: float, *, head_2_m: float, flow_2_l_h: float) -> PowerEmitter:
    """The emitter law through two measured points, flow in L/h at head in m (x = ln(q1/q2)/ln(h1/h2)).

    Args:
        head_1_m, head_2_m: pressure heads [m]; flow_1_l_h, flow_2_l_h: flows of one emitter there [L/h]
    Returns: the emitter
    Valid: two different heads inside the maker's range, flow rising with head
    Source: definition of the emitter exponent

    >>> round(emitter_from_points(10, 4.0, head_2_m=12.011, flow_2_l_h=4.32).exponent, 2)
    0.42
    """
    if min(head_1_m, head_2_m, flow_1_l_h, flow_2_l_h) <= 0 or head_1_m == head_2_m:
        raise ValueError(
            f"points ({head_1_m} m, {flow_1_l_h} L/h) and ({head_2_m} m, {flow_2_l_h} L/h) were given; "
            "expected two different heads, all figures above 0"
        )
    exponent = math.log(flow_1_l_h / flow_2_l_h) / math.log(head_1_m / head_2_m)
    return PowerEmitter(flow_1_l_h / head_1_m**exponent, exponent)


def rated_emitter(flow_l_h: float, head_m: float, *, exponent: float) -> PowerEmitter:
    """The emitter law from its rating: so many L/h at so many metres of head, and its exponent.

    >>> law = rated_emitter(2.0, 15.0, exponent=0.5)
    >>> round(law.at(8.0)[0], 4), round(law.at(25.0)[0], 4)
    (1.4606, 2.582)
    """
    if flow_l_h <= 0 or head_m <= 0:
        raise ValueError(f"{flow_l_h} L/h at {head_m} m was given; expected both above 0")
    return PowerEmitter(flow_l_h / head_m**exponent, exponent)
