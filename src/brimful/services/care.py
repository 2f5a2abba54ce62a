"""Build and care of a plan."""

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Ledger, Working
from brimful.findings import Finding
from brimful.plan.read import PlanFile
from brimful.records import record
from brimful.services.opening import Opened, is_sound, open_plan
from brimful.services.saving import save_all
from brimful.services.season import season_of_opened

if TYPE_CHECKING:
    from datetime import date

    from brimful.design.care import CareDesk
    from brimful.design.care.model import Care


@record
class CareAnswer:
    """What came of a plan's build and care: the report where there is one, every finding, and the workings."""

    file: PlanFile
    care: "Care | None"
    findings: tuple[Finding, ...]
    workings: dict[str, Working]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the work."""
        return is_sound(self.care, self.findings)


def work_out_care(
    path: Path,
    units: str | None = None,
    *,
    parts: Sequence[str] = ("shop", "work", "feed"),
    today: "date | None" = None,
) -> CareAnswer:
    """Read a plan and work out its build and care, as far as `parts` asks; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.checks.care import care_findings
    from brimful.design.care import care_of
    from brimful.design.care.names import lasting_name

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return CareAnswer(file, None, stopped, {})
    desk = care_desk(opened, today)
    site = opened.plan.site
    weathered = site.weather is not None or site.normals is not None
    # what is wrong with the weather the design has told, so the season's own notes are left
    season = season_of_opened(opened, desk.ledger)[0] if "feed" in parts and weathered else None
    care = care_of(desk, folder=opened.folder, parts=parts, plan_name=lasting_name(path), season=season)
    found = (*opened.outcome.findings, *opened.checked, *care.findings, *care_findings(care, file.places))
    findings = worst_first(found)
    workings = {**opened.outcome.workings, **desk.ledger.entries}
    return CareAnswer(file, replace(care, findings=findings), findings, workings)


def care_desk(opened: Opened, today: "date | None") -> "CareDesk":
    """What lies ready for build and care of an opened plan, in the season's year; `today` is the clock."""
    from datetime import date as day

    from brimful.design.care import CareDesk, season_year
    from brimful.design.settle.notes import Notes

    plan, settled, notes = opened.plan, opened.settled, Notes(opened.file.places)
    year = season_year(plan, settled, today or day.today())
    if plan.site.year is None:
        notes.assume(
            "site.year", "year of planting", f"{year}, whose season is under way or comes next", "today's date"
        )
    return CareDesk(plan, settled, opened.design, opened.catalog, notes, year, Ledger())


def care_files(care: "Care", findings: tuple[Finding, ...], part: str, changed: datetime) -> "dict[str, str | bytes]":
    """The files of one part of build and care by name; `changed` is when the plan last changed."""
    from brimful.render.as_json import to_data
    from brimful.render.care.pages import part_text
    from brimful.render.exports.files import files_of

    data = json.dumps(to_data(care), indent=1, ensure_ascii=False) + "\n"
    texts = {f"{part}.json": data, f"{part}.txt": part_text(care, findings, part)}
    return {**texts, **files_of(care, part, changed)}


def write_care(answer: CareAnswer, folder: Path, part: str) -> list[Path]:
    """Write the files of one part of build and care into a folder, each whole or not at all; gives their paths."""
    if answer.care is None:
        return []
    changed = datetime.fromtimestamp(answer.file.path.stat().st_mtime, UTC)
    return save_all(folder, care_files(answer.care, answer.findings, part, changed))
