"""What to mind, what was assumed, and where it comes from."""

from collections.abc import Iterator

from brimful.design.model import Assumption
from brimful.findings import Severity
from brimful.render.book.blocks import Block, Column, Desk, chapter, table, text
from brimful.render.book.letters import unshown
from brimful.render.book.words import by_name
from brimful.render.drawings.scene import Scene
from brimful.render.words import capital

USUAL = "common practice, no source"
WORDS = {Severity.ERROR: "must mend", Severity.WARNING: "mind", Severity.NOTE: "know"}


def minding(desk: Desk) -> Iterator[Block]:
    """The findings, worst first."""
    found = desk.scene.design.findings
    if found:
        names = {taxon.key: taxon.common_name for taxon in desk.scene.letters.values()}
        rows = [(WORDS[f.severity], by_name(f.message, names), by_name(f.remedy, names)) for f in found]
        yield chapter(
            "What to mind",
            [table([Column("", share=1), Column("what is so", share=4), Column("what to do", share=3)], rows)],
            joins="whole",
        )


def assumed(desk: Desk) -> Block:
    """Each assumption with the field of the plan that would change it."""
    scene = desk.scene
    every: list[Assumption] = [*scene.design.assumptions]
    for worked in (scene.season, scene.care):
        every += worked.assumptions if worked is not None else ()
    taken = list(dict.fromkeys(every))
    sourced = [one for one in taken if one.source != USUAL]
    rows: list[tuple[str, ...]] = [(one.field, f"{capital(one.what)}: {one.value}", one.source) for one in sourced]
    usual = [(one.field, f"{capital(one.what)}: {one.value}") for one in taken if one.source == USUAL]
    columns = [Column("to change it, set", share=2.2), Column("taken", share=4), Column("source", share=3.8)]
    lead = text("The plan does not say these things. What the plan says in the field to the left stands instead.")
    tables = [table(columns, rows)] if rows else []
    tables += [table([Column("to change it, set", share=2.2), Column("taken", share=7.8)], usual, title=f"By {USUAL}")]
    filled = scene.design.site.filled
    more = [text("Where the weather is silent: " + "; ".join(filled) + ".")] if filled else []
    return chapter("Assumptions and sources", [lead, *more, *_letters(scene), *tables])


def _letters(scene: Scene) -> list[Block]:
    """What could not be printed of the plan's own words, if anything."""
    design = scene.design
    names = [design.title, design.site.place, *(row.spec.name for row in scene.rows), *(z.name for z in design.zones)]
    count = unshown("".join(names))
    if count == 0:
        return []
    signs = "one sign" if count == 1 else f"{count} signs"
    said = f"The plan's names have {signs} for which this book has no letter: emoji are left out, others stand as “?”."
    return [text(said)]
