"""What kinds of quantity there are, the unit each is kept in, and an example to show a person."""

from enum import Enum


class System(Enum):
    """Whose units a person reads: US customary or metric."""

    US = "us"
    METRIC = "metric"


class Dimension(Enum):
    """A kind of quantity: how to name it in a sentence, its canonical unit, and how a person might write one.

    PRESSURE is kept as metres of water. DEPTH is rain or evapotranspiration in mm. TEMPERATURE is °C, SHARE 0 to 1.
    """

    LENGTH = ("a length", "m", "31 in")
    AREA = ("an area", "m2", "12 sq ft")
    VOLUME = ("a volume", "L", "5 gal")
    FLOW = ("a flow", "L/h", "0.5 gph")
    PRESSURE = ("a pressure", "m", "25 psi")
    TIME = ("a time", "s", "45 min")
    MASS = ("a weight", "kg", "12 lb")
    TEMPERATURE = ("a temperature", "°C", "28 °F")
    SPEED = ("a speed", "m/s", "5 mph")
    DEPTH = ("a depth of water", "mm", "1/4 in")
    ANGLE = ("an angle", "°", "47.5 N")
    DENSITY = ("a density", "kg/m3", "25 lb/cu ft")
    RADIATION = ("a day's sunshine", "MJ/m2/day", "21.5 MJ/m2/day")
    NUMBER = ("a plain number", "", "12")
    SHARE = ("a share", "", "15 %")

    def __init__(self, words: str, unit: str, example: str) -> None:
        self.words = words
        self.unit = unit
        self.example = example

    @property
    def needs_unit(self) -> bool:
        """Whether a bare number says too little."""
        return self not in (Dimension.NUMBER, Dimension.SHARE, Dimension.ANGLE)
