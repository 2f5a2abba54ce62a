"""A page read as a visitor without script reads it: sentences, marks, tables, pictures, links."""

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"meta", "link", "img", "source", "input", "br", "use", "rect", "path", "circle", "line", "polygon"}


@dataclass
class Read:
    """What stands on a page."""

    answer: list[str] = field(default_factory=list)
    marks: dict[str, str] = field(default_factory=dict)
    rows: list[list[str]] = field(default_factory=list)
    pictures: list[tuple[str, str]] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    headings: list[str] = field(default_factory=list)
    words: str = ""
    scripts: int = 0


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.read = Read()
        self.open: list[tuple[str, dict[str, str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = {key: value or "" for key, value in attrs}
        read = self.read
        if tag not in VOID:
            self.open.append((tag, known))
        if tag == "a" and "href" in known:
            read.links.append(known["href"])
            if "stand" in known.get("class", "").split():
                name, _, mark = known["aria-label"].partition(": ")
                read.marks[name] = mark
        elif tag == "img":
            read.pictures.append((known["src"], known.get("alt", "")))
        elif tag == "source":
            read.pictures.append((known["srcset"], "narrow"))
        elif tag == "tr":
            read.rows.append([])
        elif tag in ("td", "th") and read.rows:
            read.rows[-1].append("")
        elif tag in ("h1", "h2", "h3"):
            read.headings.append("")
        elif tag == "p" and self._in("answer"):
            read.answer.append("")
        read.scripts += tag == "script" and "src" not in known

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        tags = {tag for tag, _ in self.open}
        read = self.read
        read.words += data
        if tags & {"td", "th"} and read.rows and read.rows[-1]:
            read.rows[-1][-1] += data
        if tags & {"h1", "h2", "h3"}:
            read.headings[-1] += data
        if "p" in tags and self._in("answer") and read.answer:
            read.answer[-1] += data

    def _in(self, name: str) -> bool:
        return any(name in known.get("class", "").split() for _, known in self.open)


def read_page(html: str) -> Read:
    """A page in parts, runs of blanks made one."""
    reader = _Reader()
    reader.feed(html)
    read = reader.read
    read.answer = [_plain(words) for words in read.answer]
    read.rows = [[_plain(cell) for cell in row] for row in read.rows]
    read.words = _plain(read.words)
    return read


def _plain(words: str) -> str:
    return re.sub(r"\s+", " ", words).strip()
