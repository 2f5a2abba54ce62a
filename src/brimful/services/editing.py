"""A plan on disk as a draft: opened, saved whole or not at all, never over what someone else saved meanwhile."""

import errno
import hashlib
import os
import re
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Lock

from brimful.errors import NotSaved, PlanChanged, PlanUnreadable
from brimful.plan.read import MOST_BYTES, bytes_of, plain_text
from brimful.records import record
from brimful.services.saving import save_whole

_MARK = "\ufeff"
_LINE = re.compile(r"[^\n]*\n|[^\n]+")
_LOCKS: dict[Path, Lock] = {}
_LOCKS_LOCK = Lock()
WORDS = {
    errno.ENOSPC: "the disk is full. Make room, then save again",
    errno.EDQUOT: "your share of the disk is full. Make room, then save again",
    errno.EACCES: "its folder may not be written to. Save under another name, or have the folder opened to you",
    errno.EPERM: "its folder may not be written to. Save under another name, or have the folder opened to you",
    errno.EROFS: "its disk may only be read. Save under another name, on another disk",
    errno.ENOENT: "its folder is gone. Save under another name",
    errno.ENAMETOOLONG: "its name is too long. Save under a shorter name",
}


@record
class Draft:
    """A plan as it was opened: its text with plain line ends, the file's bytes, and their digest.

    An empty digest stands for a file that is not there.
    """

    path: Path
    text: str
    digest: str
    written: bytes = b""

    def bytes_with(self, text: str) -> bytes:
        """Another text in bytes, with the byte order mark and the line ends of this file."""
        plain = text.removeprefix(_MARK).replace("\r\n", "\n").replace("\r", "\n")
        if plain == self.text:
            return self.written
        mark = _MARK if self.written.startswith(_MARK.encode()) else ""
        return (mark + _with_line_ends(plain, self.written.decode("utf-8-sig"))).encode()


def open_draft(path: Path) -> Draft:
    """Open a plan for editing.

    Raises:
        PlanUnreadable: the file is missing, too large, or not text.
    """
    data = bytes_of(path)
    return Draft(path, plain_text(data, path), digest_of(data), data)


def new_draft(path: Path) -> Draft:
    """A draft of a plan that is not there yet; it is saved only where still nothing stands."""
    return Draft(path, "", "")


def digest_of(data: bytes) -> str:
    """A digest by which two versions of a file are told apart."""
    return hashlib.sha256(data).hexdigest()


def save(draft: Draft, text: str) -> Draft:
    """Save a text over the draft that it was made from; gives the draft of what stands there now.

    To save over what someone else has saved, save on the draft `theirs` that PlanChanged carries.

    Raises:
        PlanChanged: someone else has changed or removed the file since the draft was opened.
        NotSaved: the text cannot be saved; the file is as it was.
    """
    data = _data_to_save(draft, text)
    target = Path(os.path.realpath(draft.path))
    try:
        with _alone(target):
            now = _as_it_is(draft.path, text)
            if now.digest != draft.digest and now.written != data:
                raise PlanChanged(_changed_words(draft, now), text, now)
            if data != now.written or not now.digest:
                save_whole(target, data, _mode(target, text))
            return Draft(draft.path, plain_text(data, draft.path), digest_of(data), data)
    except OSError as error:
        why = WORDS.get(error.errno or 0, error.strerror or str(error))
        raise NotSaved(f"{draft.path.name} is not saved: {why}. What you wrote is kept here.", text) from None
    except ValueError:
        raise NotSaved(f"{draft.path.name} is not saved: no file can have this name.", text) from None


def _data_to_save(draft: Draft, text: str) -> bytes:
    try:
        data = draft.bytes_with(text)
    except UnicodeEncodeError as error:
        line = text.count("\n", 0, error.start) + 1
        said = f"line {line} holds a sign that no file can hold. Take it out"
        raise NotSaved(f"{draft.path.name} is not saved: {said}.", text) from None
    if len(data) > MOST_BYTES:
        raise NotSaved(f"{draft.path.name} is not saved: it has more than 2 MB; a plan has at most 2 MB.", text)
    return data


