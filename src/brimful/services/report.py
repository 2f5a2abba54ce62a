"""A season looked back on, from its journal."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.findings import Finding
from brimful.records import record
from brimful.services.opening import open_plan, why_stopped
from brimful.services.today import desk_of, told_of

if TYPE_CHECKING:
    from brimful.design.today.report import SeasonReport


@record
class ReportAnswer:
    """What came of looking back on a season."""

    report: "SeasonReport | None"
    findings: tuple[Finding, ...]


def work_out_report(path: Path, units: str | None = None, *, on: date | None = None) -> ReportAnswer:
    """The season of a plan up to a day as its journal tells it; `on` is today where left out.

    Raises:
        BrimfulError: a plan or journal that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.design.today.report import report_of

    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return ReportAnswer(None, stopped)
    day = on or date.today()
    desk, found = desk_of(opened, told_of(path), day)
    if desk is None:
        return ReportAnswer(None, why_stopped(found))
    return ReportAnswer(report_of(desk, day), worst_first(found))
