"""Rows about drip irrigation: tube, emitters, dripline, fittings, devices."""

from collections.abc import Iterator

from brimful.catalog.cells import choice, number, text, words
from brimful.catalog.rows.row import Row, in_order
from brimful.records import record


@record(kw_only=True)
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


@record(kw_only=True)
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


@record(kw_only=True)
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


@record(kw_only=True)
class Fitting(Row):
    """A fitting's loss: K times the velocity head in the pipe."""

    table = "fittings"
    name: str = text("name")
    loss_k: float = number("loss_k", 0, 100)


@record(kw_only=True)
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
        yield from in_order("loss", self.loss_low_m, self.loss_m, self.loss_high_m)
        if self.least_flow_l_h >= self.most_flow_l_h:
            yield f"flows {self.least_flow_l_h} to {self.most_flow_l_h} L/h were given; expected least below most"
        if (self.kind == "regulator") != (self.setting_m is not None):
            yield f"a {self.kind} with setting {self.setting_m} was given; expected a setting for regulators only"


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
