"""Number to text, rounded as a person would act on it.

Each dimension climbs a ladder of rungs in each system. `show` takes the rung that fits the size; with `small` it stays
in the ladder's small unit (inches, fluid ounces, ounces, gallons per hour …). Tables want one unit in the header:
`unit_of` names it, `show_number` gives the text below it and `in_unit` the float; `small` picks the small unit.
"""

import math
from typing import Literal

from brimful.quantities.dimensions import Dimension, System
from brimful.quantities.table import FOOT_M, GALLON_L, HEAD_PA_PER_M, INCH_M, POUND_KG, PSI_PA, Unit
from brimful.quantities.units import find
from brimful.records import record

Rounding = Literal["quarters", "significant"] | int


@record
class Rung:
    """One step: the unit, how to round in it (decimals, or by name), and the canonical size that it serves up to."""

    unit: str
    rounding: Rounding
    below: float = math.inf


_LADDERS: dict[tuple[Dimension, System], tuple[Rung, ...]] = {
    (Dimension.LENGTH, System.US): (Rung("in", 2, INCH_M), Rung("in", "quarters", 10 * FOOT_M), Rung("ft", 1)),
    (Dimension.LENGTH, System.METRIC): (Rung("mm", 1, 0.05), Rung("m", 2)),
    (Dimension.AREA, System.US): (Rung("sq in", 1, FOOT_M**2), Rung("sq ft", 1)),
    (Dimension.AREA, System.METRIC): (Rung("cm²", 1, 0.01), Rung("m²", 2)),
    (Dimension.VOLUME, System.US): (Rung("fl oz", 1, GALLON_L / 4), Rung("gal", 1)),
    (Dimension.VOLUME, System.METRIC): (Rung("mL", 0, 1.0), Rung("L", 1)),
    (Dimension.FLOW, System.US): (Rung("gph", "significant", 60 * GALLON_L), Rung("gpm", "significant")),
    (Dimension.FLOW, System.METRIC): (Rung("L/h", "significant"),),
    (Dimension.PRESSURE, System.US): (Rung("psi", 2, PSI_PA / HEAD_PA_PER_M), Rung("psi", 1)),
    (Dimension.PRESSURE, System.METRIC): (Rung("kPa", 1, 1e4 / HEAD_PA_PER_M), Rung("bar", 2)),
    (Dimension.MASS, System.US): (Rung("oz", 1, POUND_KG), Rung("lb", 2, 10 * POUND_KG), Rung("lb", 1)),
    (Dimension.MASS, System.METRIC): (Rung("g", 0, 1.0), Rung("kg", 2, 10.0), Rung("kg", 1)),
    (Dimension.TEMPERATURE, System.US): (Rung("°F", 0),),
    (Dimension.TEMPERATURE, System.METRIC): (Rung("°C", 1),),
    (Dimension.SPEED, System.US): (Rung("mph", 1),),
    (Dimension.SPEED, System.METRIC): (Rung("m/s", 1),),
    (Dimension.DEPTH, System.US): (Rung("in", 2),),
    (Dimension.DEPTH, System.METRIC): (Rung("mm", 1),),
    (Dimension.DENSITY, System.US): (Rung("lb/cu ft", 1),),
    (Dimension.DENSITY, System.METRIC): (Rung("kg/m³", 0),),
    (Dimension.RADIATION, System.US): (Rung("langley/day", 0),),
    (Dimension.RADIATION, System.METRIC): (Rung("MJ/m²/day", 1),),
}
_EITHER: dict[Dimension, tuple[Rung, ...]] = {
    Dimension.TIME: (Rung("s", 0, 120.0), Rung("min", 1, 10800.0), Rung("h", 1)),
    Dimension.ANGLE: (Rung("°", 2),),
    Dimension.NUMBER: (Rung("", 2),),
    Dimension.SHARE: (Rung("%", 1),),
}
_MAIN = {Dimension.TIME: "min"}  # timers are set in minutes; everywhere else the top rung is the main one


def show(value: float, dimension: Dimension, system: System, *, small: bool = False) -> str:
    """A canonical value as a person reads it, number and unit; `small` keeps to the small unit.

    >>> show(94.635, Dimension.VOLUME, System.US), show(94.635, Dimension.VOLUME, System.METRIC)
    ('25 gal', '94.6 L')
    """
    rungs = _rungs(dimension, system)
    rung = _fitting(value, _in_one_unit(rungs, rungs[0].unit) if small else rungs)
    number = _trimmed(_written(value, dimension, system, rung))
    return f"{number}{'' if rung.unit in ('', '°') else ' '}{rung.unit}"


def show_number(value: float, dimension: Dimension, system: System, *, small: bool = False) -> str:
    """The number alone, in the unit that `unit_of` names, with its decimals kept so that a column lines up."""
    unit = unit_of(dimension, system, small=small)
    return _written(value, dimension, system, _fitting(value, _in_one_unit(_rungs(dimension, system), unit)))


def unit_of(dimension: Dimension, system: System, *, small: bool = False) -> str:
    """The unit for a table's header: the main one, or with `small` the small one; empty for a plain number.

    >>> unit_of(Dimension.FLOW, System.US), unit_of(Dimension.FLOW, System.US, small=True)
    ('gpm', 'gph')
    """
    rungs = _rungs(dimension, system)
    return rungs[0].unit if small else _MAIN.get(dimension, rungs[-1].unit)


def in_unit(value: float, dimension: Dimension, system: System, *, small: bool = False) -> float:
    """A canonical value as a float in the unit that `unit_of` names, unrounded (for charts)."""
    return _unit(unit_of(dimension, system, small=small), dimension).from_canonical(value)


def _rungs(dimension: Dimension, system: System) -> tuple[Rung, ...]:
    return _EITHER.get(dimension) or _LADDERS[dimension, system]


def _in_one_unit(rungs: tuple[Rung, ...], unit: str) -> tuple[Rung, ...]:
    return tuple(rung for rung in rungs if rung.unit == unit)


def _fitting(value: float, rungs: tuple[Rung, ...]) -> Rung:
    if not math.isfinite(value):
        raise ValueError(f"a finite number was expected, {value} was given")
    return next((rung for rung in rungs if abs(value) < rung.below), rungs[-1])


def _unit(name: str, dimension: Dimension) -> Unit:
    return find(name.replace("²", "2").replace("³", "3"), dimension) or Unit(1.0)


def _written(value: float, dimension: Dimension, system: System, rung: Rung) -> str:
    number = _unit(rung.unit, dimension).from_canonical(value)
    if rung.rounding == "quarters":
        return _quarters(number)
    decimals = _three_figures(number) if rung.rounding == "significant" else rung.rounding
    text = f"{number:z,.{decimals}f}"
    return text if system is System.US else text.replace(",", "\u202f")


def _three_figures(number: float) -> int:
    """Decimals that leave three significant figures; never fewer than none, never more than six."""
    if abs(number) < 1e-6:
        return 0
    return min(6, max(0, 2 - math.floor(math.log10(abs(number)))))


def _quarters(number: float) -> str:
    """Inches to the nearest quarter, as on a tape: "30 1/2"."""
    whole, rest = divmod(round(abs(number) * 4), 4)
    sign = "-" if number < 0 and (whole or rest) else ""
    fraction = ("", "1/4", "1/2", "3/4")[rest]
    return sign + (f"{whole} {fraction}".strip() if whole or not rest else fraction)


def _trimmed(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number
