"""A plan on the desk: looked at again and again while it is edited, so that only what an edit touches is redone."""

import hashlib
from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from brimful.design.stages import Stages
from brimful.findings import Finding, Severity
from brimful.plan.read import PlanFile, read_text
from brimful.records import record
from brimful.services.opening import Opened

if TYPE_CHECKING:
    from brimful.catalog import Catalog

MOST_LOOKS = 32
MOST_KEPT = 5000
Beside = tuple[tuple[str, int, int], ...]


@record
class Look:
    """What comes of a text that may not be saved yet: the file as read, the opened plan where it designs, findings."""

    file: PlanFile
    opened: Opened | None
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether the text designs and nothing stops it."""
        return self.opened is not None and not any(one.severity is Severity.ERROR for one in self.findings)


@dataclass(slots=True)
class PlanDesk:
    """One plan while it is edited. What was worked out is kept by content, and let go oldest first.

    Files beside the plan, such as weather and own tables, are part of the content: when one changes, all is redone.
    """

    path: Path
    stages: Stages = field(default_factory=lambda: Stages(most=MOST_KEPT))
    looks: "OrderedDict[str, Look]" = field(default_factory=OrderedDict)
    catalog: "tuple[Beside, Catalog] | None" = None
    lock: Lock = field(default_factory=Lock)

    def look(self, text: str, units: str | None = None) -> Look:
        """Design a text as if it stood at the plan's path; the same text again is only looked up.

        Raises:
            BrimfulError: a table beside the plan cannot be read.
        """
        beside = tuple(_beside(self.path.parent))
        key = hashlib.sha256(repr((text, units, beside)).encode("utf-8", "surrogatepass")).hexdigest()
        with self.lock:
            found = self.looks.pop(key, None) or self._worked_out(text, units, beside)
            self.looks[key] = found
            while len(self.looks) > MOST_LOOKS:
                self.looks.popitem(last=False)
            return found

    def _worked_out(self, text: str, units: str | None, beside: Beside) -> Look:
        from brimful.checks import worst_first
        from brimful.design.stages import work_out

        file = read_text(text, self.path)
        if file.plan is None:
            return Look(file, None, file.findings)
        plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
        catalog = self._catalog(beside)
        outcome = work_out(plan, catalog, file.places, folder=self.path.parent, stages=self.stages)
        if outcome.design is None or outcome.settled is None:
            return Look(file, None, worst_first(outcome.findings))
        opened = Opened(file, plan, catalog, outcome, outcome.design, outcome.settled)
        return Look(file, opened, worst_first((*outcome.findings, *opened.checked)))

    def _catalog(self, beside: Beside) -> "Catalog":
        """The catalogue with the tables beside the plan, read anew, and all redone, when a file beside it changes."""
        from brimful.catalog import load

        if self.catalog is None or self.catalog[0] != beside:
            self.catalog = (beside, load(self.path.parent))
            self.stages.kept.clear()
        return self.catalog[1]


def _beside(folder: Path) -> Iterator[tuple[str, int, int]]:
    """Name, time of change and size of each file beside a plan that may be read with it."""
    try:
        for path in sorted(folder.iterdir()):
            if path.suffix.lower() in (".csv", ".json", ".txt") and path.is_file():
                stat = path.stat()
                yield path.name, stat.st_mtime_ns, stat.st_size
    except OSError:
        return
