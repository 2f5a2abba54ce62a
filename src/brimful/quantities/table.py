"""Unit names and their size in canonical units. Every factor is exact by definition unless its line says otherwise.

Sources (memory): the international yard and pound (1959), US gallon = 231 cubic inches, US bushel = 2150.42 cubic
inches, standard gravity 9.80665 m/s2, thermochemical calorie 4.184 J. Pressure is turned into metres of water of
1000 kg/m3 at standard gravity, so 1 psi = 0.70307 m and 1 bar = 10.1972 m.
"""

from brimful.quantities.dimensions import Dimension
from brimful.records import record

INCH_M = 0.0254
FOOT_M = 0.3048
GALLON_L = 3.785411784
BUSHEL_L = 35.23907016688
POUND_KG = 0.45359237
OUNCE_KG = POUND_KG / 16
PSI_PA = POUND_KG * 9.80665 / INCH_M**2
HEAD_PA_PER_M = 9806.65
LANGLEY_MJ_M2 = 0.04184
HOUR_S = 3600.0
DAY_S = 86400.0


@record
class Unit:
    """One unit: canonical = (value - zero) × factor."""

    factor: float
    zero: float = 0.0

    def to_canonical(self, value: float) -> float:
        """The value in the dimension's canonical unit."""
        return (value - self.zero) * self.factor

    def from_canonical(self, value: float) -> float:
        """A canonical value in this unit."""
        return value / self.factor + self.zero


def _table(rows: dict[str, float]) -> dict[str, Unit]:
    return {name: Unit(factor) for names, factor in rows.items() for name in names.split("|")}


def _powered(words: tuple[str, str], power: int, scale: float) -> dict[str, Unit]:
    """Square or cubic units from every length that is spelled in letters: "sq ft", "square feet", "ft2"."""
    lengths = {name: unit for name, unit in _LENGTH.items() if name.isalpha()}
    return {
        spelled: Unit(unit.factor**power * scale)
        for name, unit in lengths.items()
        for spelled in (f"{words[0]} {name}", f"{words[1]} {name}", f"{name}{power}")
    }


def _of_water(names: str, factor: float, endings: tuple[str, ...]) -> dict[str, Unit]:
    return {f"{name}{ending}": Unit(factor) for name in names.split("|") for ending in endings}


_METRE_WORDS = "m|meter|meters|metre|metres"
_FOOT_WORDS = "ft|foot|feet"
_INCH_WORDS = "in|inch|inches"
_MM_WORDS = "mm|millimeter|millimeters|millimetre|millimetres"
_CM_WORDS = "cm|centimeter|centimeters|centimetre|centimetres"

_LENGTH = _table(
    {
        f"{_INCH_WORDS}|\"|''": INCH_M,
        f"{_FOOT_WORDS}|'": FOOT_M,
        "yd|yds|yard|yards": 3 * FOOT_M,
        "mi|mile|miles": 5280 * FOOT_M,
        _MM_WORDS: 0.001,
        _CM_WORDS: 0.01,
        "dm|decimeter|decimeters|decimetre|decimetres": 0.1,
        _METRE_WORDS: 1.0,
        "km|kilometer|kilometers|kilometre|kilometres": 1000.0,
    }
)

_AREA = _powered(("sq", "square"), 2, 1.0) | _table(
    {"sqft|sf": FOOT_M**2, "sqm": 1.0, "ac|acre|acres": 43560 * FOOT_M**2, "ha|hectare|hectares": 10000.0}
)

_VOLUME = _powered(("cu", "cubic"), 3, 1000.0) | _table(
    {
        "l|lt|ltr|liter|liters|litre|litres": 1.0,
        "ml|milliliter|milliliters|millilitre|millilitres|cc|ccm": 0.001,
        "cl|centiliter|centiliters|centilitre|centilitres": 0.01,
        "hl|hectoliter|hectoliters|hectolitre|hectolitres": 100.0,
        "gal|gals|gallon|gallons|us gal|us gallon|us gallons": GALLON_L,
        "imp gal|imperial gallon|imperial gallons": 4.54609,
        "qt|qts|quart|quarts|liquid qt|liquid quart|liquid quarts": GALLON_L / 4,
        "pt|pts|pint|pints|liquid pt|liquid pint|liquid pints": GALLON_L / 8,
        "cup|cups": GALLON_L / 16,
        "fl oz|floz|fluid ounce|fluid ounces": GALLON_L / 128,
        "tbsp|tablespoon|tablespoons": GALLON_L / 256,
        "tsp|teaspoon|teaspoons": GALLON_L / 768,
        "bu|bushel|bushels": BUSHEL_L,
        "peck|pecks": BUSHEL_L / 4,
        "dry qt|dry qts|dry quart|dry quarts|qt dry": BUSHEL_L / 32,
        "dry pt|dry pts|dry pint|dry pints": BUSHEL_L / 64,
        "cuft|cf": 1000 * FOOT_M**3,
        "cuyd|cy": 27000 * FOOT_M**3,
    }
)

