"""The season of a plan."""

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Ledger
from brimful.findings import Finding
from brimful.records import record
from brimful.services.opening import Opened, is_sound, open_plan, why_stopped
from brimful.services.saving import save_all

if TYPE_CHECKING:
    from brimful.design.season.model import SeasonWorked
    from brimful.design.settle.notes import Notes


@record
class SeasonAnswer:
    """What came of a plan's season."""

    season: "SeasonWorked | None"
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the season."""
        return is_sound(self.season, self.findings)


def work_out_season(path: Path, units: str | None = None) -> SeasonAnswer:
    """Read a plan and work its season out.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.checks.season import season_findings

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return SeasonAnswer(None, stopped)
    season, notes = season_of_opened(opened)
    found = (*opened.outcome.findings, *notes.findings)
    if season is None:
        return SeasonAnswer(None, why_stopped(found))
    findings = worst_first((*found, *opened.checked, *season_findings(season, file.places)))
    return SeasonAnswer(replace(season, findings=findings), findings)


def season_of_opened(opened: Opened, ledger: Ledger | None = None) -> "tuple[SeasonWorked | None, Notes]":
    """The season of an opened plan, and what there is to say of it."""
    from brimful.design.season.whole import work_out_season as season_of

    plan, places = opened.plan, opened.file.places
    return season_of(plan, opened.outcome, opened.catalog, places=places, folder=opened.folder, ledger=ledger)


def season_files(season: "SeasonWorked", findings: tuple[Finding, ...]) -> dict[str, str]:
    """The files of a season by name."""
    from brimful.render.as_json import to_data
    from brimful.render.season import season_text

    data = json.dumps(to_data(season), indent=1, ensure_ascii=False) + "\n"
    return {"season.json": data, "season.txt": season_text(season, findings)}


def write_season(answer: SeasonAnswer, folder: Path) -> list[Path]:
    """Write the files of a season into a folder, each whole or not at all; gives their paths."""
    return save_all(folder, season_files(answer.season, answer.findings)) if answer.season is not None else []
