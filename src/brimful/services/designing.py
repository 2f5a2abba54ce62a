"""The design of a plan, and how each figure of it came about."""

import json
from dataclasses import replace
from pathlib import Path

from brimful.design.ledger import Working
from brimful.design.model import Design
from brimful.findings import Finding
from brimful.plan.read import PlanFile
from brimful.records import record
from brimful.services.opening import is_sound, open_plan
from brimful.services.saving import save_all


@record
class Answer:
    """What came of a plan: the design where there is one, every finding, and how each figure was worked out."""

    file: PlanFile
    design: Design | None
    findings: tuple[Finding, ...]
    workings: dict[str, Working]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the design."""
        return is_sound(self.design, self.findings)


def work_out(path: Path, units: str | None = None) -> Answer:
    """Read a plan and work it out; `units` go before the plan's own, in figures and findings alike.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return Answer(file, None, stopped, {})
    findings = worst_first((*opened.outcome.findings, *opened.checked))
    return Answer(file, replace(opened.design, findings=findings), findings, opened.outcome.workings)


def design_files(design: Design, findings: tuple[Finding, ...]) -> dict[str, str]:
    """The files of a design by name."""
    from brimful.render.as_json import to_data
    from brimful.render.summary import summary_text

    data = json.dumps(to_data(design), indent=1, ensure_ascii=False) + "\n"
    return {"design.json": data, "summary.txt": summary_text(design, findings)}


def write_design(answer: Answer, folder: Path) -> list[Path]:
    """Write the files of a design into a folder, each whole or not at all; gives their paths."""
    return save_all(folder, design_files(answer.design, answer.findings)) if answer.design is not None else []


def figures_like(workings: dict[str, Working], wanted: str) -> tuple[list[Working], list[str]]:
    """The workings whose path is, or ends with, what was asked for; and the nearest paths where none is."""
    from brimful.findings import nearest

    if wanted in workings:
        return [workings[wanted]], []
    found = [one for path, one in workings.items() if path.endswith(f"/{wanted}") or path.startswith(f"{wanted}/")]
    last_words = tuple(dict.fromkeys(path.rsplit("/", 1)[-1] for path in workings))
    return found, [] if found else nearest(wanted, tuple(workings)) or nearest(wanted, last_words)
