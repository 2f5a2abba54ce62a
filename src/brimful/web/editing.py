"""Edits of one plan made on the page: from the text the page showed, undone and redone, never over another's work."""

import threading
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from starlette.requests import Request

from brimful.plan.write import Step, rewrite
from brimful.services.editing import Draft, open_draft, save
from brimful.services.history import History

MOST_DRAFTS = 64


class NotDone(Exception):  # noqa: N818  (reads as what it says)
    """An edit that was not done, in words."""


@dataclass(slots=True)
class Drawer:
    """The texts of one plan while it is edited; every method may be called from any thread."""

    path: Path
    history: History | None = None
    drafts: "OrderedDict[str, Draft]" = field(default_factory=OrderedDict)
    lock: threading.RLock = field(default_factory=threading.RLock)

    def now(self) -> tuple[Draft, History]:
        """The file as it stands, and the history, in which what someone else saved is a step.

        Raises:
            BrimfulError: the plan cannot be read.
        """
        with self.lock:
            draft = open_draft(self.path)
            self.keep(draft)
            if self.history is None:
                self.history = History.of(draft.text)
            self.history = self.history.then_theirs(draft.text)
            return draft, self.history

    def keep(self, draft: Draft) -> None:
        """Remember a version, so that an edit of it can be told from an edit of another."""
        with self.lock:
            self.drafts[draft.digest] = draft
            self.drafts.move_to_end(draft.digest)
            while len(self.drafts) > MOST_DRAFTS:
                self.drafts.popitem(last=False)

    def seen(self, digest: str) -> Draft:
        """The version that a page showed.

        Raises:
            NotDone: it is too long ago.
        """
        with self.lock:
            if digest not in self.drafts:
                raise NotDone("The plan has changed many times since this page was loaded, so nothing was done.")
            return self.drafts[digest]

    def do(self, digest: str, steps: Sequence[Step], what: str) -> None:
        """Do steps on the version that a page showed, and save it.

        Raises:
            NotDone: the steps cannot be done.
            PlanChanged, NotSaved: as `save`.
        """
        edit = rewrite(self.seen(digest).text, *steps)
        if not edit.done:
            raise NotDone(edit.refusal)
        self.write(digest, edit.text, what)

    def write(self, digest: str, text: str, what: str) -> None:
        """Save a whole text over the version that a page showed.

        Raises:
            NotDone: the version is too long ago.
            PlanChanged, NotSaved: as `save`.
        """
        with self.lock:
            draft = self.seen(digest)
            _, history = self.now()
            saved = save(draft, text)
            self.keep(saved)
            self.history = history.then(saved.text, what)

    def undo(self, digest: str) -> None:
        """Take the last step back."""
        self._go(digest, History.undone)

    def redo(self, digest: str) -> None:
        """Do again what was undone."""
        self._go(digest, History.redone)

    def _go(self, digest: str, way: Callable[[History], History]) -> None:
        with self.lock:
            draft = self.seen(digest)
            _, history = self.now()
            there = way(history)
            self.keep(save(draft, there.text))
            self.history = there


class Drawers:
    """The drawer of each plan, made when it is first asked for."""

    def __init__(self) -> None:
        self._made: dict[Path, Drawer] = {}
        self._lock = threading.Lock()

    def of(self, path: Path) -> Drawer:
        """The drawer of the plan at a path."""
        with self._lock:
            return self._made.setdefault(path, Drawer(path))


def drawer_of(request: Request, path: Path) -> Drawer:
    """The drawer of a plan that this application serves."""
    drawers: Drawers = request.app.state.drawers
    return drawers.of(path)
