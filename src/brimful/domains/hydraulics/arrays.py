"""The friction law and the head loss of many pipes at once, in numpy."""

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from brimful.domains.hydraulics.friction import (
    DEFAULT_LAW,
    LAMINAR_LIMIT,
    TURBULENT_LIMIT,
    FrictionLaw,
    dunlop_coefficients,
)
from brimful.records import record

Array = NDArray[np.float64]
SMALLEST_FLOW_M3_S = 1e-16  # keeps 64/Re finite in a pipe at rest; its head loss is still exactly zero
_DUNLOP_KNOWN: dict[float, tuple[float, float, float, float]] = {}


def law_along(law: FrictionLaw, re: Array, rr: Array) -> tuple[Array, Array]:
    """f and Re·df/dRe of any law over arrays; the default law in numpy, the others one by one."""
    if law is DEFAULT_LAW or law.name == DEFAULT_LAW.name:
        return _default_along(re, rr)
    pairs = [law.at(float(a), float(b)) for a, b in zip(re.ravel(), np.broadcast_to(rr, re.shape).ravel(), strict=True)]
    values = np.array(pairs).reshape((*re.shape, 2))
    return values[..., 0], values[..., 1]


def _default_along(re: Array, rr: Array) -> tuple[Array, Array]:
    """The default law, each regime computed only where it holds."""
    f = 64.0 / re
    slope = -f
    turbulent = re >= TURBULENT_LIMIT
    if turbulent.any():
        part = 5.74 / re[turbulent] ** 0.9
        inside = np.broadcast_to(rr, re.shape)[turbulent] / 3.7 + part
        log = np.log(inside)
        f[turbulent] = some = 0.25 * math.log(10.0) ** 2 / (log * log)
        slope[turbulent] = 1.8 * some * part / (inside * log)
    between = (re > LAMINAR_LIMIT) & ~turbulent
    if between.any():
        f[between], slope[between] = _dunlop(re[between] / LAMINAR_LIMIT, np.broadcast_to(rr, re.shape)[between])
    return f, slope


def _dunlop(r: Array, rr: Array) -> tuple[Array, Array]:
    """Dunlop's cubic and r times its slope."""
    kinds, which = np.unique(rr, return_inverse=True)
    c0, c1, c2, c3 = np.array([dunlop_coefficients(float(kind)) for kind in kinds]).T[:, which]
    return c0 + r * (c1 + r * (c2 + r * c3)), r * (c1 + r * (2 * c2 + r * 3 * c3))


@record
class PipeArrays:
    """Many pipes at once: what the head loss needs, each an array that broadcasts against the flows."""

    friction: Array  # 8·L / (π²·g·D⁵), times f·Q² gives metres
    local: Array  # 8·K / (π²·g·D⁴), times Q²
    reynolds: Array  # Re per m³/s
    relative: Array  # ε/D
    law: FrictionLaw

    @classmethod
    def of(  # noqa: PLR0913
        cls,
        length_m: Array,
        inner_diameter_m: Array,
        roughness_m: Array,
        loss_k: Array,
        *,
        viscosity_m2_s: float,
        gravity_m_s2: float,
        law: FrictionLaw,
    ) -> "PipeArrays":
        """From plain measures."""
        d, c = inner_diameter_m, 8.0 / (math.pi**2 * gravity_m_s2)
        return cls(c * length_m / d**5, c * loss_k / d**4, 4.0 / (math.pi * d * viscosity_m2_s), roughness_m / d, law)

    def loss(self, flow_m3_s: Array) -> tuple[Array, Array]:
        """Head lost [m], signed as the flow, and its slope against flow [m per m³/s]."""
        q = np.maximum(np.abs(flow_m3_s), SMALLEST_FLOW_M3_S)
        f, slope = self.law.along(self.reynolds * q, self.relative)
        rise = (self.friction * f + self.local) * q
        return flow_m3_s * rise, 2.0 * rise + self.friction * slope * q

    def flow(self, head_m: Array, guess_m3_s: Array) -> tuple[Array, Array]:
        """Flow [m³/s] that loses a given head [m], signed alike, and its slope against head: loss turned round.

        Newton within a bracket: no pipe carries more than laminar flow would, and the loss grows with the flow.
        """
        wanted = np.abs(head_m)
        high = wanted / (self.friction * 64.0 / self.reynolds)
        while not self.law.laminar and (short := self.loss(high)[0] < wanted).any():
            high = np.where(short, 4.0 * high, high)
        return _turn_round(self.loss, wanted, high, np.abs(guess_m3_s), np.sign(head_m))


def _turn_round(
    loss: Callable[[Array], tuple[Array, Array]], wanted: Array, high: Array, guess: Array, sign: Array
) -> tuple[Array, Array]:
    """Solve loss(q) = wanted for q in [0, high], every pipe at once."""
    low = np.zeros_like(high)
    q = np.where((guess > 0) & (guess < high), guess, high)
    for _ in range(80):
        lost, slope = loss(q)
        short = lost < wanted
        low, high = np.where(short, q, low), np.where(short, high, q)
        step = (wanted - lost) / slope
        new = q + step
        new = np.where((new < low) | (new > high), 0.5 * (low + high), new)
        done = np.abs(new - q) <= 1e-14 * new
        q = new
        if done.all():
            break
    return sign * q, 1.0 / loss(q)[1]
