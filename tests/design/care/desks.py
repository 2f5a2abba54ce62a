"""Plans worked out through build and care, for tests."""

from pathlib import Path

from tests.design.plans import CATALOG, FIXED, FOLDER

from brimful.catalog import Catalog
from brimful.checks.care import care_findings
from brimful.design.care import CareDesk, care_of
from brimful.design.care.model import Care
from brimful.design.settle.notes import Notes
from brimful.design.stages import work_out
from brimful.plan.read import read_text

YEAR = 2027


def desk_of(text: str = FIXED, *, catalog: Catalog = CATALOG, folder: Path = FOLDER, year: int = YEAR) -> CareDesk:
    """What lies on the desk for a plan that can be worked out."""
    file = read_text(text, folder / "plan.toml")
    assert file.plan is not None, file.findings
    outcome = work_out(file.plan, catalog, file.places, folder=folder)
    assert outcome.design is not None, outcome.findings
    assert outcome.settled is not None
    return CareDesk(file.plan, outcome.settled, outcome.design, catalog, Notes(file.places), year)


def made(text: str = FIXED, *, catalog: Catalog = CATALOG, year: int = YEAR) -> Care:
    """Build and care of a plan, whole."""
    return care_of(desk_of(text, catalog=catalog, year=year), folder=FOLDER)


def codes(text: str, *, catalog: Catalog = CATALOG) -> set[str]:
    """Codes of all that build and care find in a plan."""
    desk = desk_of(text, catalog=catalog)
    care = care_of(desk, folder=FOLDER)
    return {finding.code for finding in (*care.findings, *care_findings(care, desk.notes.places))}


def with_top(lines: str) -> str:
    """The fixed plan with lines before its first table."""
    return lines + "\n" + FIXED
