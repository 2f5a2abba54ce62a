"""What the tap can carry: from its static pressure and bucket tests to a curve of pressure against flow."""

import math
from collections.abc import Sequence

from brimful.records import record

FLOW_EXPONENT = 1.0 / 0.54  # head lost grows with flow to this power: Hazen–Williams turned round (from memory)


@record
class BucketTest:
    """A bucket filled while a gauge at the tap showed a pressure; a wide-open tap shows none."""

    flow_l_h: float
    head_m: float


@record
class SupplyCurve:
    """Pressure at the tap against flow: h = static - c·Q^n; nothing is promised beyond the greatest tested flow."""

    static_m: float
    coefficient: float  # m per (L/h)^n
    exponent: float
    tested_l_h: float  # the greatest flow that was tested

    def head_m(self, flow_l_h: float) -> float:
        """Pressure head at the tap at a flow [m]."""
        fallen: float = self.coefficient * max(flow_l_h, 0.0) ** self.exponent
        return self.static_m - fallen

    def capacity_l_h(self, head_m: float) -> float:
        """Flow that the tap gives at a pressure head [L/h]; 0 above its static pressure; where nothing tells how it
        falls, no more than was tested, and without end for a tap that was never tested."""
        if head_m >= self.static_m:
            return 0.0
        if self.coefficient == 0:
            return self.tested_l_h or math.inf
        return float(((self.static_m - head_m) / self.coefficient) ** (1.0 / self.exponent))


def supply_curve(tests: Sequence[BucketTest], static_m: float | None = None) -> SupplyCurve:
    """Pressure at the tap in m against flow in L/h, from bucket tests and, where known, the static pressure.

    Formula: h = static - c·Q^n, n = 1/0.54. With a static pressure and one test c follows; with more, c and n by least
    squares of log(static - h) against log Q, n kept from 1 to 2. Without a static pressure two tests give static and c.

    Args:
        tests: flows [L/h] at pressure heads [m]; static_m: pressure head with no flow [m], or none
    Returns: the curve
    Valid: flow rises as pressure falls; trust it up to the greatest tested flow
    Source: head lost by Q^(1/0.54) after Hazen–Williams (from memory)

    >>> curve = supply_curve([BucketTest(1514.0, 21.1)], static_m=42.2)
    >>> round(curve.capacity_l_h(21.1))
    1514
    """
    _check(tests, static_m)
    points = sorted((test.flow_l_h, test.head_m) for test in tests)
    most = points[-1][0] if points else 0.0
    if static_m is None:
        return _without_static(points, most)
    if not points:
        return SupplyCurve(static_m, 0.0, FLOW_EXPONENT, 0.0)
    power = _power(points, static_m) if len(points) > 1 else FLOW_EXPONENT
    logs = [math.log(static_m - h) - power * math.log(q) for q, h in points]
    return SupplyCurve(static_m, math.exp(math.fsum(logs) / len(logs)), power, most)


def _without_static(points: list[tuple[float, float]], most: float) -> SupplyCurve:
    """One test: its pressure up to its flow. More: the straight line of h against Q^n through the first and last."""
    (q1, h1), (q2, h2) = points[0], points[-1]
    if q1 == q2:
        return SupplyCurve(h1, 0.0, FLOW_EXPONENT, most)
    if h2 >= h1:
        raise ValueError(f"{q1:g} L/h at {h1:g} m and {q2:g} L/h at {h2:g} m; expected less pressure at more flow")
    c = (h1 - h2) / (q2**FLOW_EXPONENT - q1**FLOW_EXPONENT)
    return SupplyCurve(h1 + c * q1**FLOW_EXPONENT, c, FLOW_EXPONENT, most)


def _power(points: list[tuple[float, float]], static_m: float) -> float:
    """Exponent by least squares of the logarithms, kept between laminar (1) and fully rough (2)."""
    xs, ys = [math.log(q) for q, _ in points], [math.log(static_m - h) for _, h in points]
    mx, my = math.fsum(xs) / len(xs), math.fsum(ys) / len(ys)
    spread = math.fsum((x - mx) ** 2 for x in xs)
    if spread == 0:
        return FLOW_EXPONENT
    slope = math.fsum((x - mx) * (y - my) for x, y in zip(xs, ys, strict=True)) / spread
    return min(max(slope, 1.0), 2.0)


def _check(tests: Sequence[BucketTest], static_m: float | None) -> None:
    if static_m is None and not tests:
        raise ValueError("neither a static pressure nor a bucket test was given; expected at least one of them")
    for test in tests:
        if not (test.flow_l_h > 0 and test.head_m >= 0):
            raise ValueError(
                f"bucket test of {test.flow_l_h} L/h at {test.head_m} m; expected flow above 0, pressure from 0"
            )
        if static_m is not None and test.head_m >= static_m:
            raise ValueError(f"bucket test at {test.head_m:g} m; expected less than the static {static_m:g} m")


def share_of_supply(flow_l_h: float, capacity_l_h: float) -> float:
    """How much of what the tap can give a zone takes, a fraction (design to 0.75 or 0.8: common practice, no
    source)."""
    if flow_l_h < 0 or capacity_l_h < 0:
        raise ValueError(f"flow {flow_l_h}, capacity {capacity_l_h} L/h were given; expected 0 or more")
    return 0.0 if flow_l_h == 0 else flow_l_h / capacity_l_h if capacity_l_h > 0 else math.inf
