"""The evidence: what stands outside Brimful beside what Brimful gives, as the page of the manual tells it."""

import re

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.web.leaf import Asked, Leaf
from brimful.web.pages import doubts
from brimful.web.parts.part import Part
from brimful.web.show import bench_of, frame, html


def evidence(request: Request) -> Response:
    """The tables of published values."""
    if not doubts.EVIDENCE.is_file():
        raise HTTPException(404)
    said = ("Published values, worked out again here by the very code that works out your plan.",)
    sight = bench_of(request).sight()
    inside = {**frame(doubts.PAGE, sight, Asked(), Leaf(said)), "text": marked_up(doubts.EVIDENCE.read_text("utf-8"))}
    return html(request, "evidence.html", inside)


def marked_up(text: str) -> Markup:
    """The few marks that the page uses: headings, tables, paragraphs, words in code and in bold."""
    blocks = re.split(r"\n{2,}", text.strip())
    return Markup("\n").join(_block(block) for block in blocks)


def _block(block: str) -> Markup:
    if block.startswith("#"):
        level, _, words = block.partition(" ")
        return Markup("<h2>{}</h2>").format(_words(words)) if len(level) > 1 else Markup("")
    if not block.startswith("|"):
        return Markup("<p>{}</p>").format(_words(block))
    head, _, *rows = ([cell.strip() for cell in line.strip("|").split("|")] for line in block.splitlines())
    lines = [Markup("<thead>{}</thead>").format(_row(head, "th")), *(_row(row, "td") for row in rows)]
    return Markup('<div class="wide" tabindex="0"><table>{}</table></div>').format(Markup("").join(lines))


def _row(cells: list[str], kind: str) -> Markup:
    inside = Markup("").join(Markup(f"<{kind}>{{}}</{kind}>").format(_words(cell)) for cell in cells)
    return Markup("<tr>{}</tr>").format(inside)


def _words(words: str) -> Markup:
    safe = str(Markup.escape(words))
    return Markup(re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", re.sub(r"`(.+?)`", r"<code>\1</code>", safe)))


PARTS = (Part("evidence", evidence),)
