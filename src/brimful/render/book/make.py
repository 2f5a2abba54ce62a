"""The chapters in order, and the PDF of them."""

import json
from pathlib import Path

from brimful.design.model import UNNAMED
from brimful.render.book.blocks import MARGIN, POINTS, Block, Desk, Style, soft
from brimful.render.book.building import building
from brimful.render.book.buying import buying
from brimful.render.book.catch import water_test
from brimful.render.book.container import containers
from brimful.render.book.cover import cover, opening, run
from brimful.render.book.doubts import assumed, minding
from brimful.render.book.feeding import feeding
from brimful.render.book.letters import printable
from brimful.render.book.pipes import pipes
from brimful.render.book.planting import planting
from brimful.render.book.records import records
from brimful.render.book.tags import tags
from brimful.render.book.tasks import tasks
from brimful.render.book.times import times
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.strip import draw_strip
from brimful.render.drawings.svg import shortened
from brimful.render.fonts import font_folder

FIXED_TIME = 0
"""A book of the same plan is the same to the byte: it does not say when it was printed."""


def chapters(desk: Desk) -> list[Block]:
    """Every chapter for which there is something to say."""
    return [
        *run(desk),
        *minding(desk),
        *buying(desk),
        *pipes(desk),
        *containers(desk),
        *building(desk),
        *water_test(desk),
        *times(desk),
        *planting(desk),
        *feeding(desk),
        *tasks(desk),
        *records(desk),
        assumed(desk),
        tags(desk),
    ]


def book_data(scene: Scene, style: Style) -> dict[str, object]:
    """All that the template sets."""
    desk = Desk(scene, style)
    width, height = POINTS[style.paper]
    return {
        "title": soft(scene.design.title),
        "short": shortened(scene.design.title, style.size, 0.8 * style.width),
        "place": soft("" if scene.design.site.place == UNNAMED else scene.design.site.place),
        "size": style.size,
        "width": width,
        "height": height,
        "margin": MARGIN,
        "words": {"contents": "Contents"},
        "cover": cover(desk),
        "opening": opening(desk),
        "strip": draw_strip(scene, width=style.width),
        "chapters": chapters(desk),
    }


def book_pdf(scene: Scene, style: Style) -> bytes:
    """The book as PDF, the same bytes for the same plan."""
    import typst

    template = Path(__file__).with_name("book.typ").read_bytes()
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[font_folder()])
    return typst.compile(
        template,
        format="pdf",
        sys_inputs={"book": printable(json.dumps(book_data(scene, style), ensure_ascii=False))},
        font_paths=fonts,
        timestamp=FIXED_TIME,
    )
