"""The build: a card of steps for each kind of container and for the site, set-out by tape, and the crew's days."""

from collections.abc import Iterator

from brimful.design.care.model import CardWorked, Care, CautionWorked, SetOutWorked
from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.book.words import some_of
from brimful.render.care.work import tape
from brimful.render.charts.crew import crew
from brimful.render.charts.vega import printed


def building(desk: Desk) -> Iterator[Block]:
    """Where build and care are worked out."""
    care = desk.scene.care
    if care is None:
        return
    if care.set_out:
        yield chapter("Set out", [block for out in care.set_out for block in _set_out(desk, out)])
    if care.build is None:
        return
    for cards in _alike(care.build.cards):
        yield chapter("Build: " + some_of([card.place for card in cards]), list(_card(cards)))
    yield chapter("The crew's days", list(_crew(desk, care)))


def _alike(cards: tuple[CardWorked, ...]) -> list[list[CardWorked]]:
    """Cards with the same steps, together."""
    groups: dict[object, list[CardWorked]] = {}
    for card in cards:
        groups.setdefault((card.steps, bool(card.containers)), []).append(card)
    return list(groups.values())


def _card(cards: list[CardWorked]) -> Iterator[Block]:
    count = sum(len(card.containers) for card in cards)
    hours = sum(step.minutes_each * step.people_count for step in cards[0].steps) / 60
    yield say(f"{count} × {hours:.1f} hours of work." if count else f"Once, {hours:.1f} hours of work.")
    cautions = list(dict.fromkeys(c for step in cards[0].steps for c in step.cautions))
    rows = [
        (
            number,
            step.name
            + (f"  [{', '.join(str(cautions.index(c) + 1) for c in step.cautions)}]" if step.cautions else ""),
            step.reason,
            f"{step.minutes_each:.0f}",
            step.people_count,
            ", ".join(step.equipment),
            "",
        )
        for number, step in enumerate(cards[0].steps, 1)
    ]
    columns = [
        Column("", share=0.5),
        Column("step", share=3.4),
        Column("why here", share=4),
        Column("min", right=True, share=0.8),
        Column("hands", right=True, share=0.9),
        Column("with", share=1.5),
        Column("done", share=0.8),
    ]
    yield table(columns, rows)
    if cautions:
        yield _cautions(cautions)


def _cautions(cautions: list[CautionWorked]) -> Block:
    rows = [(f"[{i}]", f"{c.topic[:1].upper()}{c.topic[1:]}. {c.text}", c.decides) for i, c in enumerate(cautions, 1)]
    columns = [
        Column("", share=0.5),
        Column("what to mind", share=7.6),
        Column("who decides", share=2.2),
    ]
    return table(columns, rows, title="Cautions at the steps with a number in brackets")


def _set_out(desk: Desk, out: SetOutWorked) -> Iterator[Block]:
    def long(value_m: float) -> str:
        return tape(value_m, desk.system)

    columns = [
        Column("container", share=3),
        Column("middle at", right=True, share=1.6),
        Column("near edge", right=True, share=1.6),
        Column("far edge", right=True, share=1.6),
    ]
    columns += [Column("ground", right=True, share=1.4), Column("top", right=True, share=1.4)] if out.pads else []
    rows = [
        (
            s.container,
            long(s.middle_m),
            long(s.near_edge_m),
            long(s.far_edge_m),
            *((long(s.ground_m), long(s.top_m)) if out.pads else ()),
        )
        for s in out.stations
    ]
    yield table(columns, rows, title=f"{out.row}: tape from the first end mark, every time")


def _crew(desk: Desk, care: Care) -> Iterator[Block]:
    build = care.build
    assert build is not None
    yield say(
        f"{build.people_count} people finish in {build.finish_hours:.0f} hours, day {build.finish_days_count}. "
        f"Held up by {build.held_up_by}; one more pair of hands saves {build.saved_by_one_more_hours:.1f} hours."
    )
    chart = crew(build)
    if chart is not None:
        yield picture(printed(chart, desk.style.width, desk.style.size))
    columns = [
        Column("row", share=2.4),
        *(Column(words, right=True, share=1.3) for words in ("empty", "dry", "saturated")),
        Column("lifting it empty", share=5),
    ]
    rows = [
        (h.row, *(show(v, Dimension.MASS, desk.system) for v in (h.empty_kg, h.dry_kg, h.saturated_kg)), h.lift_words)
        for h in care.handling
    ]
    if rows:
        yield table(columns, rows, title="Weights")
    for words in dict.fromkeys(h.load_words for h in care.handling):
        yield text(words)
