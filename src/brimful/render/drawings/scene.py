"""What the drawings look at: the settled plan and its design side by side, with every plant in its place."""

import math
from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from brimful.catalog import Catalog, Plant
from brimful.design.model import Design, GrownWorked, RowWorked, ZoneWorked
from brimful.design.planting.model import PlantingWorked
from brimful.design.planting.palette import Palette, palette_of
from brimful.design.season.model import SeasonWorked
from brimful.design.settle import RowSpec, Settled, ZoneSpec
from brimful.domains.planting.growth import Stand, reach_m
from brimful.plan.schema import Plan
from brimful.quantities import System
from brimful.records import record

if TYPE_CHECKING:
    from brimful.design.care import Care

PLAIN_LEAF = "#7FA46A"
"""The tint of leaves whose colour word has none."""


@record
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


@record
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


@record
class Scene:
    """Everything that can be drawn of a plan."""

    plan: Plan
    design: Design
    system: System
    rows: tuple[RowSeen, ...]
    zones: tuple[tuple[ZoneSpec, ZoneWorked], ...]
    planting_day: int
    season_end: int
    season: SeasonWorked | None = None
    care: "Care | None" = None
    planting: PlantingWorked | None = None
    device_kinds: Mapping[str, str] = field(default_factory=dict)
    """What each device between tap and main is, by its name: backflow, filter, valve, regulator or meter."""

    def month_of_week(self, week: int) -> int:
        """Month, 1 to 12, so many weeks after planting."""
        day = (self.planting_day - 1 + 7 * week) % 366
        return min(12, int(day / 30.5) + 1)

    @property
    def season_months(self) -> int:
        """How many calendar months the season touches, 1 to 12."""
        first = self.month_of_week(0)
        last = min(12, int((self.season_end - 1) / 30.5) + 1)
        return (last - first) % 12 + 1

    @property
    def letters(self) -> dict[str, Plant]:
        """Each taxon by its letter."""
        return {plant.letter: plant.taxon for row in self.rows for plant in row.plants}


@record
class Worked:
    """What may be worked out beside the design: season, build and care, planting."""

    season: SeasonWorked | None = None
    care: "Care | None" = None
    planting: PlantingWorked | None = None


def scene_of(plan: Plan, design: Design, settled: Settled, catalog: Catalog, worked: Worked | None = None) -> Scene:
    """The scene of a worked plan, with whatever else is worked out of it."""
    taxa = list(dict.fromkeys(spec.plant.key for row in settled.rows for spec in row.plants))
    letters = {key: letter_of(i) for i, key in enumerate(taxa)}
    more, palette = worked or Worked(), palette_of(catalog)
    rows = tuple(
        RowSeen(spec, one, _plants(spec, one, letters, palette))
        for spec, one in zip(settled.rows, design.rows, strict=True)
    )
    zones = tuple(zip(settled.zones, design.zones, strict=True))
    system = System.METRIC if design.units == "metric" else System.US
    days = settled.season.planting_day, settled.season.season_end
    kinds = {row.name: row.kind for row in catalog.devices.values()}
    return Scene(plan, design, system, rows, zones, *days, more.season, more.care, more.planting, kinds)


def letter_of(index: int) -> str:
    """A to Z, then AA, AB and so on.

    >>> letter_of(0), letter_of(25), letter_of(26)
    ('A', 'Z', 'AA')
    """
    return chr(65 + index) if index < 26 else letter_of(index // 26 - 1) + letter_of(index % 26)


def _plants(spec: RowSpec, row: RowWorked, letters: dict[str, str], palette: Palette) -> tuple[PlantSeen, ...]:
    """Each plant in its place of the design, as big as the design says; cut back where it hangs too far out."""
    taxa = {one.plant.key: one.plant for one in spec.plants}
    sizes = {key: [one for one in row.growth if one.plant == key] for key in taxa}
    return tuple(
        PlantSeen(
            letters[place.plant],
            taxa[place.plant],
            place.x_m,
            place.y_m,
            place.ball_width_m,
            place.ball_depth_m,
            {one.week: _stand(one, place.to_rim_m) for one in sizes[place.plant]},
            _tint(taxa[place.plant].foliage_colour, palette.leaves) or PLAIN_LEAF,
            _tint(taxa[place.plant].flower_colours, palette.flowers),
        )
        for place in row.places
    )


def _stand(grown: GrownWorked, to_rim_m: float) -> Stand:
    stand = Stand(grown.width_m / 2, grown.height_m, alive=grown.width_m > 0)
    return Stand(reach_m(stand, to_rim_m), grown.height_m, stand.alive)


def _tint(words: tuple[str, ...], tints: Mapping[str, str]) -> str | None:
    """The screen colour of the first word that has one."""
    return next((tints[word] for word in words if word in tints), None)
