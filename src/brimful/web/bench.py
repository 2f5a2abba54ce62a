"""A plan on the bench: read again when its file changes, with the longer work done beside, step by step."""

import hashlib
import logging
import threading
from collections.abc import Mapping
from concurrent.futures import Executor
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Working
from brimful.findings import Finding

if TYPE_CHECKING:
    from brimful.render.drawings.scene import Scene
    from brimful.services import Opened

BESIDE = (".csv", ".json", ".dly")
"""Endings of the files beside a plan that its answers may rest on."""


class Stopped(Exception):  # noqa: N818  (no error: the work was called off)
    """The work beside is no longer wanted."""


@dataclass(frozen=True, slots=True)
class Sight:
    """A plan as it stands at one moment. `scene` is None where the plan cannot be worked out; `doing` says what is
    being worked out just now and is "" when all is done, `stopped` that the work was called off; `workings` say how
    each figure so far came about."""

    name: str
    path: Path
    digest: str
    opened: "Opened | None"
    scene: "Scene | None"
    findings: tuple[Finding, ...]
    doing: str = ""
    stopped: bool = False
    workings: Mapping[str, Working] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether everything that can be worked out has been."""
        return not self.doing and not self.stopped


class Bench:
    """Keeps one plan open, and works on it in the background; every method may be called from any thread."""

    def __init__(self, path: Path, crew: Executor) -> None:
        self.path, self.name = path, path.stem
        self._crew, self._lock = crew, threading.RLock()
        self._sight: Sight | None = None

    def sight(self) -> Sight:
        """The plan as its file stands now; the longer work is set going where the content is new.

        Raises:
            BrimfulError: a file that cannot be read at all.
        """
        with self._lock:
            digest = digest_of(self.path)
            if self._sight is None or self._sight.digest != digest:
                self._sight = self._fresh(digest)
                self._work_on(self._sight)
            return self._sight

    def call_off(self) -> None:
        """Stop the work beside; what the design itself gives stays."""
        with self._lock:
            if self._sight is not None and self._sight.doing:
                self._sight = replace(self._sight, doing="", stopped=True)

    def go_on(self) -> None:
        """Take work up again that was called off."""
        with self._lock:
            if self._sight is not None and self._sight.stopped:
                self._sight = replace(self._sight, stopped=False)
                self._work_on(self._sight)

    def _fresh(self, digest: str) -> Sight:
        from brimful.services import open_plan, scene_with

        _, opened, stopped = open_plan(self.path)
        if opened is None:
            return Sight(self.name, self.path, digest, None, None, stopped)
        seen = scene_with(opened)
        return Sight(self.name, self.path, digest, opened, seen.scene, seen.findings, workings=seen.workings)

    def _work_on(self, sight: Sight) -> None:
        if sight.opened is not None:
            self._sight = replace(sight, doing="the season's water")
            self._crew.submit(self._work_beside, self._sight)

    def _work_beside(self, sight: Sight) -> None:
        from brimful.services import scene_with, work_beside

        assert sight.opened is not None
        try:
            beside = work_beside(sight.opened, tell=lambda step: self._tell(sight.digest, step))
            self._tell(sight.digest, "the drawings")
            seen = scene_with(sight.opened, beside)
        except Stopped:
            return
        except Exception:
            logging.getLogger(__name__).exception("the work beside the design broke off")
            self.call_off()
            return
        with self._lock:
            if self._sight is not None and self._sight.digest == sight.digest and not self._sight.stopped:
                self._sight = replace(sight, scene=seen.scene, findings=seen.findings, workings=seen.workings, doing="")

    def _tell(self, digest: str, step: str) -> None:
        """Say what comes next; the plan having changed meanwhile, or the work called off, ends it."""
        with self._lock:
            if self._sight is None or self._sight.digest != digest or self._sight.stopped:
                raise Stopped
            self._sight = replace(self._sight, doing=step)


def digest_of(path: Path) -> str:
    """A mark of a plan's content and of the tables and weather beside it.

    Raises:
        BrimfulError: the plan cannot be read.
    """
    from brimful.errors import PlanUnreadable

    mark = hashlib.sha256()
    try:
        mark.update(path.read_bytes())
        for beside in sorted(p for p in path.parent.iterdir() if p.suffix in BESIDE):
            stat = beside.stat()
            mark.update(f"{beside.name} {stat.st_size} {stat.st_mtime_ns}".encode())
    except OSError as error:
        raise PlanUnreadable(f"{path.name} cannot be read: {error.strerror}. Is it still there?") from error
    return mark.hexdigest()
