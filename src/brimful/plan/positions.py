"""Where things stand in a TOML document: line and column of every key and value, which tomllib does not tell.

The scanner walks a document that tomllib has accepted, so it checks nothing and only keeps count of paths. It keeps its
own stack, so depth of nesting cannot exhaust Python's.
"""

import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import NamedTuple

Path = tuple[str | int, ...]

DEEPEST = 64  # keys; deeper paths are left out, so that a key of ten thousand dots cannot fill the memory

_SKIP = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\]++|\\.)*+"|'[^']*'""")
_DOT = re.compile(r"[ \t]*+\.[ \t]*+")
_LEAF = re.compile(
    r""""{3}(?:[^"\\]++|\\[\s\S]|"(?!""))*+"{3,5}"""
    r"""|'{3}(?:[^']++|'(?!''))*+'{3,5}"""
    r'''|"(?:[^"\\]++|\\.)*+"'''
    r"""|'[^']*'"""
    r"""|[0-9]{4}-[0-9]{2}-[0-9]{2}[ ][0-9]{2}:[^\s,\]}#]*+"""
    r"""|[^\s,\]}#]++"""
)
_AT = re.compile(r"\(at line (\d+), column (\d+)\)\Z")


class Spot(NamedTuple):
    """Where a key stands and where its value starts, each counted from 1; a table's value starts at its key."""

    line: int
    column: int
    value_line: int
    value_column: int


class Written(NamedTuple):
    """A value as it is written: where its key starts (an element of a list: the value itself), its value, its end.

    `home` is the table in which the key stands: with dots in the key, it is not the table that holds the value.
    """

    key: int
    value: int
    end: int
    home: Path


class Header(NamedTuple):
    """A [table] or [[array of tables]] as it is written."""

    start: int
    end: int
    path: Path
    many: bool


def written(text: str) -> tuple[dict[Path, Written], list[Header]]:
    """Where every value and every header of a document that tomllib accepts starts and ends, each an index in the text.

    >>> written("[site]\\nyear = 2027")[0]["site", "year"]
    Written(key=7, value=14, end=18, home=('site',))
    """
    scanner = _Scanner(text)
    scanner.scan()
    return scanner.values, scanner.headers


def positions(text: str) -> dict[Path, Spot]:
    """The spot of every table, key and array element of a document that tomllib accepts, by path.

    A byte order mark in front is passed over. Paths deeper than DEEPEST keys are left out.

    >>> positions("[[containers]]\\nsize.height = '31 in'")["containers", 0, "size", "height"]
    Spot(line=2, column=6, value_line=2, value_column=15)
    """
    plain = text.removeprefix("\ufeff")
    lines = _Lines(plain)
    found = _Scanner(plain).scan()
    return {path: Spot(*lines.place(key), *lines.place(value)) for path, (key, value) in found.items()}


def locate_toml_error(text: str, error: tomllib.TOMLDecodeError) -> tuple[int, int]:
    """Line and column of what tomllib complains about; the end of the text where it ran out; (0, 0) if it does not say.

    >>> try:
    ...     _ = tomllib.loads("a = 1\\nb = ?")
    ... except tomllib.TOMLDecodeError as error:
    ...     locate_toml_error("a = 1\\nb = ?", error)
    (2, 5)
    """
    message = str(error)
    if match := _AT.search(message):
        return int(match[1]), int(match[2])
    return _Lines(text).place(len(text)) if message.endswith("(at end of document)") else (0, 0)


class _Lines:
    """Turns an index in the text into line and column."""

    def __init__(self, text: str) -> None:
        self.starts = [0, *(match.end() for match in re.finditer("\n", text))]

    def place(self, index: int) -> tuple[int, int]:
        line = bisect_right(self.starts, index)
        return line, index - self.starts[line - 1] + 1


@dataclass(slots=True)
class _Open:
    """An array or inline table not yet closed; `count` is the next element's index, None in a table."""

    path: Path | None
    count: int | None
    started: tuple[int, Path, int]  # where its key starts, the table in which that stands, where it opens


