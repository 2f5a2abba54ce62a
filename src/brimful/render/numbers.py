"""Figures that stand side by side, written with as many decimals as one another."""

from collections.abc import Sequence

from brimful.quantities import Dimension, System, in_unit, show_number


def alike(values: Sequence[float], dimension: Dimension, system: System, *, small: bool = False) -> list[str]:
    """Each value in the unit that `unit_of` names, with the decimals that the greatest of them has.

    >>> alike([37.9, 37.5], Dimension.FLOW, System.METRIC), alike([9.995, 14.6], Dimension.FLOW, System.METRIC)
    (['37.9', '37.5'], ['10.0', '14.6'])
    """
    decimals = len(show_number(max(values, key=abs), dimension, system, small=small).partition(".")[2])
    texts = (f"{in_unit(value, dimension, system, small=small):z,.{decimals}f}" for value in values)
    return [text if system is System.US else text.replace(",", "\u202f") for text in texts]
