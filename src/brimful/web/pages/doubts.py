"""Doubts: what was found, what was assumed, and how sure the figures are."""

import re
from collections import Counter
from pathlib import Path

from brimful.design.model import Assumption
from brimful.findings import Finding, Severity
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Leaf, Mark, Page

EVIDENCE = Path(__file__).parents[4] / "docs" / "evidence.md"
"""The page of published values: it comes with the source."""
WORDS = {Severity.ERROR: "stops the plan", Severity.WARNING: "to mind", Severity.NOTE: "to know"}


def look(sight: Sight, asked: Asked) -> Leaf:
    """Findings worst first, each with the field that would mend it, then what was assumed and from where."""
    scene = sight.scene
    assert scene is not None
    about = {name: found_about(sight, row, name) for row in scene.rows for name in row.spec.ids}
    marks = {name: _mark(found) for name, found in about.items()}
    findings = about[asked.container] if asked.container else sight.findings
    assumed = assumptions_of(scene)
    inside = {"assumed": assumed, "findings": findings, "evidence": EVIDENCE.is_file()}
    return Leaf((_counted(findings, asked.container), _assumed(len(assumed))), marks, inside, "What was found")


def assumptions_of(scene: Scene) -> tuple[Assumption, ...]:
    """What the design, the season and the care took because the plan is silent, each once."""
    more = [part.assumptions for part in (scene.season, scene.care) if part is not None]
    return tuple(dict.fromkeys([*scene.design.assumptions, *(one for some in more for one in some)]))


def found_about(sight: Sight, row: RowSeen, name: str) -> tuple[Finding, ...]:
    """What was found that names a container or its row, in its words or by the field it points at."""
    field = f"containers.{row.spec.index + 1}"
    named = re.compile(rf"(?<!\w)({re.escape(name)}|{re.escape(row.spec.name)}(?! \d))(?!\w)")
    return tuple(
        f
        for f in sight.findings
        if named.search(f.message) or f.where.field == field or f.where.field.startswith(f"{field}.")
    )


def _mark(found: tuple[Finding, ...]) -> Mark:
    """How many things there are to mind, or else to know."""
    grave = sum(f.severity is not Severity.NOTE for f in found)
    if grave:
        return Mark(f"{grave} to\nmind", "mind")
    return Mark(f"{len(found)} to\nknow") if found else Mark("clear", "good")


def _counted(findings: tuple[Finding, ...], container: str) -> str:
    counts = Counter(f.severity for f in findings)
    about = f" about {container}" if container else ""
    if not findings:
        return f"Nothing was found{about}."
    grave = [f"{counts[s]} {WORDS[s]}" for s in Severity if counts[s] and s is not Severity.NOTE]
    notes = counts[Severity.NOTE]
    known = f"{notes} thing{' is' if notes == 1 else 's are'} good to know{about}" if notes else ""
    return "; ".join(filter(None, (", ".join(grave) or "Nothing stands in the way", known))) + "."


def _assumed(count: int) -> str:
    if count == 0:
        return "Nothing is assumed: the plan says it all."
    return f"{count} figure{' is' if count == 1 else 's are'} assumed because the plan is silent."


PAGE = Page("doubts", "Doubts", "doubts.html", look)
