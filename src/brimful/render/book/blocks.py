"""What pages are made of: sentences, pictures, tables, forms. Plain data that the template sets in order."""

import re
from collections.abc import Iterable, Sequence
from html import unescape

from brimful.quantities import System
from brimful.records import record
from brimful.render.drawings.scene import Scene

Block = dict[str, object]
BREAK_AFTER = 14
"""Unbroken words longer than this may break anywhere, so that no name runs out of its column."""
SOFT_BREAK = "\u200b"
POINTS = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}
MARGIN = 54.0
LARGE_PT = 12.0


@record
class Style:
    """Paper, size of letters [pt], and where the plan's page is served ("" where nowhere)."""

    paper: str = "letter"
    size: float = 10.0
    address: str = ""

    @property
    def large(self) -> bool:
        """Whether letters are too large for drawings side by side."""
        return self.size > LARGE_PT

    @property
    def width(self) -> float:
        """Room for text across the page [pt]."""
        return POINTS[self.paper][0] - 2 * MARGIN

    @property
    def height(self) -> float:
        """Room for text down the page [pt]."""
        return POINTS[self.paper][1] - 2 * MARGIN


@record
class Desk:
    """What a page is made from."""

    scene: Scene
    style: Style

    @property
    def system(self) -> System:
        """The units that the book speaks."""
        return self.scene.system


@record
class Column:
    """One column of a table: its head, whether figures stand to the right, its share of the width (0: as needed)."""

    head: str
    right: bool = False
    share: float = 0.0


def soft(words: object) -> str:
    """Words in which a long unbroken run may break, after a dot or stroke where it has one.

    >>> soft("a" * 20).count(SOFT_BREAK), soft("purple fountain grass").count(SOFT_BREAK)
    (1, 0)
    """
    return re.sub(rf"\S{{{BREAK_AFTER + 1},}}", _broken, str(words).replace("\t", " "))


def _broken(match: re.Match[str]) -> str:
    parts = re.findall(r"[^._/]*[._/]*", match.group())
    return SOFT_BREAK.join(part[i : i + BREAK_AFTER] for part in parts for i in range(0, len(part), BREAK_AFTER))


def say(words: str) -> Block:
    """The sentence a page opens with."""
    return {"kind": "say", "words": soft(words)}


def text(words: str) -> Block:
    """A plain paragraph."""
    return {"kind": "text", "words": soft(words)}


def head(words: str) -> Block:
    """A heading within a chapter."""
    return {"kind": "head", "words": soft(words)}


def picture(svg: str, *, under: str = "") -> Block:
    """A drawing, at the size it was drawn."""
    width, tall = drawn_size(svg)
    known = {"kind": "picture", "svg": svg, "alt": said_of(svg), "width": width, "tall": tall}
    return {**known, "under": soft(under)}


def abreast(svgs: Sequence[str]) -> Block:
    """Drawings side by side."""
    return {"kind": "abreast", "svgs": [[svg, drawn_size(svg)[0], said_of(svg)] for svg in svgs]}


def said_of(svg: str) -> str:
    """What a drawing says of itself to those who do not see it."""
    found = re.search(r"<title>(.*?)</title>", svg)
    return unescape(found[1]) if found else "chart"


def drawn_size(svg: str) -> tuple[float, float]:
    """Width and height that a drawing was made for; a unit of the drawing is a point of the page."""
    found = re.search(r'<svg[^>]*? width="([\d.]+)" height="([\d.]+)"', svg)
    assert found is not None
    return float(found[1]), float(found[2])


def table(columns: Sequence[Column], rows: Iterable[Sequence[object]], *, title: str = "") -> Block:
    """A table whose head comes back on every page it runs over; a row of one cell heads those below it."""
    return {
        "kind": "table",
        "title": soft(title),
        "heads": [soft(c.head) for c in columns],
        "right": [c.right for c in columns],
        "shares": [c.share for c in columns],
        "rows": [[soft(cell) for cell in row] for row in rows],
    }


def pairs(rows: Sequence[tuple[str, object]], *, title: str = "", columns: int = 2) -> Block:
    """What things are called and their figures, in columns side by side."""
    return {
        "kind": "pairs",
        "title": soft(title),
        "columns": columns,
        "rows": [[soft(name), soft(value)] for name, value in rows],
    }


def ticks(words: Sequence[str], *, title: str = "") -> Block:
    """Short words, each with a box to tick."""
    return {"kind": "ticks", "title": soft(title), "words": [soft(one) for one in words]}


def form(heads: Sequence[str], rows: Sequence[Sequence[str]], *, shares: Sequence[float], pad: float = 6.0) -> Block:
    """A table to fill by hand: what is known stands in it, the rest is room, `pad` [pt] above and below a line."""
    return {
        "kind": "form",
        "pad": pad,
        "heads": [soft(h) for h in heads],
        "shares": list(shares),
        "rows": [[soft(cell) for cell in row] for row in rows],
    }


def labels(entries: Sequence[tuple[str, str, str]]) -> Block:
    """Labels to cut out: QR code as SVG, the container's name, a line below."""
    return {"kind": "labels", "entries": [[svg, soft(name), soft(line)] for svg, name, line in entries]}


def chapter(title: str, blocks: Iterable[Block], *, joins: str = "") -> Block:
    """One chapter; it starts on a page of its own, unless it joins the one before it: "whole" where there is room for
    all of it, or "at once"."""
    return {"title": soft(title), "joins": joins, "blocks": list(blocks)}
