"""What the drawings look at: the settled plan and its design side by side, with every plant in its place."""

import math
from dataclasses import dataclass, fields

from brimful.catalog import Plant
from brimful.design.care import Care
from brimful.design.model import Design, RowWorked, ZoneWorked
from brimful.design.season.model import SeasonWorked
from brimful.design.settle import RowSpec, Settled, ZoneSpec
from brimful.domains.planting.growth import Stand, grow, habitus_of
from brimful.domains.planting.rings import NEW_OVER_BALL, grown_radius_m, ring_positions
from brimful.domains.planting.taxon import Taxon
from brimful.plan.schema import Plan
from brimful.quantities import System
from brimful.render.drawings.tints import flower_tint, leaf_tint

WEEKS = (0, 4, 8, 12, 16)
"""The weeks after planting that are drawn."""
GROWING_C = 20.0
"""Growers tell weeks to fill at about this temperature; the drawings grow the plants at it."""


@dataclass(frozen=True, slots=True)
class PlantSeen:
    """One plant: its letter, where it stands from the middle [m], its root ball [m], half width and height by week."""

    letter: str
    taxon: Plant
    x_m: float
    y_m: float
    ball_width_m: float
    ball_depth_m: float
    stands: dict[int, Stand]
    leaf: str
    flower: str | None

    def blooms(self, month: int) -> bool:
        """Whether it flowers in a month, 1 to 12."""
        first, last = self.taxon.bloom_start_month, self.taxon.bloom_end_month
        if first is None or last is None:
            return False
        return first <= month <= last if first <= last else month >= first or month <= last


@dataclass(frozen=True, slots=True)
class RowSeen:
    """A row of equal containers as it is drawn."""

    spec: RowSpec
    worked: RowWorked
    plants: tuple[PlantSeen, ...]

    @property
    def mouth_radius_m(self) -> float:
        """Radius of a round mouth of the same area [m]."""
        return math.sqrt(self.worked.mouth_area_m2 / math.pi)

    @property
    def width_m(self) -> float:
        """Greatest outside width [m]."""
        outside = self.spec.vessel.outside
        return max(max(outside.spans_m(z)) for z in (0.0, *outside.breaks_m, outside.depth_m))

    def height_m(self, week: int) -> float:
        """Height of the container and the tallest plant above its mix [m]."""
        tallest = max((plant.stands[week].height_m for plant in self.plants), default=0.0)
        return self.spec.vessel.outside.depth_m + max(0.0, tallest - self.spec.headspace_m)


@dataclass(frozen=True, slots=True)
class Scene:
    """Everything that can be drawn of a plan."""

    plan: Plan
    design: Design
    system: System
    rows: tuple[RowSeen, ...]
    zones: tuple[tuple[ZoneSpec, ZoneWorked], ...]
    planting_day: int
    season: SeasonWorked | None = None
    care: Care | None = None

    def month_of_week(self, week: int) -> int:
        """Month, 1 to 12, so many weeks after planting."""
        day = (self.planting_day - 1 + 7 * week) % 366
        return min(12, int(day / 30.5) + 1)

    @property
    def letters(self) -> dict[str, Plant]:
        """Each taxon by its letter."""
        return {plant.letter: plant.taxon for row in self.rows for plant in row.plants}


def scene_of(
    plan: Plan, design: Design, settled: Settled, *, season: SeasonWorked | None = None, care: Care | None = None
) -> Scene:
    """The scene of a worked plan, with its season and its build and care where they are worked out."""
    taxa = list(dict.fromkeys(spec.plant.key for row in settled.rows for spec in row.plants))
    letters = {key: letter_of(i) for i, key in enumerate(taxa)}
    rows = tuple(
        RowSeen(spec, worked, _plants(spec, worked, letters))
        for spec, worked in zip(settled.rows, design.rows, strict=True)
    )
    zones = tuple(zip(settled.zones, design.zones, strict=True))
    system = System.METRIC if design.units == "metric" else System.US
    return Scene(plan, design, system, rows, zones, settled.season.planting_day, season, care)


def letter_of(index: int) -> str:
    """A to Z, then AA, AB and so on.

    >>> letter_of(0), letter_of(25), letter_of(26)
    ('A', 'Z', 'AA')
    """
    return chr(65 + index) if index < 26 else letter_of(index // 26 - 1) + letter_of(index % 26)


def _plants(spec: RowSpec, worked: RowWorked, letters: dict[str, str]) -> tuple[PlantSeen, ...]:
    each = [one for one in spec.plants for _ in range(one.count)]
    radius = math.sqrt(worked.mouth_area_m2 / math.pi)
    curves = {one.plant.key: _stands(one.plant, one.root_ball.width_m) for one in spec.plants}
    places = ring_positions([one.plant.habit for one in each], radius)
    return tuple(
        PlantSeen(
            letters[one.plant.key],
            one.plant,
            x,
            y,
            one.root_ball.width_m,
            one.root_ball.depth_m,
            {week: _within(stand, math.hypot(x, y), radius) for week, stand in curves[one.plant.key].items()},
            leaf_tint(one.plant.foliage_colour),
            flower_tint(one.plant.flower_colours),
        )
        for one, (x, y) in zip(each, places, strict=True)
    )


def _stands(plant: Plant, ball_width_m: float) -> dict[int, Stand]:
    taxon = Taxon(**{one.name: getattr(plant, one.name) for one in fields(Taxon)})
    days = 7 * WEEKS[-1]
    stands = grow(habitus_of(taxon, NEW_OVER_BALL * ball_width_m), [GROWING_C] * days, [GROWING_C] * days)
    return {week: stands[7 * week] for week in WEEKS}


def _within(stand: Stand, distance_m: float, mouth_m: float) -> Stand:
    """A plant is cut back where it hangs too far beyond the rim."""
    return Stand(grown_radius_m(2 * stand.radius_m, min(distance_m, mouth_m), mouth_m), stand.height_m, stand.alive)
