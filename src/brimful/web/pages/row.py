"""Row: how things stand, and what to do next."""

from brimful.findings import Severity
from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.words import zone_answer


def look(sight: Sight, asked: Asked) -> Leaf:
    """The zones' sentences, a word on what was found, and the run in elevation."""
    scene = sight.scene
    assert scene is not None
    grave = [f for f in sight.findings if f.severity is not Severity.NOTE]
    said = [zone_answer(zone) for _, zone in scene.zones]
    said.append(_state(len(grave)))
    marks = {c.container: Mark(str(i)) for _, zone in scene.zones for i, c in enumerate(zone.containers, 1)}
    return Leaf(tuple(said), marks, {"grave": grave})


def _state(grave: int) -> str:
    if not grave:
        return "Nothing stands in the way."
    return f"{'One thing wants' if grave == 1 else f'{grave} things want'} your eye: see Doubts."


PAGE = Page("", "Row", "row.html", look)
