"""Doubts: what was found, what was assumed, and how sure the figures are."""

from collections import Counter

from brimful.findings import Finding, Severity
from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Leaf, Mark, Page

WORDS = {Severity.ERROR: "stops the plan", Severity.WARNING: "to mind", Severity.NOTE: "to know"}


def look(sight: Sight, asked: Asked) -> Leaf:
    """Findings worst first, each with the field that would mend it, then what was assumed and from where."""
    scene = sight.scene
    assert scene is not None
    named = {name: [f for f in sight.findings if name in f.message] for name in _containers(sight)}
    marks = {name: Mark("look" if any(f.severity is not Severity.NOTE for f in found) else "know", "mind")
             for name, found in named.items() if found}  # fmt: skip
    assumed = scene.design.assumptions
    return Leaf((_counted(sight.findings, len(assumed)),), marks, {"assumed": assumed, "words": WORDS})


def _containers(sight: Sight) -> list[str]:
    assert sight.scene is not None
    return [c.container for zone in sight.scene.design.zones for c in zone.containers]


def _counted(findings: tuple[Finding, ...], assumed: int) -> str:
    counts = Counter(f.severity for f in findings)
    parts = [f"{counts[s]} {WORDS[s]}" for s in Severity if counts[s]]
    return f"{', '.join(parts) or 'Nothing was found'}; {assumed} figures are assumed because the plan is silent."


PAGE = Page("doubts", "Doubts", "doubts.html", look)
