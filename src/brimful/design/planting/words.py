"""What a sentence of the domains holds, as the reader says it: lengths, warmth and plants."""

import re
from collections.abc import Mapping

from brimful.quantities import Dimension, System, show

METRIC = re.compile(r"(-?\d+(?:\.\d+)?) (cm|m|°C)(?![\w²³/])")


def in_units(sentence: str, units: str) -> str:
    """The sentence with its centimetres, metres and degrees shown in the plan's units.

    >>> in_units("Fill to 2.54 cm below the rim", "US"), in_units("Fill to 2.5 cm below the rim", "metric")
    ('Fill to 1 in below the rim', 'Fill to 2.5 cm below the rim')
    """
    return sentence if units == "metric" else METRIC.sub(_shown, sentence)


def by_name(sentence: str, names: Mapping[str, str]) -> str:
    """The sentence with plants by the names that people read, in place of their keys in the plant table.

    >>> by_name("Set 4 geranium-zonal, 1 salvia", {"geranium-zonal": "zonal geranium"})
    'Set 4 zonal geranium, 1 salvia'
    """
    if not names:
        return sentence
    keys = "|".join(re.escape(key) for key in names)
    return re.sub(rf"(?<![\w-])(?:{keys})(?![\w-])", lambda found: names[found[0]], sentence)


def _shown(found: re.Match[str]) -> str:
    value, unit = float(found[1]), found[2]
    if unit == "°C":
        return show(value, Dimension.TEMPERATURE, System.US)
    return show(value / 100 if unit == "cm" else value, Dimension.LENGTH, System.US)
