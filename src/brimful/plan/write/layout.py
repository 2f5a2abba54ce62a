"""How a plan file is laid out: which stretch of its text belongs to which table, entry and field.

What belongs to a table or entry, its stretch: the notes that stand directly above its header, the header, its fields,
the notes directly below them, and the tables inside it that follow. Blank lines, and notes set off by them, belong to
no one: they stay where they are when an entry is moved.
"""

import re
import tomllib
from bisect import bisect_left
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from brimful.plan.positions import Header, Path, Written, written

_LONE_RETURN = re.compile(r"\r(?!\n)")
_LINE_END = re.compile(r"\r\n|\r|\n")
_BLANK_LINES = re.compile(r"(?:[ \t]*(?:\r\n|\r|\n))*(?:[ \t]*\Z)?")
Stretch = tuple[int, int]


def data_of(text: str) -> dict[str, Any]:
    """The data in a plan's text, which may have a byte order mark and any line ends.

    Raises:
        ValueError: the text is no TOML.
    """
    return tomllib.loads(_LONE_RETURN.sub("\n", text.removeprefix("\ufeff")))


@dataclass(frozen=True)
class Layout:
    """A text that is TOML, and where everything in it stands."""

    text: str
    data: dict[str, Any]
    values: dict[Path, Written]
    headers: tuple[Header, ...]
    line_end: str

    @classmethod
    def of(cls, text: str) -> "Layout":
        """The layout of a text.

        Raises:
            ValueError: the text is no TOML.
        """
        data = data_of(text)
        same_length = _LONE_RETURN.sub("\n", text.replace("\ufeff", " ", 1) if text.startswith("\ufeff") else text)
        first = _LINE_END.search(text)
        return cls(text, data, *_tupled(written(same_length)), first[0] if first else "\n")

    @cached_property
    def _ends(self) -> list[int]:
        """Where each header, and each field that stands on lines of its own, ends."""
        tables = {(), *(header.path for header in self.headers)}
        fields = (one.end for one in self.values.values() if one.home in tables)
        return sorted([*fields, *(header.end for header in self.headers)])

    def index_at(self, path: Path) -> list[int]:
        """Which headers open the table at `path` or a table inside it."""
        return [i for i, header in enumerate(self.headers) if header.path[: len(path)] == path]

    def stretches(self, path: Path) -> list[Stretch]:
        """What belongs to the table or entry at `path`, as one or more stretches in order."""
        found: list[list[int]] = []
        for i in self.index_at(path):
            if found and found[-1][-1] == i - 1:
                found[-1].append(i)
            else:
                found.append([i])
        return [(self.lead(run[0]), self.tail(run[-1])) for run in found]

    def lead(self, index: int) -> int:
        """Where a header's stretch starts: above the notes that stand directly above it."""
        start = self.line_start(self.headers[index].start)
        before = self.last_end(start)
        while start > before:
            above = self.line_start(start - 1)
            if above < before or not self.text[above:start].lstrip(" \t").startswith("#"):
                break
            start = above
        return start

    def tail(self, index: int) -> int:
        """Where the stretch of one header ends: below its last field and the notes directly below that."""
        stop = self.lead(index + 1) if index + 1 < len(self.headers) else len(self.text)
        limit = self.headers[index + 1].start if index + 1 < len(self.headers) else len(self.text) + 1
        return self._notes_below(self.line_stop(self.last_end(limit)), stop)

    def root_tail(self) -> int:
        """Where the fields above the first header end; 0 where there is none."""
        limit = self.headers[0].start if self.headers else len(self.text) + 1
        end = self.last_end(limit)
        return self.line_stop(end) if end else 0

    def _notes_below(self, end: int, stop: int) -> int:
        """Further down over lines of notes without a blank line between, unless they stand on what is below."""
        while True:
            start = self.next_line(end)
            if start >= stop or not self.text[start : self.line_stop(start)].lstrip(" \t").startswith("#"):
                return end
            end = self.line_stop(start)

    def last_end(self, before: int) -> int:
        """The end of the last field or header that ends before an index; 0 where there is none."""
        at = bisect_left(self._ends, before)
        return self._ends[at - 1] if at else 0

    def line_start(self, index: int) -> int:
        """Where the line starts on which an index stands."""
        end = index - 1 if self.text[max(0, index - 1) : index + 1] == "\r\n" else index
        return 1 + max(self.text.rfind("\n", 0, end), self.text.rfind("\r", 0, end), self.begin - 1)

    def line_stop(self, index: int) -> int:
        """Where the line stops on which an index stands, before its line end."""
        match = _LINE_END.search(self.text, index)
        return match.start() if match else len(self.text)

    def next_line(self, stop: int) -> int:
        """Where the line after a line end starts; beyond the text where there is none."""
        if self.text[stop : stop + 2] == "\r\n":
            return stop + 2
        return stop + 1

    @property
    def begin(self) -> int:
        """Where the text begins, after a byte order mark."""
        return 1 if self.text.startswith("\ufeff") else 0

    def gap_before(self, index: int) -> int:
        """Where the last line above that is not blank stops; the start of the text where there is none."""
        start = self.line_start(index)
        while start > self.begin:
            above = self.line_start(start - 1)
            if self.text[above:start].strip():
                return self.line_stop(above)
            start = above
        return self.begin

    def gap_before_end(self) -> int:
        """Where the last line that is not blank stops."""
        last = self.line_start(len(self.text))
        return len(self.text) if self.text[last:].strip() else self.gap_before(last)

    def line_end_before(self, start: int) -> int:
        """Where the line end before the start of a line stands."""
        return start - 2 if self.text[start - 2 : start] == "\r\n" else start - 1

    def gap_after(self, stop: int) -> int:
        """Where the next line that is not blank starts, below a line that stops here; the end of the text else."""
        match = _BLANK_LINES.match(self.text, stop)
        return match.end() if match else stop


def _tupled(found: tuple[dict[Path, Written], list[Header]]) -> tuple[dict[Path, Written], tuple[Header, ...]]:
    return found[0], tuple(found[1])