def _as_it_is(path: Path, mine: str) -> Draft:
    """What stands at a path now."""
    if not os.path.lexists(path) or not path.exists():
        return new_draft(path)
    try:
        return open_draft(path)
    except PlanUnreadable as error:
        raise NotSaved(f"{path.name} is not saved: {error}", mine) from None


def _changed_words(draft: Draft, now: Draft) -> str:
    name = draft.path.name
    if not now.digest:
        return f"{name} is not saved: someone has removed or renamed it. Save it again to put it back."
    if not draft.digest:
        return f"{name} is not saved: a file of this name is there already. Choose another name, or look at both."
    return f"{name} is not saved: someone has changed it since you opened it. Look at both, then keep what is right."


def _mode(target: Path, mine: str) -> int:
    """The mode of the file that is replaced; a file that may not be written to is left alone."""
    try:
        mode = stat.S_IMODE(target.stat().st_mode)
    except FileNotFoundError:
        return 0o644
    if not mode & 0o222 or not os.access(target, os.W_OK):
        said = "it is protected against writing. Lift that, or save under another name"
        raise NotSaved(f"{target.name} is not saved: {said}.", mine)
    return mode


@contextmanager
def _alone(target: Path) -> Iterator[None]:
    """One saver at a time: among the threads of this process, and among processes by a lock on the folder."""
    with _LOCKS_LOCK:
        lock = _LOCKS.setdefault(target, Lock())
    with lock, _folder_lock(target.parent):
        yield


@contextmanager
def _folder_lock(folder: Path) -> Iterator[None]:
    """A lock on a folder, where the system has such; it ends with the process that holds it."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # some network disks know no locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _with_line_ends(plain: str, written: str) -> str:
    """A text with the line ends of another: those of its lines that are in it still, else the commonest."""
    ends = re.findall(r"\r\n|\r|\n", written)
    kinds = sorted(set(ends), key=lambda end: (-ends.count(end), end != "\n"))
    if len(kinds) < 2:
        return plain.replace("\n", kinds[0]) if kinds else plain
    return _with_mixed_line_ends(plain, written, kinds[0])


def _with_mixed_line_ends(plain: str, written: str, usual: str) -> str:
    from difflib import SequenceMatcher

    old = re.findall(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z", written)
    bare = [line.rstrip("\r\n") for line in old]
    new = _LINE.findall(plain)
    lines = [line.replace("\n", usual) for line in new]
    pairs = SequenceMatcher(None, bare, [line.rstrip("\n") for line in new], autojunk=False)
    for block in pairs.get_matching_blocks():
        for i in range(block.size):
            if new[block.b + i].endswith("\n") and old[block.a + i][-1:] in ("\r", "\n"):
                lines[block.b + i] = old[block.a + i]
    return "".join(lines)


@record
class Line:
    """A line of a comparison: in both, theirs or mine only; line numbers count from 1, 0 where it is not."""

    side: str
    text: str
    theirs: int
    mine: int


def compared(theirs: str, mine: str) -> tuple[Line, ...]:
    """Two texts line by line: "both", "theirs" or "mine", in order, so that each can be read from top to bottom."""
    from difflib import SequenceMatcher

    one, other = theirs.split("\n"), mine.split("\n")
    lines: list[Line] = []
    for tag, a, a_end, b, b_end in SequenceMatcher(None, one, other, autojunk=len(one) > 5000).get_opcodes():
        if tag == "equal":
            lines += [Line("both", one[a + i], a + i + 1, b + i + 1) for i in range(a_end - a)]
            continue
        lines += [Line("theirs", one[i], i + 1, 0) for i in range(a, a_end)]
        lines += [Line("mine", other[i], 0, i + 1) for i in range(b, b_end)]
    return tuple(lines)
