"""What a weather file may hold: the words for it, its dimension, and what is possible on this planet."""

from brimful.quantities import Dimension
from brimful.quantities.units import Unit, find
from brimful.records import record


@record
class Variable:
    """One daily variable: its key in a plan, its field in the record, and the limits no day passes.

    `scale` turns the dimension's canonical unit into the record's. `usual` is the range that nine tenths of any
    record's days keep to somewhere on land. `names` are the headers it goes by; `guesses` the units people forget.
    """

    key: str
    field: str
    dimension: Dimension
    unit: str
    limits: tuple[float, float]
    names: tuple[str, ...]
    guesses: tuple[str, ...] = ()
    scale: float = 1.0

    def unit_named(self, spelling: str) -> Unit | None:
        """The unit of this variable that goes by this spelling, into the record's unit; None where there is none."""
        unit = find(tidy_unit(spelling), self.dimension)
        return None if unit is None else Unit(unit.factor * self.scale, unit.zero)


_SPELLINGS = str.maketrans({"²": "2", "³": "3", "⁻": "-", "¹": "1", "º": "°", "˚": "°", "·": " "})
_ODD = {"mp/h": "mph", "inch of rain": "in", "deg c": "°C", "deg f": "°F", "in.": "in", "℃": "°C", "℉": "°F"}

_TEMPERATURE = (-90.0, 58.0)  # coldest and hottest air on record, rounded outward (memory)
_HUMIDITY = (0.0, 105.0)  # instruments overshoot a little


def tidy_unit(spelling: str) -> str:
    """A unit as files spell it, in the spelling that the quantities know."""
    plain = " ".join(spelling.translate(_SPELLINGS).split()).replace(" / ", "/").replace("^", "")
    return _ODD.get(plain.lower(), plain)


def _humidity(key: str, *names: str) -> Variable:
    return Variable(key, f"{key}_pct", Dimension.SHARE, "%", _HUMIDITY, names, (), 100.0)


VARIABLES = (
    Variable(
        "tmax",
        "tmax_c",
        Dimension.TEMPERATURE,
        "°C",
        _TEMPERATURE,
        ("tmax", "t_max", "temp_max", "max_temp", "maxtemp", "temperature_max", "temperature_2m_max", "high", "tx"),
        ("°F", "K"),
    ),
    Variable(
        "tmin",
        "tmin_c",
        Dimension.TEMPERATURE,
        "°C",
        _TEMPERATURE,
        ("tmin", "t_min", "temp_min", "min_temp", "mintemp", "temperature_min", "temperature_2m_min", "low", "tn"),
        ("°F", "K"),
    ),
    Variable(
        "dew",
        "dew_c",
        Dimension.TEMPERATURE,
        "°C",
        (-95.0, 36.0),
        ("dew", "dew_point", "dewpoint", "tdew", "dew_point_2m_mean", "dewpoint_2m_mean"),
        ("°F", "K"),
    ),
    _humidity("rh_max", "rh_max", "humidity_max", "relative_humidity_2m_max"),
    _humidity("rh_min", "rh_min", "humidity_min", "relative_humidity_2m_min"),
    _humidity("rh_mean", "rh_mean", "rh", "humidity", "relative_humidity", "relative_humidity_2m_mean"),
    Variable(
        "radiation",
        "radiation_mj_m2",
        Dimension.RADIATION,
        "MJ/m2/day",
        (0.0, 45.0),
        ("radiation", "solar_radiation", "solar", "rs", "srad", "shortwave_radiation_sum"),
        ("langley/day", "W/m2", "J/cm2"),
    ),
    Variable(
        "sunshine",
        "sunshine_h",
        Dimension.TIME,
        "h",
        (0.0, 24.0),
        ("sunshine", "sun_hours", "sunshine_hours", "sunshine_duration"),
        ("min", "s"),
        1 / 3600,
    ),
    Variable(
        "wind",
        "wind_m_s",
        Dimension.SPEED,
        "m/s",
        (0.0, 45.0),
        ("wind", "wind_speed", "windspeed", "wind_mean", "wind_speed_10m_mean", "windspeed_10m_mean", "awnd"),
        ("km/h", "mph"),
    ),
    Variable(
        "rain",
        "rain_mm",
        Dimension.DEPTH,
        "mm",
        (0.0, 1900.0),
        ("rain", "precipitation", "precip", "prcp", "rainfall", "precipitation_sum"),
    ),
    Variable(
        "et0",
        "et0_mm",
        Dimension.DEPTH,
        "mm",
        (-1.0, 30.0),
        ("et0", "eto", "et0_fao_evapotranspiration", "et0_fao_evapotranspiration_sum"),
    ),
)

BY_KEY = {variable.key: variable for variable in VARIABLES}
BY_NAME = {name: variable for variable in VARIABLES for name in variable.names}
BY_FIELD = {variable.field: variable for variable in VARIABLES}
