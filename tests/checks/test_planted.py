"""Findings on a settled planting: each fires on the plan that deserves it and stays silent on the one that does not."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from brimful.catalog import load
from brimful.checks import findings_of
from brimful.checks.planted import planted_findings
from brimful.design.planting.days import SiteDays
from brimful.design.stages import work_out
from brimful.domains.climate.nights import SeasonNights
from brimful.findings import Finding, Severity
from brimful.plan.read import read_text

POT = '{{ shape = "round", top = "{top}", bottom = "{top}", height = "{height}", material = "terracotta" }}'
PLAN = """
units = "metric"
[site]
latitude = 48
{site}
[supply]
pressure = "3 bar"
bucket_tests = ["10 L in 75 s at 1.8 bar"]
"""
ROW = """
[[containers]]
name = "{name}"
container = {pot}
plants = [{plants}]
"""
NIGHTS = np.full((20, 150), 9.0)
NIGHTS[:3, 4] = 1.5
"""Three seasons of twenty have a night of 1.5 °C on the fifth day after planting; all others are mild."""
KNOWN = SiteDays(
    date(2026, 5, 15), date(2026, 10, 10), 1.5, "by the record", (15.0,) * 366, warmest=60, nights=SeasonNights(NIGHTS)
)
MILD = replace(KNOWN, coldest_c=9.0)


def row(plants: str, *, name: str = "tub", top: str = "60 cm", height: str = "50 cm") -> str:
    """One row of a plan."""
    quoted = ", ".join(f'"{one}"' for one in plants.split(", "))
    return ROW.format(name=name, pot=POT.format(top=top, height=height), plants=quoted)


def found(*rows: str, site: str = "", days: SiteDays = MILD) -> dict[str, Finding]:
    """By code, what is found on a plan of these rows."""
    read = read_text(PLAN.format(site=site) + "".join(rows), Path("p.toml"))
    assert read.plan is not None, read.findings
    outcome = work_out(read.plan, load(), read.places, folder=Path())
    assert outcome.settled is not None, outcome.findings
    assert outcome.design is not None
    planted = planted_findings(read.plan, outcome.settled, outcome.grown, days, read.places)
    return {finding.code: finding for finding in (*findings_of(outcome.design, read.places), *planted)}


LANTANA = "3 lantana-mounding"
CASES: dict[str, tuple[str, Callable[[], dict[str, Finding]]]] = {
    "forty in a small pot": ("ball-overlap", lambda: found(row("40 angelonia", top="40 cm"))),
    "deeper than the bowl": ("ball-depth", lambda: found(row("1 angelonia", height="11 cm"))),
    "tender and planted early": ("cold-night", lambda: found(row("1 angelonia"), days=KNOWN)),
    "poison, children": ("poisonous-plant", lambda: found(row(LANTANA), site="children = true")),
    "poison, animals": ("poisonous-plant", lambda: found(row(LANTANA), site="animals = true")),
    "perhaps poison": ("poisonous-plant", lambda: found(row("1 angelonia"), site="animals = true")),
    "sap, children": ("irritant-plant", lambda: found(row(LANTANA), site="children = true")),
    "spread, wild land": ("spreading-plant", lambda: found(row(LANTANA), site="wild_land = true")),
    "thirsty and dry in one pot": ("mixed-thirst", lambda: found(row("1 canna-dwarf, 1 lantana-mounding"))),
    "thirsty and dry in one zone": (
        "mixed-zone",
        lambda: found(row("3 canna-dwarf", name="wet"), row(LANTANA, name="dry")),
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_fires(case: str) -> None:
    """What is wrong is a warning that stands somewhere in the plan and says what to do."""
    code, make = CASES[case]
    finding = make()[code]
    assert finding.severity is Severity.WARNING
    assert finding.remedy
    assert finding.where.line > 0


@pytest.mark.parametrize(
    ("plants", "site", "days"),
    [
        ("3 angelonia", "", MILD),
        ("3 petunia-trailing", "children = true\nanimals = true\nwild_land = true", MILD),
        ("3 viola", "", KNOWN),
        (LANTANA, "animals = false", MILD),
    ],
)
def test_it_stays_silent(plants: str, site: str, days: SiteDays) -> None:
    """Harmless plants, hardy ones, and a plan that forbids nothing: no word."""
    codes = {code for code, _ in CASES.values()}
    assert not codes & set(found(row(plants), site=site, days=days))


def test_dry_beside_dry_is_one_zone() -> None:
    """Two rows of one class of thirst share a zone without a word."""
    assert "mixed-zone" not in found(row("1 gazania", name="one"), row(LANTANA, name="other"))


def test_cold_names_the_first_safe_day() -> None:
    """The cold night comes on the fifth day after 15 May, so from 20 May on it is past."""
    finding = found(row("1 angelonia"), days=KNOWN)["cold-night"]
    assert "20 May" in finding.remedy
    assert "1.5 °C" in finding.message


def test_an_assumed_night_warns_of_nothing() -> None:
    """Where no night is known none is told, however tender the plant, and however warm the mix is known to be."""
    assumed = SiteDays(date(2026, 5, 15), date(2026, 10, 10))
    for days in (assumed, replace(assumed, mix_c=(15.0,) * 366)):
        assert "cold-night" not in found(row("1 caladium"), days=days)


def test_bulbs_sleep_through_the_winter() -> None:
    """In autumn no bulb is warned of for a night that harms leaves; what stands in leaf is, with no day to wait for."""
    winter = replace(KNOWN, coldest_c=-12.0, in_autumn=True)
    assert "cold-night" not in found(row("10 tulip"), days=winter)
    assert "Plant from" not in found(row("5 viola"), days=winter)["cold-night"].remedy


def test_a_row_without_plants_has_nothing_that_does_not_fit() -> None:
    """Nothing planted is told once, by the design, and not as plants that are wrong in number."""
    empty = row("1 angelonia").partition("plants")[0]
    assert not {"plant-count", "ball-overlap"} & set(found(empty))
