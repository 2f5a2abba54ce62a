"""What a container weighs on the surface under it: stated, never judged."""

from brimful.records import record

GRAVITY_M_S2 = 9.80665  # standard
PSF_PA = 47.88025898  # one pound-force on a square foot, exact definitions
DEFER = "A deck, balcony, roof or vault: have a structural engineer say what it may carry."


@record
class BaseLoad:
    """Load of one container on what it stands on: mass [kg], over its base or its feet, without any verdict."""

    mass_kg: float
    area_m2: float

    def __post_init__(self) -> None:
        if not (self.mass_kg >= 0.0 and self.area_m2 > 0.0):
            raise ValueError(f"mass {self.mass_kg:g} kg on {self.area_m2:g} m²; expected 0 or more on more than 0")

    @property
    def kg_m2(self) -> float:
        """Mass over each square metre of base [kg/m²]."""
        return self.mass_kg / self.area_m2

    @property
    def pressure_kpa(self) -> float:
        """Pressure under the base [kPa]."""
        return self.kg_m2 * GRAVITY_M_S2 / 1000.0

    @property
    def psf(self) -> float:
        """Pounds on each square foot of base [lb/ft²]."""
        return 1000.0 * self.pressure_kpa / PSF_PA


def base_load(saturated_kg: float, base_area_m2: float) -> BaseLoad:
    """Load of a container full of water on its base, stated and never judged [kg/m², kPa, lb/ft²].

    Formula: mass over area; times 9.80665 for the pressure.
    Args: saturated_kg: shell, mix at its wettest and plants [kg]. base_area_m2: base, or all feet together [m²].
    Returns: mass, area and the load in the three units.
    Valid: base_area_m2 > 0. What a structure may carry is for a structural engineer, always.
    Source: definition.

    >>> round(base_load(300, 0.3425).kg_m2)
    876
    """
    return BaseLoad(saturated_kg, base_area_m2)
