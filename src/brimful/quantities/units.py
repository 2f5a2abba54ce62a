"""Finding a unit by its spelling: the table itself, ratios such as "gal/min", and spellings too doubtful to accept."""

from brimful.quantities.dimensions import Dimension
from brimful.quantities.table import HOUR_S, UNITS, Unit

__all__ = ["AMBIGUOUS", "UNITS", "Unit", "dimension_of", "find"]

# A ratio's parts, and how many canonical units of the ratio one canonical upper unit per canonical lower unit makes.
_RATIOS = {
    Dimension.FLOW: (Dimension.VOLUME, Dimension.TIME, HOUR_S),
    Dimension.SPEED: (Dimension.LENGTH, Dimension.TIME, 1.0),
    Dimension.DENSITY: (Dimension.MASS, Dimension.VOLUME, 1000.0),
}

# Spellings of which a wrong guess would cost a pump or a bag: (dimension, spelling as written) → what to write.
AMBIGUOUS = {
    (Dimension.VOLUME, "ML"): 'write "mL" for millilitres or "m3" for thousands of litres',
    (Dimension.VOLUME, "Ml"): 'write "mL" for millilitres or "m3" for thousands of litres',
    (Dimension.VOLUME, "oz"): 'write "fl oz" for a volume; "oz" is a weight',
    (Dimension.MASS, "Mg"): 'write "mg" for milligrams or "t" for tonnes',
    (Dimension.MASS, "MG"): 'write "mg" for milligrams or "t" for tonnes',
    (Dimension.MASS, "ton"): 'write "short ton" for 2,000 lb or "tonne" for 1,000 kg',
    (Dimension.MASS, "tons"): 'write "short ton" for 2,000 lb or "tonne" for 1,000 kg',
    (Dimension.PRESSURE, "mPa"): 'write "MPa" for a million pascals or "kPa" for a thousand',
    (Dimension.PRESSURE, "mpa"): 'write "MPa" for a million pascals or "kPa" for a thousand',
}


def find(spelling: str, dimension: Dimension) -> Unit | None:
    """The unit of this dimension that goes by this spelling (already tidied), or None."""
    name = spelling.lower()
    unit = UNITS[dimension].get(name)
    if unit is None and dimension in _RATIOS:
        return _ratio(name, dimension)
    return unit


def _ratio(name: str, dimension: Dimension) -> Unit | None:
    upper, slash, lower = name.partition("/")
    above, below, scale = _RATIOS[dimension]
    top, bottom = UNITS[above].get(upper), UNITS[below].get(lower)
    if not slash or top is None or bottom is None:
        return None
    return Unit(top.factor / bottom.factor * scale)


def dimension_of(spelling: str) -> Dimension | None:
    """The first dimension that knows this spelling, or None."""
    return next((dimension for dimension in Dimension if find(spelling, dimension)), None)
