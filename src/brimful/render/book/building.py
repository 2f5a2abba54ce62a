"""The build: a card of steps for each kind of container and for the site, set-out by tape, and the crew's days."""

from collections.abc import Iterator

from brimful.design.care.model import CardStep, CardWorked, Care, CautionWorked, HandlingWorked, SetOutWorked
from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.book.words import some_of
from brimful.render.care.work import tape
from brimful.render.charts.crew import crew, finish_words
from brimful.render.charts.vega import printed

MOST_TOGETHER = 3
"""Kinds on one card, so that their minutes have room."""


def building(desk: Desk) -> Iterator[Block]:
    """Where build and care are worked out."""
    care = desk.scene.care
    if care is None:
        return
    if care.set_out:
        yield chapter("Set out", [block for out in care.set_out for block in _set_out(desk, out)], joins="whole")
    if care.build is None:
        return
    site, stands = (
        [cards for cards in _alike(care.build.cards) if bool(cards[0].containers) is own] for own in (False, True)
    )
    for cards in site:
        yield chapter(_title(cards), list(_card(cards)), joins="whole" if care.set_out else "")
    yield chapter("The crew's days", list(_crew(desk, care)), joins="whole" if site else "")
    for cards in stands:
        yield chapter(_title(cards), list(_card(cards)))


def _title(cards: list[CardWorked]) -> str:
    return "Build: " + some_of([card.place for card in cards])


def _alike(cards: tuple[CardWorked, ...]) -> list[list[CardWorked]]:
    """Cards with the same steps, together, whatever their minutes."""
    groups: dict[object, list[CardWorked]] = {}
    for card in cards:
        steps = tuple((s.name, s.reason, s.people_count, s.equipment, s.cautions) for s in card.steps)
        groups.setdefault((steps, bool(card.containers)), []).append(card)
    parts = (group[i : i + MOST_TOGETHER] for group in groups.values() for i in range(0, len(group), MOST_TOGETHER))
    return list(parts)


def _timed(cards: list[CardWorked]) -> dict[tuple[float, ...], list[CardWorked]]:
    """Cards that take the same minutes at each step, together."""
    groups: dict[tuple[float, ...], list[CardWorked]] = {}
    for card in cards:
        groups.setdefault(tuple(round(step.minutes_each) for step in card.steps), []).append(card)
    return groups


def _card(cards: list[CardWorked]) -> Iterator[Block]:
    timed = _timed(cards)
    yield say(" ".join(_work(group, named=len(timed) > 1) for group in timed.values()))
    cautions = list(dict.fromkeys(c for step in cards[0].steps for c in step.cautions))
    rows = [
        (
            number,
            _step(step, cautions),
            step.reason,
            " / ".join(dict.fromkeys(f"{minutes[number - 1]:.0f}" for minutes in timed)),
            step.people_count,
            "",
        )
        for number, step in enumerate(cards[0].steps, 1)
    ]
    columns = [
        Column("", share=0.5),
        Column("step", share=4.6),
        Column("why here", share=5),
        Column("min", right=True),
        Column("hands", right=True),
        Column("done", right=True),
    ]
    yield table(columns, rows)
    if len(timed) > 1:
        named = " / ".join(some_of([card.place for card in group]) for group in timed.values())
        yield text(f"Minutes that differ: {named}.")
    if cautions:
        yield _cautions(cautions)


def _step(step: CardStep, cautions: list[CautionWorked]) -> str:
    """What to do, with what, and the numbers of its cautions."""
    tools = f" ({', '.join(step.equipment)})" if step.equipment else ""
    minded = ", ".join(str(cautions.index(c) + 1) for c in step.cautions)
    return step.name + tools + (f"  [{minded}]" if minded else "")


def _work(cards: list[CardWorked], *, named: bool) -> str:
    """How often, and how many hours of work each time."""
    count = sum(len(card.containers) for card in cards)
    hours = sum(step.minutes_each * step.people_count for step in cards[0].steps) / 60
    of = f" of {some_of([card.place for card in cards])}" if named else ""
    return f"{count} × {hours:.1f} hours of work{of}." if count else f"Once, {hours:.1f} hours of work."


def _cautions(cautions: list[CautionWorked]) -> Block:
    rows = [(f"[{i}]", f"{c.topic[:1].upper()}{c.topic[1:]}. {c.text}", c.decides) for i, c in enumerate(cautions, 1)]
    columns = [
        Column("", share=0.5),
        Column("what to mind", share=7),
        Column("who decides", share=3),
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
        f"{finish_words(build)}, after {build.finish_hours:.0f} working hours; one more pair of hands saves "
        f"{build.saved_by_one_more_hours:.1f}."
    )
    chart = crew(build)
    if chart is not None:
        yield picture(printed(chart, desk.style.width, desk.style.size))
    columns = [
        Column("row", share=2.4),
        *(Column(words, right=True) for words in ("empty", "dry", "saturated")),
        Column("lifting it empty", share=5),
    ]
    rows = [_weights(alike, desk) for alike in _as_heavy(care.handling)]
    if rows:
        yield table(columns, rows, title="Weights")
    for words in dict.fromkeys(h.load_words for h in care.handling):
        yield text(words)


def _as_heavy(rows: tuple[HandlingWorked, ...]) -> list[list[HandlingWorked]]:
    """Rows whose containers weigh the same, together."""
    groups: dict[object, list[HandlingWorked]] = {}
    for one in rows:
        groups.setdefault((one.empty_kg, one.dry_kg, one.saturated_kg, one.lift_words), []).append(one)
    return list(groups.values())


def _weights(rows: list[HandlingWorked], desk: Desk) -> tuple[str, ...]:
    first = rows[0]
    masses = (show(v, Dimension.MASS, desk.system) for v in (first.empty_kg, first.dry_kg, first.saturated_kg))
    return some_of([one.row for one in rows]), *masses, first.lift_words
