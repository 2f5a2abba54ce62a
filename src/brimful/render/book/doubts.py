"""What to mind, what was assumed, and where it comes from."""

from collections.abc import Iterator

from brimful.design.model import Assumption
from brimful.findings import Severity
from brimful.render.book.blocks import Block, Column, Desk, chapter, table, text

WORDS = {Severity.ERROR: "must mend", Severity.WARNING: "mind", Severity.NOTE: "know"}


def minding(desk: Desk) -> Iterator[Block]:
    """The findings, worst first."""
    found = desk.scene.design.findings
    if found:
        rows = [(WORDS[f.severity], f.message, f.remedy) for f in found]
        yield chapter(
            "What to mind",
            [table([Column("", share=1), Column("what is so", share=4), Column("what to do", share=3)], rows)],
        )


def assumed(desk: Desk) -> Block:
    """Each assumption with the field of the plan that would change it."""
    scene = desk.scene
    every: list[Assumption] = [*scene.design.assumptions]
    for worked in (scene.season, scene.care):
        every += worked.assumptions if worked is not None else ()
    rows = [(one.field, f"{one.what}: {one.value}", one.source) for one in dict.fromkeys(every)]
    columns = [Column("to change it, set", share=2), Column("taken", share=3), Column("source", share=3)]
    lead = text("The plan does not say these things. Each was taken from the source beside it.")
    filled = scene.design.site.filled
    more = [text("Where the weather is silent: " + "; ".join(filled) + ".")] if filled else []
    return chapter("Assumptions and sources", [lead, table(columns, rows), *more])
