"""The rows of the tables: one frozen class a table, SI inside. Adding a column is one line here.

`certainty` is how sure the row's main figures are; where some are less sure, `source` says which:
read: seen in the source; memory: recalled, not checked; practice: habit of the trade, no source; calculated: follows
from others; assumed: chosen for this table.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from brimful.catalog.cells import choice, flag, number, numbers, pairs, text, whole, words
from brimful.domains.container import FORMS, Sizes
from brimful.domains.substrate import Retention

CERTAINTIES = ("read", "memory", "practice", "calculated", "assumed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What every row has."""

    table: ClassVar[str]
    key: str = text("key")
    source: str = text("source")
    certainty: str = choice("certainty", *CERTAINTIES)

    @property
    def names(self) -> tuple[str, ...]:
        """Other words a person may call it by."""
        return (self.name,) if hasattr(self, "name") else ()

    def faults(self) -> Iterator[str]:
        """What does not fit together within the row, each a sentence: what was given, what was expected."""
        return iter(())


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerType(Row):
    """A container one can buy, by its outside sizes."""

    table = "containers"
    name: str = text("name")
    shape: str = choice("shape", *FORMS)
    height_m: float = number("height", 0.05, 5, unit="mm")
    top_m: float = number("top", 0.05, 5, unit="mm")
    bottom_m: float = number("bottom", 0.02, 5, unit="mm")
    top_width_m: float | None = number("top_width", 0.05, 5, unit="mm", optional=True)
    bottom_width_m: float | None = number("bottom_width", 0.02, 5, unit="mm", optional=True)
    diameters_m: tuple[tuple[float, float], ...] = pairs("diameters_mm", 0.02, 5, scale=1e-3)
    material: str = text("material")
    wall_m: float = number("wall", 0.0005, 0.3, unit="mm")
    base_m: float = number("base", 0.0005, 2, unit="mm")
    reservoir_m: float | None = number("reservoir", 0.01, 1, unit="mm", optional=True)
    weight_kg: float | None = number("weight", 0.01, 20000, unit="kg", optional=True)

    @property
    def sizes(self) -> Sizes:
        """Outside sizes, as the geometry takes them."""
        return Sizes(
            self.height_m,
            self.top_m,
            self.bottom_m,
            self.top_width_m or 0.0,
            self.bottom_width_m or 0.0,
            self.diameters_m,
        )

    def faults(self) -> Iterator[str]:
        """A rectangular container has two widths, an urn a profile, and every container has room inside."""
        from brimful.domains.container import vessel

        if self.shape == "rectangular" and not (self.top_width_m and self.bottom_width_m):
            yield "a rectangular container without top_width and bottom_width was given; expected both"
            return
        try:
            vessel(self.shape, self.sizes, wall_m=self.wall_m, base_m=self.base_m, floor_m=self.reservoir_m or 0.0)
        except ValueError as error:
            yield str(error)


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(Row):
    """What containers are made of: density, usual thickness of wall and base."""

    table = "materials"
    name: str = text("name")
    density_kg_m3: float = number("density", 100, 12000, unit="kg_m3")
    density_low_kg_m3: float = number("density_low", 100, 12000, unit="kg_m3")
    density_high_kg_m3: float = number("density_high", 100, 12000, unit="kg_m3")
    wall_m: float = number("wall", 0.0005, 0.3, unit="mm")
    wall_low_m: float = number("wall_low", 0.0005, 0.3, unit="mm")
    wall_high_m: float = number("wall_high", 0.0005, 0.3, unit="mm")
    base_m: float = number("base", 0.0005, 0.3, unit="mm")

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from _in_order("density", self.density_low_kg_m3, self.density_kg_m3, self.density_high_kg_m3)
        yield from _in_order("wall", self.wall_low_m, self.wall_m, self.wall_high_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix(Row):
    """A potting mix: retention curve, weight, bags."""

    table = "mixes"
    name: str = text("name")
    theta_r: float = number("theta_r", 0, 0.9)
    theta_s: float = number("theta_s", 0.1, 0.98)
    alpha_per_m: float = number("alpha_per_m", 0.1, 500)
    n: float = number("n", 1.05, 10)
    dry_bulk_density_kg_m3: float = number("dry_bulk_density", 20, 2000, unit="kg_m3")
    bag_l: float = number("bag", 1, 5000, unit="l")
    bag_sizes_l: tuple[float, ...] = numbers("bag_sizes_l", 1, 5000)

    @property
    def retention(self) -> Retention:
        """The retention curve."""
        return Retention(self.theta_r, self.theta_s, self.alpha_per_m, self.n)

    def faults(self) -> Iterator[str]:
        """A saturated mix holds more than a dry one."""
        if self.theta_r >= self.theta_s:
            yield f"theta_r {self.theta_r} and theta_s {self.theta_s} were given; expected theta_r below theta_s"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube(Row):
    """Tube by its real bore: names like "1/2 inch" say little about it."""

    table = "tubing"
    name: str = text("name")
    kinds: tuple[str, ...] = words("kinds", "main", "lateral", "feeder")
    nominal: str = text("nominal")
    inner_diameter_m: float = number("inner_diameter", 0.0004, 0.2, unit="mm")
    outer_diameter_m: float = number("outer_diameter", 0.0008, 0.25, unit="mm")
    roughness_m: float = number("roughness", 0, 0.001, unit="mm")
    most_velocity_m_s: float = number("most_velocity", 0.1, 5, unit="m_s")
    most_pressure_m: float = number("most_pressure", 1, 300, unit="kpa")

    @property
    def names(self) -> tuple[str, ...]:
        """Its full name, and the size it is sold as."""
        return self.name, self.nominal

    def faults(self) -> Iterator[str]:
        """A tube has a wall."""
        yield from _walled(self.inner_diameter_m, self.outer_diameter_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Emitter(Row):
    """A single emitter: flow of one at a pressure, and how it changes with pressure."""

    table = "emitters"
    name: str = text("name")
    law: str = choice("law", "power", "compensating", "microtube")
    flow_l_h: float = number("flow", 0.05, 200, unit="l_h")
    pressure_m: float = number("pressure", 0.5, 60, unit="kpa")
    exponent: float = number("exponent", 0, 1)
    start_m: float | None = number("start_pressure", 0.5, 60, unit="kpa", optional=True)
    most_m: float = number("most_pressure", 1, 100, unit="kpa")
    variation: float = number("variation", 0, 0.3)
    inner_diameter_m: float | None = number("inner_diameter", 0.0003, 0.01, unit="mm", optional=True)
    length_m: float | None = number("length", 0.05, 20, unit="m", optional=True)

    @property
    def compensating(self) -> bool:
        """Whether it holds its flow as pressure changes."""
        return self.law == "compensating"

    def faults(self) -> Iterator[str]:
        """A compensating emitter has its range, a microtube its bore and length, any other an exponent above 0."""
        yield from _law_faults(self.law, self.exponent, self.start_m, self.most_m)
        if self.law == "microtube" and not (self.inner_diameter_m and self.length_m):
            yield "a microtube without inner_diameter and length was given; expected both"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dripline(Row):
    """Tube with emitters built in at an even spacing; flow is of one emitter."""

    table = "driplines"
    name: str = text("name")
    law: str = choice("law", "power", "compensating")
    spacing_m: float = number("spacing", 0.05, 2, unit="mm")
    flow_l_h: float = number("flow", 0.05, 50, unit="l_h")
    pressure_m: float = number("pressure", 0.5, 60, unit="kpa")
    exponent: float = number("exponent", 0, 1)
    start_m: float | None = number("start_pressure", 0.5, 60, unit="kpa", optional=True)
    most_m: float = number("most_pressure", 1, 100, unit="kpa")
    variation: float = number("variation", 0, 0.3)
    inner_diameter_m: float = number("inner_diameter", 0.001, 0.05, unit="mm")
    outer_diameter_m: float = number("outer_diameter", 0.002, 0.06, unit="mm")
    roughness_m: float = number("roughness", 0, 0.001, unit="mm")
    longest_run_m: float = number("longest_run", 0.5, 300, unit="m")

    @property
    def compensating(self) -> bool:
        """Whether it holds its flow as pressure changes."""
        return self.law == "compensating"

    def faults(self) -> Iterator[str]:
        """A tube has a wall, a compensating emitter its range."""
        yield from _walled(self.inner_diameter_m, self.outer_diameter_m)
        yield from _law_faults(self.law, self.exponent, self.start_m, self.most_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting(Row):
    """A fitting's loss: K times the velocity head in the pipe."""

    table = "fittings"
    name: str = text("name")
    loss_k: float = number("loss_k", 0, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Device(Row):
    """What stands between tap and main: its loss when clean at a flow, its range, and a regulator's setting."""

    table = "devices"
    name: str = text("name")
    kind: str = choice("kind", "backflow", "filter", "valve", "regulator", "meter")
    loss_m: float = number("loss", 0, 50, unit="kpa")
    loss_low_m: float = number("loss_low", 0, 50, unit="kpa")
    loss_high_m: float = number("loss_high", 0, 50, unit="kpa")
    loss_flow_l_h: float = number("loss_flow", 10, 100000, unit="l_h")
    least_flow_l_h: float = number("least_flow", 0, 100000, unit="l_h")
    most_flow_l_h: float = number("most_flow", 10, 100000, unit="l_h")
    setting_m: float | None = number("setting", 1, 60, unit="kpa", optional=True)
    most_pressure_m: float = number("most_pressure", 10, 300, unit="kpa")

    def faults(self) -> Iterator[str]:
        """A regulator has a setting, nothing else has; ranges run upward."""
        yield from _in_order("loss", self.loss_low_m, self.loss_m, self.loss_high_m)
        if self.least_flow_l_h >= self.most_flow_l_h:
            yield f"flows {self.least_flow_l_h} to {self.most_flow_l_h} L/h were given; expected least below most"
        if (self.kind == "regulator") != (self.setting_m is not None):
            yield f"a {self.kind} with setting {self.setting_m} was given; expected a setting for regulators only"


@dataclass(frozen=True, slots=True, kw_only=True)
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
        yield from _in_order("volume", self.volume_low_l, self.volume_l, self.volume_high_l)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantFactor(Row):
    """Water use of a closed canopy as a share of reference evapotranspiration, by a plant's water-use class."""

    table = "plant_factors"
    name: str = text("name")
    factor: float = number("factor", 0.05, 2.5)
    factor_low: float = number("factor_low", 0.05, 2.5)
    factor_high: float = number("factor_high", 0.05, 2.5)

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from _in_order("factor", self.factor_low, self.factor, self.factor_high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Microclimate(Row):
    """How much more or less water plants use for where they stand, against the same plants massed on planted ground."""

    table = "microclimates"
    name: str = text("name")
    factor: float = number("factor", 0.3, 2.5)
    factor_low: float = number("factor_low", 0.3, 2.5)
    factor_high: float = number("factor_high", 0.3, 2.5)

    def faults(self) -> Iterator[str]:
        """Low, usual, high in that order."""
        yield from _in_order("factor", self.factor_low, self.factor, self.factor_high)


@dataclass(frozen=True, slots=True, kw_only=True)
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

    def faults(self) -> Iterator[str]:
        """Least at most the greatest; bloom months both or neither."""
        yield from _in_order("height", self.height_min_m, self.height_max_m)
        yield from _in_order("spread", self.spread_min_m, self.spread_max_m)
        yield from _in_order("direct_sun_hours", self.direct_sun_hours_min, self.direct_sun_hours_max)
        if (self.bloom_start_month is None) != (self.bloom_end_month is None):
            yield "one bloom month was given; expected bloom_start_month and bloom_end_month, or neither"


def _in_order(what: str, *values: float) -> Iterator[str]:
    if list(values) != sorted(values):
        given = ", ".join(f"{v:.6g}" for v in values)
        yield f"{what} {given} was given; expected each at least the one before it"


def _walled(inner_m: float, outer_m: float) -> Iterator[str]:
    if outer_m <= inner_m:
        yield f"outer_diameter {outer_m:.6g} m over inner {inner_m:.6g} m was given; expected the outer one larger"


def _law_faults(law: str, exponent: float, start_m: float | None, most_m: float) -> Iterator[str]:
    if law == "compensating" and (start_m is None or start_m >= most_m):
        yield "a compensating emitter was given; expected a start_pressure below its most_pressure"
    if law == "compensating" and exponent > 0.2:
        yield f"a compensating emitter with exponent {exponent} was given; expected 0 to 0.2"
    if law != "compensating" and exponent <= 0:
        yield f"exponent {exponent} was given; expected above 0 for an emitter that does not compensate"


TABLES: dict[str, type[Row]] = {
    row.table: row
    for row in (
        ContainerType,
        Material,
        Mix,
        Tube,
        Emitter,
        Dripline,
        Fitting,
        Device,
        Plant,
        RootBall,
        PlantFactor,
        Microclimate,
    )
}
"""Every table by its name; each stands in `tables/<name>.csv`."""