@dataclass(slots=True)
class _Scanner:
    """Walks the text once and notes the index of each path's key and value."""

    text: str
    at: int = 0
    found: dict[Path, tuple[int, int]] = field(default_factory=dict)
    last: dict[Path, int] = field(default_factory=dict)  # index of the newest element of each array of tables
    values: dict[Path, Written] = field(default_factory=dict)
    headers: list[Header] = field(default_factory=list)
    started: tuple[int, Path] = (0, ())  # where the newest key started, and the table in which it stands

    def scan(self) -> dict[Path, tuple[int, int]]:
        table: Path | None = ()
        self._skip()
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._value(self._key_of(table))
            self._skip()
        return self.found

    def _skip(self) -> None:
        match = _SKIP.match(self.text, self.at)
        self.at = match.end() if match else self.at

    def _keys(self) -> list[tuple[str, int]]:
        """The parts of a dotted key and where each stands."""
        parts = []
        while match := _KEY.match(self.text, self.at):
            parts.append((_name(match[0]), self.at))
            dot = _DOT.match(self.text, match.end())
            if dot is None:
                self.at = match.end()
                break
            self.at = dot.end()
        self._skip()
        return parts

    def _header(self) -> Path | None:
        """[table] or [[array of tables]]: notes it and returns the path of what follows."""
        start, many = self.at, self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        self._skip()
        parts = self._keys()
        self.at += 2 if many else 1
        path = self._header_path(parts, many=many)
        if path is not None:
            self.headers.append(Header(start, self.at, path, many))
        return path

    def _header_path(self, parts: list[tuple[str, int]], *, many: bool) -> Path | None:
        path: Path | None = ()
        for name, index in parts[:-1]:
            path = self._implied(path, name, index)
            if path in self.last:
                path = _deeper(path, self.last[path])
        name, index = parts[-1]
        if not many:
            return self._note(_deeper(path, name), index, index)
        path = self._implied(path, name, index)
        if path is None:
            return None
        self.last[path] = self.last.get(path, -1) + 1
        return self._note(_deeper(path, self.last[path]), index, index)

    def _key_of(self, table: Path | None) -> Path | None:
        """Reads `key =` up to the value and returns the key's path."""
        parts = self._keys()
        self.started = (parts[0][1], table or ())
        self.at += 1
        self._skip()
        path = table
        for name, index in parts[:-1]:
            path = self._implied(path, name, index)
        name, index = parts[-1]
        return self._note(_deeper(path, name), index, self.at)

    def _value(self, path: Path | None) -> None:
        """Reads a value and all that is inside it."""
        still_open: list[_Open] = []
        while True:
            opening = self.text[self.at]
            if opening in "[{":
                still_open.append(_Open(path, 0 if opening == "[" else None, (*self.started, self.at)))
                self.at += 1
            elif match := _LEAF.match(self.text, self.at):
                key, home, value = *self.started, self.at
                self.at = match.end()
                self._end(path, key, value, home)
            if not self._to_next(still_open):
                return
            path = self._inner(still_open[-1])

    def _to_next(self, still_open: list[_Open]) -> bool:
        """Moves to the next element, closing what closes on the way; False when all is closed."""
        while still_open:
            self._skip()
            sign = self.text[self.at]
            if sign not in ",]}":
                return True
            self.at += 1
            if sign != ",":
                closed = still_open.pop()
                key, home, value = closed.started
                self._end(closed.path, key, value, home)
        return False

    def _inner(self, around: _Open) -> Path | None:
        if around.count is None:
            return self._key_of(around.path)
        around.count += 1
        self.started = (self.at, around.path or ())
        return self._note(_deeper(around.path, around.count - 1), self.at, self.at)

    def _end(self, path: Path | None, key: int, value: int, home: Path) -> None:
        if path is not None:
            self.values[path] = Written(key, value, self.at, home)

    def _implied(self, path: Path | None, name: str, index: int) -> Path | None:
        """A table on the way to a key: its first mention counts."""
        deeper = _deeper(path, name)
        if deeper is not None:
            self.found.setdefault(deeper, (index, index))
        return deeper

    def _note(self, path: Path | None, key: int, value: int) -> Path | None:
        if path is not None:
            self.found[path] = (key, value)
        return path


def _deeper(path: Path | None, part: str | int) -> Path | None:
    return None if path is None or len(path) >= DEEPEST else (*path, part)


def _name(written: str) -> str:
    """A key as tomllib names it."""
    if written[0] not in "\"'":
        return written
    if "\\" not in written:
        return written[1:-1]
    name: str = tomllib.loads(f"key = {written}")["key"]
    return name
