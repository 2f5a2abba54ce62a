"""Water in a container: what it holds drained, what plants can take of it, and the air left.

A drained container stands in balance with its drain hole: suction at a height above the hole is that height. So the
deep container is drier at the top than the shallow one, and the same mix holds a smaller share of water in it. Areas
come in as a function of height z [m] above the bottom of the mix, in m²; heights where that function has a kink come in
as `breaks_m`.
"""

import math
from collections.abc import Callable, Iterable

from brimful.domains.substrate.quadrature import halvings_for, integral
from brimful.domains.substrate.retention import Retention
from brimful.records import record

Area = Callable[[float], float]

EASY_SUCTION_M = 0.50
"""5 kPa: the end of easily available water (de Boodt & Verdonck 1972, from memory)."""
STRESS_SUCTION_M = 1.00
"""10 kPa: the end of buffering water, wilting begins beyond (de Boodt & Verdonck 1972, from memory)."""
WILTING_SUCTION_M = 153.0
"""1.5 MPa: permanent wilting (memory)."""


def volume_l(area_m2: Area, depth_m: float, breaks_m: Iterable[float] = ()) -> float:
    """Volume of a mix of this area by height, in litres.

    Formula: V = ∫ A(z) dz.
    Args: area_m2: A(z) [m²]; depth_m [m]; breaks_m: heights where A has a kink [m]
    Returns: [L]
    Valid: depth above 0
    Source: solid geometry
    """
    _check_depth(depth_m)
    return 1000.0 * integral(area_m2, depth_m, breaks_m, halvings=0)


def water_held_l(
    mix: Retention, area_m2: Area, depth_m: float, *, added_m: float = 0.0, breaks_m: Iterable[float] = ()
) -> float:
    """Water that a container of mix holds in balance after draining, in litres (Milks, Fonteno & Larson 1989).

    Formula: W = ∫ A(z) θ(z + h) dz from bottom to top of the mix; h = 0 just drained, more as plants draw.
    Args: mix; area_m2: A(z) [m²]; depth_m: of the mix [m]; added_m: suction h on top of drained [m of water];
        breaks_m: heights where A has a kink [m]
    Returns: [L], relative error below 1e-10
    Valid: depth above 0, added suction at least 0, a free drain hole under the mix
    Source: equilibrium capacity of Milks, Fonteno & Larson 1989 part II (abstract read), with van Genuchten's curve

    >>> mix = Retention(0.15, 0.85, 10.0, 2.0)
    >>> round(water_held_l(mix, lambda z: 0.001, 0.15) / 0.15, 5)
    0.70756
    """
    _check_depth(depth_m)
    if not 0 <= added_m < math.inf:
        raise ValueError(f"an added suction of {added_m} m was given; expected 0 or more")
    halvings = halvings_for(depth_m, added_m)
    return 1000.0 * integral(lambda z: area_m2(z) * mix.theta(z + added_m), depth_m, breaks_m, halvings=halvings)


def water_at_suction_l(
    mix: Retention, area_m2: Area, depth_m: float, *, suction_m: float, breaks_m: Iterable[float] = ()
) -> float:
    """Water left when every layer has been drawn down to one and the same suction, in litres.

    Formula: W = ∫ A(z) θ(max(z, h)) dz: roots draw each layer to h, layers that drained beyond it stay as they are.
    Args: mix; area_m2: A(z) [m²]; depth_m [m]; suction_m: h [m of water]; breaks_m [m]
    Returns: [L], relative error below 1e-10
    Valid: depth above 0, suction at least 0
    Source: definition
    """
    _check_depth(depth_m)
    if not 0 <= suction_m < math.inf:
        raise ValueError(f"a suction of {suction_m} m was given; expected 0 or more")
    kinks = (*breaks_m, suction_m)
    return 1000.0 * integral(lambda z: area_m2(z) * mix.theta(max(z, suction_m)), depth_m, kinks)


def column_mean(mix: Retention, depth_m: float) -> float:
    """Mean water content of a drained column with straight walls, share of volume (container capacity).

    Formula: θr + (θs − θr) · mean of Se(z) over the depth; for n = 2 that mean is asinh(αH)/(αH).
    Args: mix; depth_m: H [m]
    Returns: [m³/m³]
    Valid: depth above 0
    Source: as for water held

    >>> round(column_mean(Retention(0.15, 0.85, 10.0, 2.0), 0.30), 5)
    0.5743
    """
    return water_held_l(mix, lambda _: 0.001, depth_m) / depth_m


@record
class Store:
    """The water of one container [L], counted down from drained; each share is of the mix's volume."""

    volume_l: float
    held_l: float
    easily_available_l: float
    reserve_l: float
    beyond_stress_l: float
    saturated_l: float

    @property
    def air_share(self) -> float:
        """Air in the drained mix, share of its volume."""
        return (self.saturated_l - self.held_l) / self.volume_l

    @property
    def held_share(self) -> float:
        """Water in the drained mix, share of its volume (container capacity)."""
        return self.held_l / self.volume_l


def container_store(mix: Retention, area_m2: Area, depth_m: float, *, breaks_m: Iterable[float] = ()) -> Store:
    """Water a container holds drained, and how much of it comes easily, in reserve, and only under stress, in litres.

    Formula: easily available = W(0) − W(5 kPa added everywhere); reserve = W(5 kPa) − W(10 kPa);
        beyond stress = W(10 kPa) − W(1.5 MPa, wilting).
    Args: mix; area_m2: A(z) [m²]; depth_m: of the mix [m]; breaks_m [m]
    Returns: litres
    Valid: depth above 0, a free drain hole under the mix
    Source: limits after de Boodt & Verdonck 1972 (from memory); same bookkeeping as FAO-56 eq. 82–84
    """
    kinks = tuple(breaks_m)
    volume = volume_l(area_m2, depth_m, kinks)
    suctions = (0.0, EASY_SUCTION_M, STRESS_SUCTION_M, WILTING_SUCTION_M)
    held, easy, stress, wilting = (water_held_l(mix, area_m2, depth_m, added_m=h, breaks_m=kinks) for h in suctions)
    return Store(volume, held, held - easy, easy - stress, stress - wilting, mix.theta_s * volume)


def _check_depth(depth_m: float) -> None:
    if not 0 < depth_m < math.inf:
        raise ValueError(f"a depth of {depth_m} m was given; expected above 0")
