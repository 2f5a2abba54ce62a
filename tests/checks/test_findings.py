"""Checks: each fires on the design that deserves it, stays silent on the one that does not, and says what to do."""

from dataclasses import replace

import pytest
from tests.design.plans import FIXED, design_of

from brimful.checks import CHECKS, findings_of, worst_first
from brimful.design.model import Design, ZoneWarning, ZoneWorked
from brimful.findings import Finding, Severity
from brimful.plan.read import Places

DESIGN = design_of(FIXED)


def with_zone(**changes: object) -> Design:
    """The fixed design with its zone changed."""
    zone: ZoneWorked = replace(DESIGN.zones[0], **changes)  # type: ignore[arg-type]
    return replace(DESIGN, zones=(zone,))


def found(design: Design) -> dict[str, Finding]:
    """The findings of a design by code."""
    return {finding.code: finding for finding in findings_of(design, Places("plan.toml"))}


def with_run(**changes: object) -> Design:
    """The fixed design with its run time on the hottest days changed."""
    *others, peak = DESIGN.zones[0].run_times
    return with_zone(run_times=(*others, replace(peak, **changes)))  # type: ignore[arg-type]


def warned(code: str) -> Design:
    """The fixed design with three equal warnings of the solver."""
    return with_zone(warnings=tuple(ZoneWarning(code, f"row {i}", f"row {i} is so") for i in (1, 2, 3)))


THIRST = tuple(replace(p, water_use=use) for p, use in zip(DESIGN.rows[0].plants, ("high", "low"), strict=True))
CASES: dict[str, tuple[str, Design, Severity]] = {
    "more than the tap gives": ("supply-short", with_zone(supply_share=1.2), Severity.ERROR),
    "more than it may": ("supply-short", with_zone(supply_share=0.9), Severity.WARNING),
    "a tap that gives nothing": ("supply-short", with_zone(supply_share=float("inf"), supply_l_h=0.0), Severity.ERROR),
    "uneven": ("uneven-water", with_zone(emission_uniformity_percent=84.9), Severity.WARNING),
    "floods": ("start-floods", with_run(overfill_l=5.0), Severity.WARNING),
    "too short a day": ("run-time-short", with_run(short_l_day=1.0), Severity.WARNING),
    "no water": ("no-water", warned("no-water"), Severity.ERROR),
    "fast water": ("fast-water", warned("fast-water"), Severity.WARNING),
    "thirsty and dry": (
        "mixed-thirst",
        replace(DESIGN, rows=(replace(DESIGN.rows[0], plants=THIRST),)),
        Severity.WARNING,
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_fires(case: str) -> None:
    """What is wrong is found once, with its severity, and with what to do about it."""
    code, design, severity = CASES[case]
    finding = found(design)[code]
    assert finding.severity is severity
    assert finding.remedy
    assert sum(f.code == code for f in findings_of(design, Places())) == 1


@pytest.mark.parametrize("case", CASES)
def test_it_speaks_in_names_that_people_read(case: str) -> None:
    """A zone that says itself that it is one is not called so twice, and no tube is named as the solver names it."""
    code, design, _ = CASES[case]
    message = found(design)[code].message
    assert 'zone "' not in message
    assert "main/" not in message and "main 1" not in message


def test_it_stays_silent() -> None:
    """A design with nothing wrong has no error and no warning."""
    assert not [f for f in found(DESIGN).values() if f.severity is not Severity.NOTE]


def test_limits_are_not_crossed_by_reaching_them() -> None:
    """Exactly at its limit a design is still right."""
    assert "supply-short" not in found(with_zone(supply_share=0.75, supply_share_limit=0.75))
    assert "uneven-water" not in found(with_zone(emission_uniformity_percent=85.0))


def test_a_supply_not_tested_is_not_judged() -> None:
    """Where no bucket was timed nothing is said about the share of the supply."""
    assert "supply-short" not in found(with_zone(supply_share=None, supply_l_h=None))


def test_how_many_fit() -> None:
    """Of four containers that take 1.5 times what they may, two fit on one zone (4 / 1.5 = 2.7), so two zones."""
    finding = found(with_zone(supply_share=1.2, supply_share_limit=0.8))["supply-short"]
    assert "At most 2 of its 4 containers" in finding.remedy
    assert "make 2 zones" in finding.remedy


def test_a_starved_zone_gives_no_count() -> None:
    """Where the regulator is starved the flow says nothing of how many would fit, and no number is given."""
    low = (ZoneWarning("regulator-inlet-too-low", "zone", "low"),)
    assert "At most" not in found(with_zone(supply_share=1.2, warnings=low))["supply-short"].remedy


def test_units_of_the_plan() -> None:
    """Figures in a message stand in the plan's units."""
    metric = replace(with_zone(supply_share=1.2), units="metric")
    assert "L/h" in found(metric)["supply-short"].message
    assert "gp" in found(with_zone(supply_share=1.2))["supply-short"].message


def test_worst_first() -> None:
    """Errors stand before warnings, warnings before notes; equals keep their order."""
    mixed = [Finding(c, s, c) for c, s in zip("abcde", [*Severity, Severity.ERROR, Severity.WARNING], strict=True)]
    assert "".join(f.code for f in worst_first(mixed)) == "adbec"


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_every_check_says_what_it_is_for(check: object) -> None:
    """Each check has a sentence of its own."""
    assert len(check.__doc__ or "") > 20
