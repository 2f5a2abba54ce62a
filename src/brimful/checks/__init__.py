"""Checks: functions from a Design to Findings, one module a topic. Adding a check is adding a function to CHECKS."""

from collections.abc import Callable, Iterable

from brimful.checks.planting import mixed_thirst, mixed_zone, tube_reaches
from brimful.checks.water import (
    rows_match,
    run_time_fits,
    solver_warnings,
    starved_by_chance,
    supply_suffices,
    water_is_even,
    what_mends,
)
from brimful.design.model import Design
from brimful.findings import Finding, Severity
from brimful.plan.read import Places

Check = Callable[[Design, Places], Iterable[Finding]]
CHECKS: tuple[Check, ...] = (
    supply_suffices,
    solver_warnings,
    water_is_even,
    rows_match,
    run_time_fits,
    starved_by_chance,
    mixed_thirst,
    mixed_zone,
    tube_reaches,
    what_mends,
)


def findings_of(design: Design, places: Places) -> tuple[Finding, ...]:
    """What every check finds."""
    return tuple(finding for check in CHECKS for finding in check(design, places))


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Errors, then warnings, then notes; among equals as they came."""
    order = list(Severity)
    return tuple(sorted(findings, key=lambda finding: order.index(finding.severity)))
