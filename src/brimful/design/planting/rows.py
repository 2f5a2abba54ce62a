"""Stage: places, build order, cover, bloom and upkeep of one row."""

from datetime import date, timedelta

from brimful.design.growing import WEEKS, RowGrown
from brimful.design.ledger import Ledger
from brimful.design.planting.model import BloomWorked, CoverWorked, RowPlanting, StepWorked, UpkeepWorked
from brimful.design.planting.palette import Palette, pairs_of, swatches_of
from brimful.design.settle import RowSpec
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.bloom import bloom_calendar, upkeep_hours
from brimful.domains.planting.build import build_order
from brimful.domains.planting.canopy import cover_of_rectangular_mouth, cover_of_round_mouth


def row_of(row: RowSpec, grown: RowGrown, season: tuple[date, date], palette: Palette, ledger: Ledger) -> RowPlanting:
    """The planting of a row between planting day and the season's end."""
    at, found, (planted, removed) = ledger.at("planting", row.name), grown.layout, season
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
        found.reasons,
        tuple(StepWorked(step.what, step.why) for step in build_order(found)) if found.places else (),
        tuple(_cover_on(week, row, grown, at) for week in WEEKS),
        tuple(BloomWorked(key, month, share) for key, months in bloom.items() for month, share in months.items()),
        swatches,
        pairs_of(swatches),
        tuple(UpkeepWorked(u.week.isoformat(), u.visit_h, u.deadhead_h, u.trim_h, u.trimmed) for u in upkeep),
    )


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
