"""Rows about containers: types one can buy, what they are made of, what they are filled with."""

from collections.abc import Iterator

from brimful.catalog.cells import choice, number, numbers, pairs, text
from brimful.catalog.rows.row import Row, in_order
from brimful.domains.container import FORMS, Sizes
from brimful.domains.substrate import Retention
from brimful.records import record


@record(kw_only=True)
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


@record(kw_only=True)
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
        yield from in_order("density", self.density_low_kg_m3, self.density_kg_m3, self.density_high_kg_m3)
        yield from in_order("wall", self.wall_low_m, self.wall_m, self.wall_high_m)


@record(kw_only=True)
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
