"""Labels: one for each container, with a code that a phone reads."""

from brimful.render.addresses import container_path
from brimful.render.book.blocks import Block, Desk, chapter, labels, text
from brimful.render.drawings.svg import element

QUIET = 4
"""Free modules round the code (ISO/IEC 18004, memory)."""
NAME_ROOM, LINE_ROOM = 32, 60
"""Letters that a label has room for."""


def tags(desk: Desk) -> Block:
    """A label for each container, to cut out and keep dry."""
    address = desk.style.address.rstrip("/")
    says = "opens the container's page" if address else "says the container's name"
    entries = [
        (qr(code_words(desk, name)), clipped(name, NAME_ROOM), clipped(row.worked.container, LINE_ROOM))
        for row in desk.scene.rows
        for name in row.spec.ids
    ]
    return chapter("Labels", [text(f"Cut along the dashes. Each code {says}."), labels(entries)])


def clipped(words: str, most: int) -> str:
    """Words with their middle left out where they are long: the number at the end is what tells labels apart.

    >>> clipped("water side 12", 20), clipped("a very long name of a row 12", 16)
    ('water side 12', 'a very l… row 12')
    """
    return words if len(words) <= most else f"{words[: most // 2].rstrip()}…{words[-(most // 2 - 1) :]}"


def code_words(desk: Desk, name: str) -> str:
    """What a label's code holds: the address of the container's page, or without one the plan and the container."""
    address = desk.style.address.rstrip("/")
    return f"{address}{container_path(name)}" if address else f"{desk.scene.design.title}: {name}"


def qr(words: str) -> str:
    """A QR code as a drawing of plain squares."""
    import segno

    rows = [list(row) for row in segno.make(words, error="m", micro=False).matrix]
    side = len(rows) + 2 * QUIET
    ways = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark
    )
    return element(
        "svg",
        {"xmlns": "http://www.w3.org/2000/svg", "viewBox": f"0 0 {side} {side}", "width": side, "height": side},
        element("path", {"d": ways, "fill": "#000000", "shape_rendering": "crispEdges"}),
    )
