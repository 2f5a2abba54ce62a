"""SVG by hand: elements with every text escaped, on a sheet that knows its width and its size of letters."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field

FONTS = "'Source Sans Pro', 'Source Sans 3', sans-serif"
GROUND, INK, SOFT = "#FBF8F1", "#1F2A24", "#5A665F"
WATER, LEAF, CLAY, STRAW, ALARM = "#1B639C", "#35703E", "#A4481F", "#8A6A00", "#9B1C1C"
THIN, MEDIUM, BOLD = 0.7, 1.4, 2.6
"""Widths of line: outlines and the thinnest tube, feeders and outlines cut through, mains."""
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NARROW, _WIDE = set("iljtfrI.,:;'|!()[] "), set("mwMW@%")

Number = float | int
Points = Iterable[tuple[float, float]]


def escaped(words: object) -> str:
    """Text that is text wherever it stands in XML; signs that XML has no room for are left out.

    >>> escaped('<script>"&')
    '&lt;script&gt;&quot;&amp;'
    """
    clean = _FORBIDDEN.sub("", str(words))
    for sign, name in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("'", "&#39;")):
        clean = clean.replace(sign, name)
    return clean


def number(value: Number) -> str:
    """A number in as few digits as a printer can show.

    >>> number(2.0), number(-0.0001), number(1 / 3)
    ('2', '0', '0.333')
    """
    text = f"{value:z.3f}".rstrip("0").rstrip(".")
    return text or "0"


def element(name: str, attributes: dict[str, object], *inside: str) -> str:
    """One element; `_` in a name stands for `-`, what is None is left out, `inside` is SVG already."""
    said = "".join(
        f' {key.replace("_", "-")}="{number(value) if isinstance(value, int | float) else escaped(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{said}>{''.join(inside)}</{name}>" if inside else f"<{name}{said}/>"


def text_width(words: str, size: float) -> float:
    """About how wide a line of text is, on the safe side: letters of the sans are half as wide as high."""
    return size * sum(
        1.05 if unicodedata.east_asian_width(c) in "WF" else 0.32 if c in _NARROW else 0.86 if c in _WIDE else 0.56
        for c in words
    )


def shortened(words: str, size: float, width: float) -> str:
    """The words, cut with "…" where they are wider than there is room.

    >>> shortened("promenade", 10, 30), shortened("gate", 10, 30)
    ('prom…', 'gate')
    """
    if text_width(words, size) <= width:
        return words
    while words and text_width(words + "…", size) > width:
        words = words[:-1]
    return words.rstrip() + "…"


def parts_that_fit(words: str, size: float, width: float) -> str:
    """As many of the parts between commas as there is room for, at least the first.

    >>> parts_that_fit("gate: 2 × square, 36 in wide, 30 in tall", 10, 100)
    'gate: 2 × square'
    """
    parts = words.split(", ")
    while len(parts) > 1 and text_width(", ".join(parts), 1.06 * size) > width:
        parts.pop()
    return ", ".join(parts)


def folded(words: str, width: float, size: float) -> list[str]:
    """Words in lines that fit."""
    lines = [""]
    for word in (shortened(one, size, width) for one in words.split()):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


@dataclass(slots=True)
class Sheet:
    """A drawing while it is made: x to the right and y down, in the units of the page; `size` is that of letters."""

    width: float
    size: float = 12.0
    parts: list[str] = field(default_factory=list)

    def add(self, name: str, *inside: str, **attributes: object) -> None:
        """Any element."""
        self.parts.append(element(name, attributes, *inside))

    def line(self, start: tuple[float, float], end: tuple[float, float], **style: object) -> None:
        """A straight line in ink."""
        where = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
        self.add("line", **where, **{"stroke": INK, "stroke_width": THIN, **style})

    def path(self, way: str, **style: object) -> None:
        """A path in ink."""
        self.add("path", d=way, **{"fill": "none", "stroke": INK, "stroke_width": THIN, **style})

    def polygon(self, points: Points, **style: object) -> None:
        """A closed outline in ink."""
        at = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self.add("polygon", points=at, **{"fill": "none", "stroke": INK, "stroke_width": THIN, **style})

    def circle(self, x: float, y: float, radius: float, **style: object) -> None:
        """A circle in ink."""
        self.add("circle", cx=x, cy=y, r=radius, **{"fill": "none", "stroke": INK, "stroke_width": THIN, **style})

    def text(self, x: float, y: float, words: str, **style: object) -> None:
        """Words on a base line; cut to their `room` where one is given, `anchor` start, middle or end."""
        size, room = style.pop("font_size", self.size), style.pop("room", 0.0)
        assert isinstance(size, int | float) and isinstance(room, int | float)
        shown = shortened(words, size, room) if room else words
        look: dict[str, object] = {"fill": INK, "font_size": size, "text_anchor": style.pop("anchor", None), **style}
        self.add("text", escaped(shown), x=x, y=y, **look)

    def halo(self, x: float, y: float, words: str, **style: object) -> None:
        """Words that stay readable over lines: paper round each letter."""
        under = {"stroke": "#FFFFFF", "stroke_width": 3, "stroke_linejoin": "round", "paint_order": "stroke"}
        self.text(x, y, words, **{**under, **style})

    def group(self, since: int, **attributes: object) -> None:
        """Put all parts from one on into a group."""
        self.parts[since:] = [element("g", attributes, *self.parts[since:])]

    def done(self, height: float, title: str, **data: object) -> str:
        """The whole SVG; `title` is what a screen reader says."""
        named = {f"data_{key}": value for key, value in data.items()}
        return element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"0 0 {number(self.width)} {number(height)}",
                "width": self.width,
                "height": height,
                "role": "img",
                "font_family": FONTS,
                **named,
            },
            element("title", {}, escaped(title) or " "),
            *self.parts,
        )
