"""Two texts as a page shows them: where they differ, and a little around it."""

from collections.abc import Sequence

from brimful.services.editing import Line

AROUND = 2
"""So many equal lines are shown around those that differ."""


def differing(lines: Sequence[Line]) -> list[Line | None]:
    """The lines that differ with a few around them; None stands for those left out between."""
    near = {at + by for at, line in enumerate(lines) if line.side != "both" for by in range(-AROUND, AROUND + 1)}
    found: list[Line | None] = []
    for at, line in enumerate(lines):
        if at in near:
            found.append(line)
        elif found and found[-1] is not None:
            found.append(None)
    return found
