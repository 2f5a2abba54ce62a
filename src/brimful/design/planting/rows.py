"""Stage: places, build order, cover, bloom and upkeep of one row."""

from dataclasses import replace
from datetime import date, timedelta

from brimful.design.growing import WEEKS, RowGrown
from brimful.design.ledger import Ledger
from brimful.design.model import TubeWorked
from brimful.design.planting.model import BloomWorked, CoverWorked, RowPlanting, StepWorked, UpkeepWorked
from brimful.design.planting.palette import Palette, pairs_of, swatches_of
from brimful.design.settle import RowSpec
from brimful.design.settle.planting import taxon_of
from brimful.design.settle.settled import RecipeSpec
from brimful.domains.planting.bloom import bloom_calendar, upkeep_hours
from brimful.domains.planting.build import build_order
from brimful.domains.planting.canopy import cover_of_rectangular_mouth, cover_of_round_mouth
from brimful.domains.planting.layout import LOOP_WIDTH_M, Layout, Loop, tube_reason
from brimful.domains.planting.mouth import half_narrow_m


def row_of(
    row: RowSpec,
    grown: RowGrown,
    season: tuple[date, date],
    *,
    palette: Palette,
    tube: TubeWorked | None,
    ledger: Ledger,
) -> RowPlanting:
    """The planting of a row between planting day and the season's end, its tube as it lies in the design."""
    at, found, (planted, removed) = ledger.at("planting", row.name), laid(grown, tube), season
    taxa = [(taxon_of(spec), spec.count) for spec in row.plants]
    weeks = [planted + timedelta(weeks=n) for n in range((removed - planted).days // 7 + 1)]
    area = row.vessel.inside.mouth_area_m2
    upkeep = upkeep_hours(taxa, row.count, area, weeks, southern=grown.southern)
    bloom = bloom_calendar([taxon for taxon, _ in taxa], planted, removed)
    swatches = swatches_of([taxon for taxon, _ in taxa], palette)
    return RowPlanting(
        row.name,
        row.count,
        grown.places,
        found.loop.length_m if found.loop else None,
        found.loop.inset_m if found.loop else None,
        (*row.recipe.reasons, *found.reasons, *tube_reason(found.places, found.loop), *_front_words(row.recipe)),
        tuple(StepWorked(s.what, s.why) for s in build_order(found, row.headspace_m)) if found.places else (),
        tuple(_cover_on(week, row, grown, at) for week in WEEKS),
        tuple(BloomWorked(key, month, share) for key, months in bloom.items() for month, share in months.items()),
        swatches,
        pairs_of(swatches),
        tuple(UpkeepWorked(u.week.isoformat(), u.visit_h, u.deadhead_h, u.trim_h, u.trimmed) for u in upkeep),
        (),
    )


def laid(grown: RowGrown, tube: TubeWorked | None) -> Layout:
    """The layout with the tube's loops as the design winds them; none where they lie over root balls."""
    found, mouth = grown.layout, grown.mouth
    if tube is None:
        return found
    if not tube.clear:
        return replace(found, loop=None)
    insets = [half_narrow_m(mouth) - radius for radius in reversed(tube.loop_radii_m)]
    room = next((b - a for a, b in found.free if a - 1e-9 <= insets[0] <= b + 1e-9), 0.0) + LOOP_WIDTH_M
    return replace(found, loop=Loop(insets[0], tube.dripline_cut_m, room, len(insets)))


def _front_words(recipe: RecipeSpec) -> tuple[str, ...]:
    """What to mark where the row is seen from one side."""
    if recipe.view != "one-sided":
        return ()
    plant = f", {recipe.front} in the middle of it" if recipe.front else ""
    way = (
        f" and turn it to {recipe.faces_deg:.0f}° ({compass(recipe.faces_deg)})" if recipe.faces_deg is not None else ""
    )
    return (f"seen from one side: mark the front on the rim{way}{plant}",)


def compass(bearing_deg: float) -> str:
    """The nearest of eight points of the compass.

    >>> compass(180), compass(340)
    ('south', 'north')
    """
    points = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
    return points[round(bearing_deg / 45.0) % 8]


def _cover_on(week: int, row: RowSpec, grown: RowGrown, ledger: Ledger) -> CoverWorked:
    """Leaves over the mouth at the rim."""
    inside, figure = row.vessel.inside, f"cover_week_{week}"
    circles, area = grown.circles(7 * week, shown=True), inside.mouth_area_m2
    long, short = inside.spans_m(inside.depth_m)
    if inside.sides is not None:
        cover = ledger.work(figure, cover_of_rectangular_mouth, circles=circles, length_m=long, width_m=short)
    else:
        cover = ledger.work(figure, cover_of_round_mouth, circles=circles, mouth_diameter_m=long)
    return CoverWorked(week, cover.union_m2, cover.inside_m2 / area, area - cover.inside_m2, cover.overhang_m2)
