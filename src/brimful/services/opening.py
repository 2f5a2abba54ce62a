"""A plan is opened in one place, and sound in one place."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.model import Design
from brimful.findings import Finding, Severity
from brimful.plan.read import PlanFile, read_plan
from brimful.records import record

if TYPE_CHECKING:
    from brimful.catalog import Catalog
    from brimful.design.settle import Settled
    from brimful.design.stages import Outcome
    from brimful.plan.schema import Plan


@record
class Opened:
    """A plan read and designed, in the units wanted, ready for whatever else is asked of it."""

    file: PlanFile
    plan: "Plan"
    catalog: "Catalog"
    outcome: "Outcome"
    design: Design
    settled: "Settled"

    @property
    def folder(self) -> Path:
        """Where the plan stands, with its weather and its own tables."""
        return self.file.path.parent

    @property
    def checked(self) -> tuple[Finding, ...]:
        """What the checks of design and planting find; what was found on the way to them stands with the outcome."""
        from brimful.checks import findings_of
        from brimful.checks.planted import planted_findings
        from brimful.design.care.desk import season_dates
        from brimful.design.planting.days import days_of

        places = self.file.places
        days = days_of(self.plan.site, self.folder, *season_dates(self.plan, self.settled, date.today()))
        planted = planted_findings(self.plan, self.settled, self.outcome.grown, days, places)
        return (*findings_of(self.design, places), *planted)


def open_plan(path: Path, units: str | None = None) -> tuple[PlanFile, Opened | None, tuple[Finding, ...]]:
    """Read a plan and design it: the file, the opened plan, or None and the findings that stand in its way.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.catalog import load
    from brimful.checks import worst_first
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return file, None, file.findings
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None or outcome.settled is None:
        return file, None, worst_first(outcome.findings)
    return file, Opened(file, plan, catalog, outcome, outcome.design, outcome.settled), ()


def is_sound(worked: object, findings: Sequence[Finding]) -> bool:
    """Whether something was worked out and nothing was found that stops it."""
    return worked is not None and not any(f.severity is Severity.ERROR for f in findings)


def why_stopped(found: Sequence[Finding]) -> tuple[Finding, ...]:
    """What stands in the way of more than a design, worst first; what an error says is not warned of as well."""
    from brimful.checks import worst_first

    errors = {(one.code, one.where) for one in found if one.severity is Severity.ERROR}
    return worst_first(f for f in found if f.severity is Severity.ERROR or (f.code, f.where) not in errors)
