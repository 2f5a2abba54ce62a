"""Lengths and temperatures within a sentence, in the units the plan asks for."""

import re

from brimful.quantities import Dimension, System, show

METRIC = re.compile(r"(-?\d+(?:\.\d+)?) (cm|m|°C)(?![\w²³/])")


def in_units(sentence: str, units: str) -> str:
    """The sentence with its centimetres, metres and degrees shown in the plan's units.

    >>> in_units("Fill to 2.54 cm below the rim", "US"), in_units("Fill to 2.5 cm below the rim", "metric")
    ('Fill to 1 in below the rim', 'Fill to 2.5 cm below the rim')
    """
    return sentence if units == "metric" else METRIC.sub(_shown, sentence)


def _shown(found: re.Match[str]) -> str:
    value, unit = float(found[1]), found[2]
    if unit == "°C":
        return show(value, Dimension.TEMPERATURE, System.US)
    return show(value / 100 if unit == "cm" else value, Dimension.LENGTH, System.US)
