"""Stage: where each plant of a row stands, and how wide and high it is on each day: worked out once, read by all."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache

from brimful.design.climate import Warmth
from brimful.design.ledger import Ledger
from brimful.design.model import GrownWorked, PlaceWorked
from brimful.design.settle import RowSpec
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.canopy import Circle
from brimful.domains.planting.growth import Stand, circles_on, cut_back, grow, habitus_of, new_plant_width_m
from brimful.domains.planting.layout import HEADSPACE_M, Layout, layout
from brimful.domains.planting.mouth import Mouth, RectangularMouth, RoundMouth
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.taxon import Taxon

WEEKS = (0, 4, 8, 12, 16)
"""Weeks after planting that pictures and tables show."""
NO_FROST_C = float("-inf")
FROST_C = 0.0
"""Frost ends what it harms; what only lower temperatures harm is taken to live until the season's end."""


GONE = Stand(0.0, 0.0, alive=False)
Curves = tuple[tuple[Stand, ...], tuple[Stand, ...]]


@dataclass(frozen=True, slots=True, eq=False)
class RowGrown:
    """One container of a row: its mouth at the mix, where its plants stand, and each taxon's size day by day.

    `stands` are plants that nobody has cut back and that frost has spared: water is reckoned for them, since a trim put
    off must not leave them dry. `shown` are trimmed when they should be, and ended by the frost of half of the seasons.
    """

    mouth: Mouth
    layout: Layout
    stands: Mapping[str, tuple[Stand, ...]]
    shown: Mapping[str, tuple[Stand, ...]]
    taken_as: str
    southern: bool = False

    def circles(self, day: int, *, shown: bool = False) -> tuple[Circle, ...]:
        """Each plant's leaves from above, so many days after planting."""
        return circles_on(self.layout.places, self.on(day, shown=shown))

    def on(self, day: int, *, shown: bool = False) -> dict[str, Stand]:
        """Each taxon's size so many days after planting."""
        curves = self.shown if shown else self.stands
        return {key: stands[min(day, len(stands) - 1)] for key, stands in curves.items()}

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
            for key, stands in self.shown.items()
            for week in WEEKS
        )


def grown_of(rows: tuple[RowSpec, ...], warmth: Warmth, ledger: Ledger) -> tuple[RowGrown, ...]:
    """Layout and growth of one container of each row; equal taxa of equal pots grow alike."""
    return tuple(_row(row, warmth, ledger.at("rows", row.name)) for row in rows)


def _row(row: RowSpec, warmth: Warmth, ledger: Ledger) -> RowGrown:
    mouth, depth = mouth_of(row), row.vessel.fill(row.headspace_m).depth_m + HEADSPACE_M
    found: Layout = ledger.work("places_m", layout, recipe=recipe_of(row), mouth=mouth, fill_depth_m=depth)
    both = {one.plant.key: _stands(taxon_of(one), one.root_ball.width_m, warmth) for one in row.plants}
    stands, shown = ({key: pair[n] for key, pair in both.items()} for n in (0, 1))
    return RowGrown(mouth, found, stands, shown, warmth.taken_as, warmth.southern)


@lru_cache(maxsize=512)
def _stands(taxon: Taxon, ball_width_m: float, warmth: Warmth) -> Curves:
    """A taxon's sizes left alone, and as it is cut back and ended by frost; kept, since rows share their taxa."""
    days = len(warmth.mean_c)
    habitus = replace(habitus_of(taxon, new_plant_width_m(ball_width_m)), kill_c=NO_FROST_C)
    alone = grow(habitus, warmth.mean_c, warmth.mean_c)
    planted = date(2024, 1, 1) + timedelta(days=warmth.planting_day - 1)
    trims = cut_back(taxon, planted, days, southern=warmth.southern)
    shown = grow(habitus, warmth.mean_c, warmth.mean_c, trims) if trims else alone
    if warmth.frost_after_days is None or taxon.min_temp_damage_c < FROST_C:
        return alone, shown
    lived = shown[: warmth.frost_after_days + 1]
    return alone, (*lived, *(GONE,) * (len(shown) - len(lived)))


def recipe_of(row: RowSpec) -> Recipe:
    """The row's plants by layers, seen from where the plan says."""
    parts = tuple(
        Part(spec.plant.key, taxon_of(spec).role, spec.count, spec.root_ball.width_m, spec.root_ball.depth_m)
        for spec in row.plants
    )
    front = row.recipe.front if row.recipe.front in {part.key for part in parts} else None
    return Recipe(parts, row.recipe.view, front)


def mouth_of(row: RowSpec) -> Mouth:
    """The container at the top of its mix, where root balls and tube lie: a rectangle if it has sides, else round."""
    room = row.vessel.fill(row.headspace_m)
    long, short = room.spans_m(room.depth_m)
    return RoundMouth(long) if room.sides is None else RectangularMouth(long, short)
