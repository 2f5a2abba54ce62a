"""Friction factor of a round pipe (Darcy's f, four times Fanning's): the laws, and which name picks which.

Each law gives f and Re·df/dRe together, since a solver wants both. The default law stands twice, for one number and for
an array, because the march through a small zone runs in plain Python and a batch of variants runs in numpy.
"""

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from brimful.records import record

if TYPE_CHECKING:
    from brimful.domains.hydraulics.arrays import Array

LAMINAR_LIMIT = 2000.0
TURBULENT_LIMIT = 4000.0
PLASTIC_ROUGHNESS_M = 1.5e-6  # EPANET 2.2 manual, chapter 3, roughness table (read)
_LOG_SQUARE = 0.25 * math.log(10.0) ** 2
_AA = -2.0 / math.log(10.0) * 1.8  # -1.56346: slope constant of the Swamee–Jain law at its lower end
_AB = 5.74 / TURBULENT_LIMIT**0.9
_AC = _AA * _AB  # the engine's sign; the printed manual subtracts it, and then the law jumps at Re 4000


def reynolds(flow_l_h: float, inner_diameter_m: float, viscosity_m2_s: float) -> float:
    """Reynolds number of the flow in a round bore: below 2000 it glides (laminar), above 4000 it tumbles (turbulent).

    Formula: Re = 4·Q / (π·D·ν).

    Args:
        flow_l_h: flow [L/h]; inner_diameter_m: bore [m]; viscosity_m2_s: kinematic viscosity [m²/s]
    Returns: Reynolds number [-]
    Valid: full round pipe
    Source: definition

    >>> round(reynolds(24.5, 0.00432, 1.0034e-6), -1)
    2000.0
    """
    if inner_diameter_m <= 0 or viscosity_m2_s <= 0:
        raise ValueError(
            f"bore {inner_diameter_m} m, viscosity {viscosity_m2_s} m²/s were given; expected both above 0"
        )
    return 4.0 * abs(flow_l_h) / 3.6e6 / (math.pi * inner_diameter_m * viscosity_m2_s)


def regime(reynolds_number: float) -> str:
    """Whether flow is "laminar", in "transition" or "turbulent" (limits 2000 and 4000, EPANET 2.2 manual ch. 12)."""
    if reynolds_number < LAMINAR_LIMIT:
        return "laminar"
    return "transition" if reynolds_number < TURBULENT_LIMIT else "turbulent"


def laminar_factor(reynolds_number: float) -> float:
    """Friction factor of laminar flow, 64/Re (Hagen–Poiseuille).

    >>> laminar_factor(128)
    0.5
    """
    return 64.0 / reynolds_number


def blasius_factor(reynolds_number: float) -> float:
    """Friction factor of a smooth bore, 0.3164/Re^0.25 (Blasius; Re 3000 to 100 000).

    >>> round(blasius_factor(10000), 5)
    0.03164
    """
    return 0.3164 / math.sqrt(math.sqrt(reynolds_number))


def swamee_jain_factor(reynolds_number: float, relative_roughness: float) -> float:
    """Friction factor of turbulent flow in one step (Swamee & Jain 1976; Re above 4000).

    Formula: f = 0.25 / log10(ε/(3.7·D) + 5.74/Re^0.9)².
    """
    return _LOG_SQUARE / math.log(relative_roughness / 3.7 + 5.74 / reynolds_number**0.9) ** 2


def colebrook_factor(reynolds_number: float, relative_roughness: float) -> float:
    """Friction factor of turbulent flow, the implicit standard (Colebrook 1939; Re above 4000).

    Formula: 1/√f = -2·log10(ε/(3.7·D) + 2.51/(Re·√f)), solved by Newton to the last digit.

    >>> round(colebrook_factor(1e5, 1e-4), 13)
    0.0185138660775
    """
    x = 1.0 / math.sqrt(swamee_jain_factor(reynolds_number, relative_roughness))
    scale = 2.0 / math.log(10.0)
    for _ in range(20):
        inside = relative_roughness / 3.7 + 2.51 * x / reynolds_number
        step = (x + scale * math.log(inside)) / (1.0 + scale * 2.51 / reynolds_number / inside)
        x -= step
        if abs(step) < 1e-14 * x:
            break
    return 1.0 / (x * x)


