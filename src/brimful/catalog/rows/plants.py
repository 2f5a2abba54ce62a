"""Rows about plants: taxa, trade sizes, water use by class and by where they stand."""

import re
from collections.abc import Iterator
from dataclasses import replace

from brimful.catalog.cells import choice, flag, number, text, whole, words
from brimful.catalog.rows.row import Row, in_order
from brimful.records import record


@record(kw_only=True)
class Plant(Row):
    """A taxon or habit group; sizes in containers, months 1 to 12, empty bloom months for foliage plants."""

    table = "plants"
    botanical_name: str = text("botanical_name")
    common_name: str = text("common_name")
    life: str = choice("life", "annual", "tender-perennial", "perennial", "shrub", "grass", "bulb")
    habit: str = choice("habit", "upright", "mounding", "trailing", "rosette", "climbing")
    height_min_m: float = number("height_min", 0.01, 10, unit="cm")
    height_max_m: float = number("height_max", 0.01, 10, unit="cm")
    spread_min_m: float = number("spread_min", 0.01, 10, unit="cm")
    spread_max_m: float = number("spread_max", 0.01, 10, unit="cm")
    light: tuple[str, ...] = words("light", "full-sun", "part-sun", "part-shade", "shade")
    direct_sun_hours_min: float = number("direct_sun_hours_min", 0, 24)
    direct_sun_hours_max: float = number("direct_sun_hours_max", 0, 24)
    water_use: str = choice("water_use", "low", "moderate", "high")
    min_temp_damage_c: float = number("min_temp_damage", -60, 25, unit="c")
    heat_tolerance: str = choice("heat_tolerance", "low", "med", "high")
    cold_season: bool = flag("cold_season")
    bloom_start_month: int | None = whole("bloom_start_month", 1, 12, optional=True)
    bloom_end_month: int | None = whole("bloom_end_month", 1, 12, optional=True)
    flower_colours: tuple[str, ...] = words("flower_colours", optional=True)
    foliage_colour: tuple[str, ...] = words("foliage_colour", optional=True)
    deadhead: str = choice("deadhead", "none", "helpful", "needed")
    trim: str = choice("trim", "none", "light", "hard")
    feed: str = choice("feed", "light", "moderate", "heavy")
    weeks_to_fill: float = number("weeks_to_fill", 0, 104)
    usual_spacing_m: float = number("usual_spacing", 0.02, 5, unit="cm")
    toxic_to_pets: str = choice("toxic_to_pets", "yes", "no", "unknown")
    skin_irritant: str = choice("skin_irritant", "yes", "no", "unknown")
    pollinator_value: str = choice("pollinator_value", "low", "med", "high")
    invasive_caution: str = text("invasive_caution")

    @property
    def name(self) -> str:
        """Its common name."""
        return self.common_name

    @property
    def names(self) -> tuple[str, ...]:
        """Common and botanical name; the botanical one also without the group after its comma."""
        return self.common_name, self.botanical_name, self.botanical_name.split(",")[0]

    def in_south(self) -> "Plant":
        """The same plant with its months of bloom half a year later, as they are south of the equator."""
        if self.bloom_start_month is None or self.bloom_end_month is None:
            return self
        start, end = ((month + 5) % 12 + 1 for month in (self.bloom_start_month, self.bloom_end_month))
        return replace(self, bloom_start_month=start, bloom_end_month=end)

    def faults(self) -> Iterator[str]:
        """Least at most the greatest; bloom months both or neither."""
        yield from in_order("height", self.height_min_m, self.height_max_m)
        yield from in_order("spread", self.spread_min_m, self.spread_max_m)
        yield from in_order("direct_sun_hours", self.direct_sun_hours_min, self.direct_sun_hours_max)
        if (self.bloom_start_month is None) != (self.bloom_end_month is None):
            yield "one bloom month was given; expected bloom_start_month and bloom_end_month, or neither"


@record(kw_only=True)
class RootBall(Row):
    """A trade size of plant: its pot's volume, width at the top and depth."""

    table = "root_balls"
    name: str = text("name")
    plan: str = choice("plan", "round", "square")
    width_m: float = number("width", 0.01, 1, unit="mm")
    depth_m: float = number("depth", 0.01, 1, unit="mm")
    volume_l: float = number("volume", 0.01, 200, unit="l")
    volume_low_l: float = number("volume_low", 0.01, 200, unit="l")
    volume_high_l: float = number("volume_high", 0.01, 200, unit="l")
    per_tray: int | None = whole("per_tray", 1, 500, optional=True)

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from in_order("volume", self.volume_low_l, self.volume_l, self.volume_high_l)


@record(kw_only=True)
class Colour(Row):
    """A colour word of flowers or leaves and the screen colour that stands for its class."""

    table = "colours"
    name: str = text("name")
    use: str = choice("use", "flower", "leaf")
    srgb: str = text("srgb")

    def faults(self) -> Iterator[str]:
        """Six hex digits."""
        if not re.fullmatch("#[0-9A-Fa-f]{6}", self.srgb):
            yield f'srgb "{self.srgb}" was given; expected a colour such as "#DA2418"'


@record(kw_only=True)
class PlantFactor(Row):
    """Water use of a closed canopy as a share of reference evapotranspiration, by a plant's water-use class."""

    table = "plant_factors"
    name: str = text("name")
    factor: float = number("factor", 0.05, 2.5)
    factor_low: float = number("factor_low", 0.05, 2.5)
    factor_high: float = number("factor_high", 0.05, 2.5)

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from in_order("factor", self.factor_low, self.factor, self.factor_high)


@record(kw_only=True)
class Microclimate(Row):
    """How much more or less water plants use for where they stand, against the same plants massed on planted ground."""

    table = "microclimates"
    name: str = text("name")
    factor: float = number("factor", 0.3, 2.5)
    factor_low: float = number("factor_low", 0.3, 2.5)
    factor_high: float = number("factor_high", 0.3, 2.5)

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from in_order("factor", self.factor_low, self.factor, self.factor_high)
