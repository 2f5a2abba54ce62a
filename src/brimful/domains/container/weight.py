"""What a container weighs: empty to lift it, dry in a storm, drained in use, saturated for what it stands on."""

from brimful.records import record


@record
class Weights:
    """Weights of one planted container [kg], by the question each answers."""

    empty_kg: float
    """Lifting: the shell alone."""
    dry_kg: float
    """Wind: the lightest it gets, mix dried out."""
    drained_kg: float
    """In use: after watering and draining."""
    saturated_kg: float
    """Structure: every pore and the reservoir full."""


def shell_kg(shell_volume_l: float, density_kg_m3: float) -> float:
    """Weight of the empty container, in kilograms.

    Formula: shell volume × density of its material.
    Args: shell_volume_l: outside less inside [L]; density_kg_m3 [kg/m³]
    Returns: [kg]
    Valid: both above 0
    Source: arithmetic; densities stand with the materials

    >>> round(shell_kg(2.698 * 28.316846592, 2360))
    180
    """
    if not (shell_volume_l > 0 and density_kg_m3 > 0):
        raise ValueError(f"{shell_volume_l} L at {density_kg_m3} kg/m³ was given; expected both above 0")
    return shell_volume_l / 1000 * density_kg_m3


def planted_weights(
    empty_kg: float, mix_volume_l: float, *, bulk_kg_l: float, water_l: "Water", others_kg: float = 0.0
) -> Weights:
    """Weights of a planted container in each state, in kilograms.

    Formula: shell + mix volume × dry bulk density + plants + water, 1 kg to the litre.
    Args: empty_kg: the shell [kg]; mix_volume_l [L]; bulk_kg_l: dry bulk density [kg/L]; water_l: water held in each
        state; others_kg: plants and what else is always there [kg]
    Returns: [kg]
    Valid: all at least 0, water rising from dry to saturated
    Source: arithmetic
    """
    low, middle, high = water_l.dry_l, water_l.drained_l, water_l.saturated_l
    if not (min(empty_kg, mix_volume_l, bulk_kg_l, others_kg) >= 0 and 0 <= low <= middle <= high):
        raise ValueError(
            f"shell {empty_kg} kg, mix {mix_volume_l} L of {bulk_kg_l} kg/L, others {others_kg} kg, "
            f"water {low}, {middle}, {high} L were given; expected none below 0 and water rising from dry to saturated"
        )
    solid = empty_kg + mix_volume_l * bulk_kg_l + others_kg
    return Weights(empty_kg, solid + low, solid + middle, solid + high)


@record
class Water:
    """Water in a container in each state [L]: dried out, drained, saturated with a full reservoir."""

    dry_l: float
    drained_l: float
    saturated_l: float
