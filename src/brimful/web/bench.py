"""A plan on the bench: read again when its file changes, with the longer work done beside, step by step."""

import hashlib
import logging
import re
import threading
import time
from collections import OrderedDict
from collections.abc import Mapping
from concurrent.futures import Executor
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Working
from brimful.findings import Finding
from brimful.records import record

if TYPE_CHECKING:
    from brimful.render.drawings.scene import Scene
    from brimful.services import Opened
    from brimful.services.desk import PlanDesk

BESIDE = (".csv", ".json", ".dly")
"""Endings of the files beside a plan that its answers may rest on."""
NAMED = re.compile(rb"""["']([^"'\n]+\.(?:csv|json|dly))["']""", re.IGNORECASE)
"""A file that a plan names, wherever it stands."""
KEPT = 8
"""So many texts of a plan are kept worked out: going back to one is at once."""
PAUSE_S = 1.5
"""While a plan is edited the longer work waits so long for the next edit, so as not to slow it."""


class Stopped(Exception):  # noqa: N818  (no error: the work was called off)
    """The work beside is no longer wanted."""


@record
class Sight:
    """A plan as it stands at one moment. `scene` is None where the plan cannot be worked out; `doing` says what is
    being worked out just now and is "" when all is done, `stopped` that the work was called off, `broken` what
    was being worked out when it broke off; `workings` say how each figure so far came about."""

    name: str
    path: Path
    digest: str
    opened: "Opened | None"
    scene: "Scene | None"
    findings: tuple[Finding, ...]
    doing: str = ""
    stopped: bool = False
    broken: str = ""
    workings: Mapping[str, Working] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether everything that can be worked out has been."""
        return not (self.doing or self.stopped or self.broken)


class Bench:
    """Keeps one plan open, and works on it in the background; every method may be called from any thread."""

    def __init__(self, path: Path, crew: Executor) -> None:
        self.path, self.name = path, path.stem
        self._crew, self._lock = crew, threading.RLock()
        self._sight: Sight | None = None
        self._turn = 0
        self._desk: PlanDesk | None = None
        self._kept: OrderedDict[str, Sight] = OrderedDict()

    def sight(self) -> Sight:
        """The plan as its file stands now; the longer work is set going where the content is new.

        Raises:
            BrimfulError: a file that cannot be read at all.
        """
        with self._lock:
            digest = digest_of(self.path)
            if self._sight is None or self._sight.digest != digest:
                self._keep()
                self._sight = self._kept.pop(digest, None) or self._fresh(digest)
                self._work_on(self._sight)
            return self._sight

    def _keep(self) -> None:
        """Put the text in sight by, to come back to; what was under way begins anew then."""
        if self._sight is not None:
            self._kept[self._sight.digest] = self._sight
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)

    def call_off(self) -> None:
        """Stop the work beside; what the design itself gives stays."""
        with self._lock:
            if self._sight is not None and self._sight.doing:
                self._sight = replace(self._sight, doing="", stopped=True)

    def go_on(self) -> None:
        """Take work up again that was called off or broke off."""
        with self._lock:
            if self._sight is not None and (self._sight.stopped or self._sight.broken):
                self._sight = replace(self._sight, stopped=False, broken="", doing="again")
                self._work_on(self._sight)

    def be_edited(self) -> None:
        """From now on keep what was worked out, stage by stage, so that an edit redoes only what it touches.

        Raises:
            BrimfulError: a file that cannot be read at all.
        """
        from brimful.services.desk import PlanDesk

        with self._lock:
            if self._desk is None:
                self._desk = PlanDesk(self.path)
                self._open()

    def _open(self) -> "tuple[Opened | None, tuple[Finding, ...]]":
        from brimful.services import open_plan
        from brimful.services.editing import open_draft

        if self._desk is None:
            return open_plan(self.path)[1:]
        look = self._desk.look(open_draft(self.path).text)
        return look.opened, look.findings

    def _fresh(self, digest: str) -> Sight:
        from brimful.services import STEPS, scene_with

        opened, stopped = self._open()
        if opened is None:
            return Sight(self.name, self.path, digest, None, None, stopped)
        seen = scene_with(opened)
        return Sight(
            self.name, self.path, digest, opened, seen.scene, seen.findings, doing=STEPS[0], workings=seen.workings
        )

    def _work_on(self, sight: Sight) -> None:
        """Begin the longer work; whatever was begun before ends at its next step."""
        self._turn += 1
        if sight.doing:
            from brimful.services import STEPS

            self._sight = replace(sight, doing=STEPS[0])
            self._crew.submit(self._work_beside, self._sight, self._turn)

    def _work_beside(self, sight: Sight, turn: int) -> None:
        from brimful.services import scene_with, work_beside

        assert sight.opened is not None
        try:
            self._wait_for_next(turn)
            beside = work_beside(sight.opened, tell=lambda step: self._tell(turn, step))
            self._tell(turn, "the drawings")
            seen = scene_with(sight.opened, beside)
            whole = replace(sight, scene=seen.scene, findings=seen.findings, workings=seen.workings, doing="")
            self._becomes(turn, whole)
        except Stopped:
            return
        except Exception:
            logging.getLogger(__name__).exception("the work beside the design broke off")
            self._breaks_off(turn)

    def _wait_for_next(self, turn: int) -> None:
        until = time.monotonic() + (PAUSE_S if self._desk is not None else 0.0)
        while time.monotonic() < until:
            self._check(turn)
            time.sleep(0.05)

    def _tell(self, turn: int, step: str) -> None:
        """Say what comes next; the plan having changed meanwhile, or the work called off, ends it."""
        with self._lock:
            self._sight = replace(self._check(turn), doing=step)

    def _check(self, turn: int) -> Sight:
        """The plan in sight, unless it has changed or the work was called off."""
        with self._lock:
            if self._sight is None or self._turn != turn or self._sight.stopped:
                raise Stopped
            return self._sight

    def _becomes(self, turn: int, whole: Sight) -> None:
        with self._lock:
            if self._turn == turn and self._sight is not None and not self._sight.stopped:
                self._sight = whole

    def _breaks_off(self, turn: int) -> None:
        with self._lock:
            if self._turn == turn and self._sight is not None and not self._sight.stopped:
                self._sight = replace(self._sight, doing="", broken=self._sight.doing)


def digest_of(path: Path) -> str:
    """A mark of a plan's content and of the tables and weather beside it.

    Raises:
        BrimfulError: the plan cannot be read.
    """
    from brimful.errors import PlanUnreadable

    mark = hashlib.sha256()
    try:
        text = path.read_bytes()
        mark.update(text)
        beside = [p for p in path.parent.iterdir() if p.suffix.lower() in BESIDE]
        for one in sorted({*beside, *(path.parent / name.decode("utf-8", "replace") for name in NAMED.findall(text))}):
            mark.update(f"{one} {_stand_of(one)}".encode("utf-8", "surrogateescape"))
    except OSError as error:
        raise PlanUnreadable(f"{path.name} cannot be read: {error.strerror}. Is it still there?") from error
    return mark.hexdigest()


def _stand_of(path: Path) -> tuple[int, int] | None:
    """Size and time of a file, None where it is not there."""
    try:
        stat = path.stat()
    except (OSError, ValueError):
        return None
    return stat.st_size, stat.st_mtime_ns
