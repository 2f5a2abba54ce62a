"""Losses at fittings: K, equivalent length, valve coefficients, barbs; and a line with many outlets by one factor."""

import math

from brimful.domains.hydraulics.water import L_H_PER_M3_S, STANDARD_GRAVITY_M_S2

_GPM_L_H = 227.12470704  # 1 US gallon a minute, exact
_PSI_M = 0.703069579639  # 1 psi as metres of water of 1000 kg/m³ at standard gravity
BARB_SIZES = {"large": (23.04, -1.84), "standard": (18.91, -1.87), "small": (14.38, -1.89)}
FITTING_K = {  # EPANET 2.2 manual, table of minor losses (read); spread of small screwed parts ±25 to 50 %
    "globe valve": 10.0,
    "angle valve": 5.0,
    "swing check valve": 2.5,
    "gate valve": 0.2,
    "short elbow": 0.9,
    "medium elbow": 0.8,
    "long elbow": 0.6,
    "45 degree elbow": 0.4,
    "return bend": 2.2,
    "tee run": 0.6,
    "tee branch": 1.8,
    "square entrance": 0.5,
    "exit": 1.0,
}


def fitting_loss(loss_k: float, velocity_m_s: float, gravity_m_s2: float = STANDARD_GRAVITY_M_S2) -> float:
    """Head lost at a fitting in m (K·V²/2g).

    >>> round(fitting_loss(10.0, 1.5), 4)
    1.1472
    """
    return loss_k * velocity_m_s * abs(velocity_m_s) / (2.0 * gravity_m_s2)


def equivalent_length(loss_k: float, friction_factor: float, *, inner_diameter_m: float) -> float:
    """Length of plain tube in m that loses as much as a fitting (Le = K·D/f).

    >>> round(equivalent_length(1.0, 0.03, inner_diameter_m=0.01524), 3)
    0.508
    """
    if friction_factor <= 0:
        raise ValueError(f"friction factor {friction_factor} was given; expected more than 0")
    return loss_k * inner_diameter_m / friction_factor


def k_of_length(length_m: float, friction_factor: float, *, inner_diameter_m: float) -> float:
    """K of a fitting whose equivalent length in m is printed (K = f·Le/D)."""
    if inner_diameter_m <= 0:
        raise ValueError(f"bore {inner_diameter_m} m was given; expected more than 0")
    return friction_factor * length_m / inner_diameter_m


def valve_loss(flow_l_h: float, cv: float) -> float:
    """Head lost in a valve with a US flow coefficient Cv, in m (Δp[psi] = (gpm/Cv)²).

    Args:
        flow_l_h: flow [L/h]; cv: US gallons a minute at 1 psi [-]
    Returns: head lost [m]
    Valid: turbulent flow in the valve
    Source: PVC engineering data sheet (read)

    >>> round(valve_loss(4 * 227.12470704, 4.0) / 0.703069579639, 2)
    1.0
    """
    if cv <= 0:
        raise ValueError(f"Cv {cv} was given; expected more than 0")
    return _PSI_M * (flow_l_h / _GPM_L_H / cv) ** 2


def k_of_cv(cv: float, inner_diameter_m: float, gravity_m_s2: float = STANDARD_GRAVITY_M_S2) -> float:
    """K of a valve on a bore, from its US flow coefficient Cv.

    Formula: K = 2g·h/V² at any flow, with h from Δp[psi] = (gpm/Cv)².

    >>> round(k_of_cv(4.0, 0.0208), 1)
    25.0
    """
    if inner_diameter_m <= 0:
        raise ValueError(f"bore {inner_diameter_m} m was given; expected more than 0")
    velocity = 4.0 * _GPM_L_H / L_H_PER_M3_S / (math.pi * inner_diameter_m**2)
    return 2.0 * gravity_m_s2 * valve_loss(_GPM_L_H, cv) / velocity**2


def barb_k(bore_ratio: float) -> float:
    """K of an insert (barb) fitting that narrows the bore, on the velocity in the tube.

    Formula: K = 0.5·(1-β²)/β⁴ + (1-β²)²/β⁴, β = bore of the barb over bore of the tube.

    Args:
        bore_ratio: β [-]
    Returns: K [-]
    Valid: 0.2 < β ≤ 1
    Source: sudden contraction and Borda's expansion (calculated form)

    >>> round(barb_k(0.8), 3), round(barb_k(0.7), 3)
    (0.756, 2.145)
    """
    if not 0.2 < bore_ratio <= 1:
        raise ValueError(f"bore ratio {bore_ratio} was given; expected above 0.2 and up to 1")
    square = bore_ratio**2
    return (0.5 * (1.0 - square) + (1.0 - square) ** 2) / square**2


def barb_equivalent_length(inner_diameter_m: float, size: str = "standard") -> float:
    """Length in m by which one emitter barb seems to lengthen a lateral (f_e; Montalvo 1983).

    Formula: f_e = a·D^b, D in mm: large 23.04, -1.84; standard 18.91, -1.87; small 14.38, -1.89.

    Args:
        inner_diameter_m: bore of the lateral [m]; size: "large", "standard" or "small"
    Returns: equivalent length an emitter [m]
    Valid: bores of 10 to 25 mm
    Source: Montalvo (1983), fit to the NRCS chart (from memory)

    >>> round(barb_equivalent_length(0.0136), 3)
    0.144
    """
    if size not in BARB_SIZES or inner_diameter_m <= 0:
        raise ValueError(
            f"barb {size!r}, bore {inner_diameter_m} m; expected one of {', '.join(BARB_SIZES)}, bore above 0"
        )
    factor, power = BARB_SIZES[size]
    return float(factor * (inner_diameter_m * 1e3) ** power)


def with_barbs(length_m: float, spacing_m: float, *, barb_m: float) -> float:
    """Length in m of a line lengthened by its emitters' barbs (L·(S + f_e)/S)."""
    if spacing_m <= 0 or barb_m < 0:
        raise ValueError(f"spacing {spacing_m} m, barb {barb_m} m were given; expected a spacing above 0")
    return length_m * (spacing_m + barb_m) / spacing_m


def christiansen_factor(outlets: int, exponent: float = 1.75, *, first: float = 1.0) -> float:
    """Share of the full-flow friction that a line with equal outlets loses (F; Christiansen 1942).

    Formula: F = 1/(m+1) + 1/(2N) + √(m-1)/(6N²), exactly 1 for one outlet; first outlet at r of a spacing:
    F_r = (N·F + r - 1)/(N + r - 1).

    Args:
        outlets: N [-]; exponent: m of flow in the friction law, 1.75 smooth, 1.852 Hazen–Williams, 2 rough [-]
        first: r, distance of the first outlet from the inlet in spacings [-]
    Returns: F [-]
    Valid: equal outlet flows; within 0.0002 of the exact sum from 4 outlets on
    Source: Christiansen (1942); first-outlet form after Jensen & Fratini (both from memory)

    >>> round(christiansen_factor(10, 1.852), 4), round(christiansen_factor(20, first=0.5), 4)
    (0.4022, 0.3733)
    """
    if outlets < 1 or exponent < 1 or not 0 < first <= 1:
        raise ValueError(
            f"{outlets} outlets, exponent {exponent}, first {first}; expected 1 or more, at least 1, 0 to 1"
        )
    n = outlets
    if n == 1:
        return 1.0
    whole = 1.0 / (exponent + 1.0) + 1.0 / (2.0 * n) + math.sqrt(exponent - 1.0) / (6.0 * n * n)
    return (n * whole + first - 1.0) / (n + first - 1.0)
