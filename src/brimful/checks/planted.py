"""Findings on a settled planting: what does not fit, what cold harms, what must not stand at its place."""

from collections.abc import Iterator

from brimful.design.growing import RowGrown
from brimful.design.planting.days import SiteDays
from brimful.design.planting.harm import HARMFUL, forbidden_at, names_of, taxa_of
from brimful.design.planting.words import by_name, in_units
from brimful.design.settle import RowSpec, Settled
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.light import hazards
from brimful.domains.planting.order import kind_of_good
from brimful.findings import Finding, Place, Severity
from brimful.plan.read import Places
from brimful.plan.schema import Plan


def planted_findings(
    plan: Plan, settled: Settled, grown: tuple[RowGrown, ...], days: SiteDays, places: Places
) -> tuple[Finding, ...]:
    """What does not fit its container, what cold harms, and what the plan says must not stand at its place."""
    found = [*_unfit(plan, settled, grown, places), *_cold(plan, settled, days, places)]
    return (*found, *_forbidden(plan, settled, places))


def _unfit(plan: Plan, settled: Settled, grown: tuple[RowGrown, ...], places: Places) -> Iterator[Finding]:
    """Root balls that overlap, stand beyond the rim or are too deep; a tube without room is only told."""
    for row, one in zip(settled.rows, grown, strict=True):
        names = {spec.plant.key: spec.plant.common_name for spec in row.plants}
        for problem in one.layout.problems if row.plants else ():
            severity = Severity.NOTE if problem.code == "loop-room" else Severity.WARNING
            said = f'row "{row.name}": {by_name(in_units(problem.message, plan.units), names)}'
            yield Finding(problem.code, severity, said, problem.remedy, places.at("containers", row.index))


def _cold(plan: Plan, settled: Settled, days: SiteDays, places: Places) -> Iterator[Finding]:
    """Plants that a night after planting still harms in one season of ten; nothing is told of an assumed night."""
    for spec, rows in taxa_of(settled) if days.cold_known else ():
        harmed = spec.plant.min_temp_damage_c
        if days.coldest_c > harmed or (days.in_autumn and kind_of_good(taxon_of(spec), 1.0) == "bulbs"):
            continue  # what sleeps in the mix until spring is not harmed as its leaves are
        safe = None if days.in_autumn else days.safe_from(harmed)
        said = f"{spec.plant.common_name} is harmed at {harmed:g} °C; {days.coldest_c:.1f} °C still comes "
        said += f"({names_of(rows)}): "
        mend = "Take a hardier plant, or cover it on cold nights."
        if safe is not None:
            mend = f"Plant from {safe.day} {safe:%B} on, or cover it on cold nights."
        message = in_units(said + days.coldest_taken_as, plan.units)
        yield Finding("cold-night", Severity.WARNING, message, mend, places.at("site", "planting_day"))


def _forbidden(plan: Plan, settled: Settled, places: Places) -> Iterator[Finding]:
    """What harms those who come there, by the plan's own word."""
    forbidden = forbidden_at(plan.site)
    for spec, rows in taxa_of(settled) if forbidden else ():
        taxon = taxon_of(spec)
        for hazard in sorted(hazards(taxon) & forbidden):
            code, said, mend = HARMFUL[hazard]
            remedy = f'{mend}: "brimful swap PLAN {taxon.key}" ranks what is harmless.'
            yield Finding(
                code, Severity.WARNING, f"{taxon.common_name} {said} ({names_of(rows)})", remedy, _place(rows, places)
            )
        if "toxic" in forbidden and taxon.toxic_to_pets == "unknown":
            said = f"{taxon.common_name} may be poisonous: not known ({names_of(rows)})"
            remedy = "Ask a poison centre before you plant it where children or animals come."
            yield Finding("poisonous-plant", Severity.WARNING, said, remedy, _place(rows, places))


def _place(rows: list[RowSpec], places: Places) -> Place:
    return places.at("containers", rows[0].index)
