"""Stage: places, build order, cover, bloom and upkeep of one row."""

import math
from dataclasses import fields
from datetime import date, timedelta

from brimful.design.ledger import Ledger
from brimful.design.planting.model import BloomWorked, CoverWorked, PlaceWorked, RowPlanting, StepWorked, UpkeepWorked
from brimful.design.planting.palette import Palette, pairs_of, swatches_of
from brimful.design.settle import PlantSpec, RowSpec
from brimful.domains.planting.bloom import bloom_calendar, upkeep_hours
from brimful.domains.planting.build import build_order
from brimful.domains.planting.canopy import Circle, cover_of_rectangular_mouth, cover_of_round_mouth
from brimful.domains.planting.growth import Stand, circles_on, grow, habitus_of
from brimful.domains.planting.layout import Layout, layout
from brimful.domains.planting.mouth import Mouth, RectangularMouth, RoundMouth
from brimful.domains.planting.recipe import Part, Recipe
from brimful.domains.planting.taxon import Taxon

WEEKS = (0, 4, 8, 12, 16)
NEW_OVER_BALL = 1.5
"""Width of a plant as sold over that of its pot: 4 in pots hold plants of 13 to 15 cm (common practice, no source)."""
GROWING_C = 20.0
"""The mean that growers' "weeks to fill" are told for (common practice, no source)."""


def row_of(row: RowSpec, planted: date, removed: date, palette: Palette, ledger: Ledger) -> tuple[RowPlanting, Layout]:
    """The planting of a row, and its layout with what does not fit."""
    at = ledger.at("planting", row.name)
    depth = row.vessel.inside.depth_m - row.vessel.floor_m
    found = at.work("layout", layout, recipe=recipe_of(row), mouth=mouth_of(row), fill_depth_m=depth)
    taxa = [(taxon_of(spec), spec.count) for spec in row.plants]
    weeks = [planted + timedelta(weeks=n) for n in range((removed - planted).days // 7 + 1)]
    area = row.vessel.inside.mouth_area_m2
    upkeep = upkeep_hours(taxa, row.count, area, weeks)
    bloom = bloom_calendar([taxon for taxon, _ in taxa], planted, removed)
    swatches = swatches_of([taxon for taxon, _ in taxa], palette)
    worked = RowPlanting(
        row.name,
        row.count,
        tuple(PlaceWorked(p.key, p.role, p.x_m, p.y_m, p.to_rim_m) for p in found.places),
        found.loop.length_m if found.loop else None,
        found.loop.inset_m if found.loop else None,
        found.reasons,
        tuple(StepWorked(step.what, step.why) for step in build_order(found)) if found.places else (),
        _cover(row, found, at),
        tuple(BloomWorked(key, month, share) for key, months in bloom.items() for month, share in months.items()),
        swatches,
        pairs_of(swatches),
        tuple(UpkeepWorked(u.week.isoformat(), u.visit_h, u.deadhead_h, u.trim_h) for u in upkeep),
    )
    return worked, found


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
    """The container's mouth: a rectangle where it has sides, else round."""
    inside = row.vessel.inside
    if inside.sides is not None:
        return RectangularMouth(inside.sides.top_length_m, inside.sides.top_width_m)
    return RoundMouth(2 * math.sqrt(inside.mouth_area_m2 / math.pi))


def _cover(row: RowSpec, found: Layout, ledger: Ledger) -> tuple[CoverWorked, ...]:
    days = [GROWING_C] * (7 * WEEKS[-1])
    curves = {
        s.plant.key: grow(habitus_of(taxon_of(s), NEW_OVER_BALL * s.root_ball.width_m), days, days) for s in row.plants
    }
    return tuple(_cover_on(week, found, {key: c[7 * week] for key, c in curves.items()}, row, ledger) for week in WEEKS)


def _cover_on(week: int, found: Layout, stands: dict[str, Stand], row: RowSpec, ledger: Ledger) -> CoverWorked:
    circles: tuple[Circle, ...] = circles_on(found.places, stands)
    mouth, figure = mouth_of(row), f"cover_week_{week}"
    if isinstance(mouth, RectangularMouth):
        sides = {"length_m": mouth.width_m, "width_m": mouth.depth_m}
        cover = ledger.work(figure, cover_of_rectangular_mouth, circles=circles, **sides)
    else:
        width = 2 * mouth.half_width_m
        cover = ledger.work(figure, cover_of_round_mouth, circles=circles, mouth_diameter_m=width)
    share = cover.inside_m2 / mouth.area_m2
    return CoverWorked(week, cover.union_m2, share, mouth.area_m2 - cover.inside_m2, cover.union_m2 - cover.inside_m2)
