"""Stage: where each plant of a row stands, and how wide and high it is on each day: worked out once, read by all."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace

from brimful.design.climate import Warmth
from brimful.design.ledger import Ledger
from brimful.design.model import GrownWorked, PlaceWorked
from brimful.design.settle import PlantSpec, RowSpec
from brimful.domains.planting.canopy import Circle
from brimful.domains.planting.growth import Stand, circles_on, grow, habitus_of, new_plant_width_m
from brimful.domains.planting.layout import HEADSPACE_M, Layout, layout
from brimful.domains.planting.mouth import Mouth, RectangularMouth, RoundMouth
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.taxon import Taxon

WEEKS = (0, 4, 8, 12, 16)
"""Weeks after planting that pictures and tables show."""
NO_FROST_C = float("-inf")
"""Plants are taken to live until the season's end, which is about the first hard frost."""


@dataclass(frozen=True, slots=True, eq=False)
class RowGrown:
    """One container of a row: its mouth at the mix, where its plants stand, and each taxon's size day by day."""

    mouth: Mouth
    layout: Layout
    stands: Mapping[str, tuple[Stand, ...]]
    taken_as: str

    def circles(self, day: int) -> tuple[Circle, ...]:
        """Each plant's leaves from above, so many days after planting."""
        return circles_on(self.layout.places, self.on(day))

    def on(self, day: int) -> dict[str, Stand]:
        """Each taxon's size so many days after planting."""
        return {key: stands[min(day, len(stands) - 1)] for key, stands in self.stands.items()}

    @property
    def places(self) -> tuple[PlaceWorked, ...]:
        """The places as the design tells them."""
        return tuple(
            PlaceWorked(p.key, p.role, p.x_m, p.y_m, p.to_rim_m, p.ball_width_m, p.ball_depth_m)
            for p in self.layout.places
        )

    @property
    def weeks(self) -> tuple[GrownWorked, ...]:
        """Each taxon's size by weeks as the design tells it."""
        return tuple(
            GrownWorked(key, week, 2 * stands[7 * week].radius_m, stands[7 * week].height_m)
            for key, stands in self.stands.items()
            for week in WEEKS
        )


def grown_of(rows: tuple[RowSpec, ...], warmth: Warmth, ledger: Ledger) -> tuple[RowGrown, ...]:
    """Layout and growth of one container of each row; equal taxa of equal pots grow alike."""
    curves: dict[tuple[str, float], tuple[Stand, ...]] = {}
    return tuple(_row(row, warmth, curves, ledger.at("rows", row.name)) for row in rows)


def _row(row: RowSpec, warmth: Warmth, curves: dict[tuple[str, float], tuple[Stand, ...]], ledger: Ledger) -> RowGrown:
    mouth, depth = mouth_of(row), row.vessel.fill(row.headspace_m).depth_m + HEADSPACE_M
    found: Layout = ledger.work("places_m", layout, recipe=recipe_of(row), mouth=mouth, fill_depth_m=depth)
    for one in row.plants:
        key = one.plant.key, one.root_ball.width_m
        if key not in curves:
            curves[key] = _stands(one, warmth)
    stands = {one.plant.key: curves[one.plant.key, one.root_ball.width_m] for one in row.plants}
    return RowGrown(mouth, found, stands, warmth.taken_as)


def _stands(one: PlantSpec, warmth: Warmth) -> tuple[Stand, ...]:
    habitus = habitus_of(taxon_of(one), new_plant_width_m(one.root_ball.width_m))
    return grow(replace(habitus, kill_c=NO_FROST_C), warmth.mean_c, warmth.mean_c)


def taxon_of(spec: PlantSpec) -> Taxon:
    """A row of the plant table, as the planting takes it."""
    return Taxon(**{one.name: getattr(spec.plant, one.name) for one in fields(Taxon)})


def recipe_of(row: RowSpec) -> Recipe:
    """The row's plants by layers."""
    return Recipe(
        tuple(
            Part(spec.plant.key, taxon_of(spec).role, spec.count, spec.root_ball.width_m, spec.root_ball.depth_m)
            for spec in row.plants
        )
    )


def mouth_of(row: RowSpec) -> Mouth:
    """The container at the top of its mix, where root balls and tube lie: a rectangle if it has sides, else round."""
    room = row.vessel.fill(row.headspace_m)
    long, short = room.spans_m(room.depth_m)
    return RoundMouth(long) if room.sides is None else RectangularMouth(long, short)