_TIME = _table(
    {
        "s|sec|secs|second|seconds": 1.0,
        "min|mins|minute|minutes": 60.0,
        "h|hr|hrs|hour|hours": HOUR_S,
        "d|day|days": DAY_S,
        "wk|wks|week|weeks": 7 * DAY_S,
    }
)

_MASS = _table(
    {
        "mg|milligram|milligrams": 1e-6,
        "g|gram|grams": 0.001,
        "kg|kgs|kilo|kilos|kilogram|kilograms": 1.0,
        "t|tonne|tonnes|metric ton|metric tons": 1000.0,
        "oz|ounce|ounces": OUNCE_KG,
        "lb|lbs|pound|pounds": POUND_KG,
        "short ton|short tons|us ton|us tons": 2000 * POUND_KG,
    }
)

_FLOW = _table(
    {
        "gph": GALLON_L,
        "gpm": 60 * GALLON_L,
        "gpd": GALLON_L / 24,
        "lph": 1.0,
        "lpm": 60.0,
        "lps": HOUR_S,
        "cfm": 60_000 * FOOT_M**3,
        "cfs": 1000 * HOUR_S * FOOT_M**3,
    }
)

_HEAD = (" of head", " head", " of water", " water")
_PRESSURE = (
    _table(
        {
            "psi|psig|lb/in2|lbs/in2|lb/sq in|lbs/sq in|pound/square inch|pounds/square inch": PSI_PA / HEAD_PA_PER_M,
            "pa|pascal|pascals": 1 / HEAD_PA_PER_M,
            "hpa|mbar|mbars|millibar|millibars": 100 / HEAD_PA_PER_M,
            "kpa|kilopascal|kilopascals": 1000 / HEAD_PA_PER_M,
            "mpa|megapascal|megapascals": 1e6 / HEAD_PA_PER_M,
            "bar|bars": 1e5 / HEAD_PA_PER_M,
            "atm|atmosphere|atmospheres": 101325 / HEAD_PA_PER_M,
            "kg/cm2|kgf/cm2": 10.0,
            "mwc": 1.0,
        }
    )
    | _of_water(_METRE_WORDS, 1.0, ("", *_HEAD))
    | _of_water(_FOOT_WORDS, FOOT_M, ("", *_HEAD))
    | _of_water(_INCH_WORDS, INCH_M, _HEAD)
    | _of_water(_CM_WORDS, 0.01, _HEAD)
)

_RAIN = ("", " of rain", " rain", " of water", " water")
_DEPTH = (
    _table({"\"|''": 25.4, "l/m2": 1.0})
    | _of_water(_MM_WORDS, 1.0, _RAIN)
    | _of_water(_CM_WORDS, 10.0, _RAIN)
    | _of_water(_METRE_WORDS, 1000.0, ("",))
    | _of_water(_INCH_WORDS, 25.4, _RAIN)
)

_TEMPERATURE = {
    name: unit
    for unit, names in (
        (Unit(1.0), "°c|c|degc|deg c|degree c|degrees c|celsius|degree celsius|degrees celsius|centigrade"),
        (Unit(5 / 9, 32.0), "°f|f|degf|deg f|degree f|degrees f|fahrenheit|degree fahrenheit|degrees fahrenheit"),
        (Unit(1.0, 273.15), "k|kelvin|kelvins"),
    )
    for name in names.split("|")
}

UNITS: dict[Dimension, dict[str, Unit]] = {
    Dimension.LENGTH: _LENGTH,
    Dimension.AREA: _AREA,
    Dimension.VOLUME: _VOLUME,
    Dimension.FLOW: _FLOW,
    Dimension.PRESSURE: _PRESSURE,
    Dimension.TIME: _TIME,
    Dimension.MASS: _MASS,
    Dimension.TEMPERATURE: _TEMPERATURE,
    Dimension.SPEED: _table({"mph": 5280 * FOOT_M / HOUR_S, "kph|kmh": 1 / 3.6, "kn|kt|knot|knots": 1852 / HOUR_S}),
    Dimension.DEPTH: _DEPTH,
    Dimension.ANGLE: _table({"°|deg|degs|degree|degrees": 1.0, "'": 1 / 60, "\"|''": 1 / 3600}),
    Dimension.DENSITY: _table({"pcf": POUND_KG / FOOT_M**3}),
    Dimension.RADIATION: _table(
        {
            "mj/m2/day|mj/m2/d|mj/m2 day|mj/m2|mj m-2 day-1|mj m-2 d-1|mj m-2": 1.0,
            "langley|langleys|ly|ly/day|ly/d|langley/day|langleys/day|cal/cm2|cal/cm2/day": LANGLEY_MJ_M2,
            "w/m2|w m-2|watt/square meter|watts/square meter|watt/square metre|watts/square metre": DAY_S / 1e6,
            "j/cm2|j/cm2/day|j/cm2/d": 0.01,
            "kwh/m2|kwh/m2/day|kwh/m2/d": 3.6,
        }
    ),
    Dimension.NUMBER: {},
    Dimension.SHARE: _table({"%|percent|per cent|pct": 0.01}),
}