def friction_factor(reynolds_number: float, relative_roughness: float = 0.0) -> float:
    """Friction factor in every regime: laminar to Re 2000, Dunlop's cubic to 4000, Swamee–Jain above (EPANET's law).

    Formula: 64/Re; cubic in Re/2000 (Dunlop 1991); 0.25 / log10(ε/(3.7·D) + 5.74/Re^0.9)².

    Args:
        reynolds_number: Re [-]; relative_roughness: wall roughness over bore ε/D [-]
    Returns: Darcy friction factor [-]
    Valid: all Re > 0, ε/D below 0.05. Between 2000 and 4000 measured friction scatters by a third
    Source: EPANET 2.2 manual chapter 12 with the sign of the engine (read); Swamee & Jain (1976)

    >>> round(friction_factor(3000), 6), round(friction_factor(2500), 6)
    (0.033074, 0.029135)
    """
    if not reynolds_number > 0 or relative_roughness < 0:
        raise ValueError(f"Re {reynolds_number}, ε/D {relative_roughness} were given; expected Re > 0 and ε/D ≥ 0")
    return engine_law(reynolds_number, relative_roughness)[0]


def engine_law(re: float, rr: float) -> tuple[float, float]:
    """The default law for one number: f and Re·df/dRe, unchecked (see friction_factor)."""
    if re <= LAMINAR_LIMIT:
        f = 64.0 / re
        return f, -f
    if re >= TURBULENT_LIMIT:
        part = 5.74 / re**0.9
        inside = rr / 3.7 + part
        log = math.log(inside)
        f = _LOG_SQUARE / (log * log)
        return f, 1.8 * f * part / (inside * log)
    c0, c1, c2, c3 = dunlop_coefficients(rr)
    r = re / LAMINAR_LIMIT
    return c0 + r * (c1 + r * (c2 + r * c3)), r * (c1 + r * (2 * c2 + r * 3 * c3))


def dunlop_coefficients(rr: float) -> tuple[float, float, float, float]:
    """Coefficients of Dunlop's cubic in Re/2000, which joins both neighbours in value and slope (Dunlop 1991)."""
    y2 = rr / 3.7 + _AB
    y3 = -2.0 / math.log(10.0) * math.log(y2)
    fa = 1.0 / (y3 * y3)
    fb = (2.0 + _AC / (y2 * y3)) * fa
    return 7 * fa - fb, 0.128 - 17 * fa + 2.5 * fb, -0.128 + 13 * fa - 2 * fb, 0.032 - 3 * fa + 0.5 * fb


def _blasius_law(re: float, _rr: float) -> tuple[float, float]:
    f = blasius_factor(re)
    return f, -0.25 * f


def _late_law(re: float, rr: float) -> tuple[float, float]:
    return (64.0 / re, -64.0 / re) if re < TURBULENT_LIMIT else engine_law(re, rr)


def _early_law(re: float, rr: float) -> tuple[float, float]:
    if re < LAMINAR_LIMIT or re >= TURBULENT_LIMIT:
        return engine_law(re, rr)
    return _laminar_blasius_law(re, rr)


def _laminar_blasius_law(re: float, rr: float) -> tuple[float, float]:
    return (64.0 / re, -64.0 / re) if re < LAMINAR_LIMIT else _blasius_law(re, rr)


def _laminar_colebrook_law(re: float, rr: float) -> tuple[float, float]:
    if re < LAMINAR_LIMIT:
        return 64.0 / re, -64.0 / re
    f = colebrook_factor(re, rr)
    inside = rr / 3.7 + 2.51 / (re * math.sqrt(f))
    share = 2.51 / (re * math.sqrt(f)) / inside  # how much of the logarithm's argument is viscous
    part = 2.0 / math.log(10.0) * math.sqrt(f) * share
    return f, -2.0 * f * part / (1.0 + part)


@record
class FrictionLaw:
    """A named friction law: in plain words, and as a function of (Re, ε/D) giving (f, Re·df/dRe)."""

    name: str
    words: str
    at: Callable[[float, float], tuple[float, float]]
    laminar: bool = True  # whether it is 64/Re at low Re, and nowhere less than that

    def along(self, re: "Array", rr: "Array") -> "tuple[Array, Array]":
        """The law over arrays of Re and ε/D."""
        from brimful.domains.hydraulics.arrays import law_along

        return law_along(self, re, rr)


DEFAULT_LAW = FrictionLaw("standard", "64/Re to 2000, Dunlop's cubic to 4000, Swamee–Jain above", engine_law)
FRICTION_LAWS = {
    law.name: law
    for law in (
        DEFAULT_LAW,
        FrictionLaw("colebrook", "64/Re below 2000, Colebrook from there on", _laminar_colebrook_law),
        FrictionLaw("laminar-blasius", "64/Re below 2000, Blasius from there on", _laminar_blasius_law),
        FrictionLaw(
            "late", "as the standard, but laminar up to Re 4000: the least friction the band may show", _late_law
        ),
        FrictionLaw(
            "early", "as the standard, but turbulent from Re 2000: the most friction the band may show", _early_law
        ),
        FrictionLaw("blasius", "Blasius at every Re: for comparison with printed drip sums only", _blasius_law, False),
    )
}
