"""Wind on a container and its crown: does it tip, does it slide."""

from collections.abc import Sequence
from math import inf, sqrt

from brimful.records import record

AIR_KG_M3 = 1.225  # sea level, 15 °C, standard atmosphere
GRAVITY_M_S2 = 9.80665  # standard
SAFETY = 1.5  # wanted against tipping; common practice, no source
UNEVEN_BASE = 0.9  # share of the base that bears on uneven paving; common practice, no source
FRICTION_WET, FRICTION_DRY = 0.3, 0.5  # container on paving; from memory, no source read
SHELL_DRAG = 1.0  # bluff cylinder or box, the safe side; from memory, no source read
CROWN_DRAG = {"leafy annuals": 0.4, "grasses": 0.4, "evergreen": 0.6, "unknown": 0.6}  # common practice, no source


@record
class WindBody:
    """One thing the wind pushes on: drag coefficient, frontal area [m²], height of its middle above the base [m]."""

    drag: float
    area_m2: float
    middle_m: float

    def __post_init__(self) -> None:
        if not min(self.drag, self.area_m2, self.middle_m) >= 0.0:
            raise ValueError(f"drag, area and height are expected to be 0 or more, got {self}")


@record
class WindStanding:
    """How a container stands in a gust: push [N], moments [N m], safety against tipping, friction needed."""

    force_n: float
    overturning_n_m: float
    resisting_n_m: float
    safety: float
    friction_needed: float

    def stands(self, *, safety: float = SAFETY, friction: float = FRICTION_WET) -> bool:
        """Whether it neither tips, with the safety wanted, nor slides on the friction there is."""
        return self.safety >= safety and self.friction_needed <= friction


def wind_pressure_pa(speed_m_s: float) -> float:
    """Pressure of the wind at a speed [Pa].

    Formula: q = ½ × 1.225 × V².
    Args: speed_m_s: gust [m/s].
    Returns: Pa.
    Valid: speed_m_s ≥ 0, near sea level.
    Source: definition of dynamic pressure.

    >>> round(wind_pressure_pa(20))
    245
    """
    if not speed_m_s >= 0.0:
        raise ValueError(f"speed_m_s is {speed_m_s:g}; expected 0 or more")
    return 0.5 * AIR_KG_M3 * speed_m_s**2


def wind_standing(
    speed_m_s: float, bodies: Sequence[WindBody], *, mass_kg: float, base_m: float, even: bool = True
) -> WindStanding:
    """How a container stands in a gust at its lightest: tipping over the edge of its base and sliding on it.

    Formula: push = q × Σ Cd A; tipping = q × Σ Cd A z; holding = m g b/2 (0.9 b uneven); safety = holding / tipping.
    Args: speed_m_s: gust [m/s]. bodies: shell and crown. mass_kg: lightest credible, mix dry [kg].
        base_m: width of base or feet [m]. even: False on uneven paving.
    Returns: push, moments, safety (infinite in no wind), friction needed.
    Valid: mass_kg, base_m > 0. Local code speeds and ties to structures belong to an engineer.
    Source: statics; square law of wind on trees (Arboriculture & Urban Forestry 31/3, abstract).
    """
    if not (mass_kg > 0.0 and base_m > 0.0):
        raise ValueError(f"mass {mass_kg:g} kg on a base of {base_m:g} m; expected both above 0")
    pressure = wind_pressure_pa(speed_m_s)
    force = pressure * sum(body.drag * body.area_m2 for body in bodies)
    tipping = pressure * _lever_m3(bodies)
    holding = mass_kg * GRAVITY_M_S2 * _bearing_m(base_m, even) / 2.0
    safety = holding / tipping if tipping > 0.0 else inf
    return WindStanding(force, tipping, holding, safety, force / (mass_kg * GRAVITY_M_S2))


def tipping_speed_m_s(
    bodies: Sequence[WindBody], *, mass_kg: float, base_m: float, safety: float = SAFETY, even: bool = True
) -> float:
    """Gust at which only the wanted safety against tipping is left [m/s].

    Formula: V = √(m g (b/2) / (safety × ½ρ × Σ Cd A z)).
    Args: bodies: shell and crown. mass_kg: lightest [kg]. base_m: base or feet [m].
        safety: wanted, 1 for the tipping itself. even: False on uneven paving.
    Returns: m/s; infinite where nothing catches wind.
    Valid: mass_kg, base_m, safety > 0.
    Source: statics.
    """
    if not min(mass_kg, base_m, safety) > 0.0:
        raise ValueError("mass, base and safety are expected to be above 0")
    lever = _lever_m3(bodies)
    holding = mass_kg * GRAVITY_M_S2 * _bearing_m(base_m, even) / 2.0
    return sqrt(holding / (safety * 0.5 * AIR_KG_M3 * lever)) if lever > 0.0 else inf


def sliding_speed_m_s(bodies: Sequence[WindBody], *, mass_kg: float, friction: float = FRICTION_WET) -> float:
    """Gust at which a container starts to slide [m/s].

    Formula: V = √(μ m g / (½ρ × Σ Cd A)).
    Args: bodies: shell and crown. mass_kg: lightest [kg]. friction: of the base on the paving.
    Returns: m/s; infinite where nothing catches wind.
    Valid: mass_kg > 0, friction ≥ 0.
    Source: statics; friction from memory.
    """
    if not (mass_kg > 0.0 and friction >= 0.0):
        raise ValueError(f"mass {mass_kg:g} kg and friction {friction:g}; expected above 0 and 0 or more")
    catch = sum(body.drag * body.area_m2 for body in bodies)
    return sqrt(friction * mass_kg * GRAVITY_M_S2 / (0.5 * AIR_KG_M3 * catch)) if catch > 0.0 else inf


def ballast_kg(standing: WindStanding, *, mass_kg: float, safety: float = SAFETY) -> float:
    """Weight to add low in the container for the safety wanted against tipping [kg]; 0 where there is enough.

    Formula: mass × (wanted safety / safety − 1).
    Args: standing: in the gust. mass_kg: it was worked out with [kg]. safety: wanted.
    Returns: kg.
    Valid: mass_kg > 0; the same base.
    Source: statics.
    """
    return max(0.0, mass_kg * (safety / standing.safety - 1.0))


def _lever_m3(bodies: Sequence[WindBody]) -> float:
    return sum(body.drag * body.area_m2 * body.middle_m for body in bodies)


def _bearing_m(base_m: float, even: bool) -> float:
    return base_m if even else UNEVEN_BASE * base_m
