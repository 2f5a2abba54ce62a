"""Feed: what to weigh, when, and the nitrogen of each row through the season."""

from collections.abc import Iterator

from brimful.design.care.model import CoatedWorked, FeedWorked, NitrogenWorked, SolubleWorked
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.charts.nitrogen import nitrogen
from brimful.render.charts.vega import printed


def feeding(desk: Desk) -> Iterator[Block]:
    """Where a feed plan is worked out."""
    care = desk.scene.care
    feed = care.feed if care is not None else None
    if feed is not None and (feed.soluble or feed.coated):
        yield chapter("Feed", list(_blocks(desk, feed)))


def _blocks(desk: Desk, feed: FeedWorked) -> Iterator[Block]:
    if feed.soluble is not None:
        yield from _soluble(feed.soluble, desk.system)
    if feed.coated:
        yield _coated(feed.coated, desk.system)
    if feed.tanks:
        rows = [
            (
                _day(t.day),
                t.zone,
                show(t.solution_l, Dimension.VOLUME, desk.system),
                show(t.feed_g / 1000, Dimension.MASS, desk.system),
                show(t.stock_l, Dimension.VOLUME, desk.system),
                "",
            )
            for t in feed.tanks
        ]
        columns = [
            Column("day", share=1.4),
            Column("zone", share=2),
            *(Column(w, right=True, share=1.4) for w in ("solution", "feed to weigh", "stock")),
            Column("done", share=1),
        ]
        yield table(columns, rows, title="Feedings")
    if feed.nitrogen:
        yield from _nitrogen(desk, feed.nitrogen)


def _nitrogen(desk: Desk, rows: tuple[NitrogenWorked, ...]) -> Iterator[Block]:
    """Each row's verdict, and the weeks of the row that is farthest from right."""
    grams = [(one.row, one.verdict, f"{one.short_g:.1f} g", f"{one.drained_g:.1f} g") for one in rows]
    columns = [
        Column("row", share=3),
        Column("nitrogen is", share=3),
        Column("short in the season", right=True, share=2),
        Column("drained", right=True, share=2),
    ]
    yield table(columns, grams, title="Nitrogen of one container")
    worst = max(rows, key=lambda one: one.short_g + one.drained_g)
    yield picture(printed(nitrogen(worst), desk.style.width, desk.style.size))


def _soluble(one: SolubleWorked, system: System) -> Iterator[Block]:
    us = system is System.US
    strength = f"{one.strength_oz_100gal:.1f} oz to 100 gal" if us else f"{one.strength_g_l:.2f} g to a litre"
    stock = f"{one.stock_oz_gal:.1f} oz to a gallon" if us else f"{one.stock_g_l:.0f} g to a litre"
    yield say(f"{one.feed}: {one.nitrogen_ppm:.0f} ppm of nitrogen, {strength}.")
    yield text(f"Stock for an injector of 1 to {one.ratio:.0f} ({one.ratio_means}): {stock}.")
    if not one.dissolves:
        yield text(f"So much does not dissolve: set the injector no weaker than 1 to {one.weakest_ratio:.0f}.")


def _coated(rows: tuple[CoatedWorked, ...], system: System) -> Block:
    cells = [
        (
            one.row,
            one.feed,
            show(one.dose_g / 1000, Dimension.MASS, system),
            _day(one.refeed_day) if one.refeed_day else "",
        )
        for one in rows
    ]
    columns = [
        Column("row", share=2),
        Column("coated feed", share=4),
        Column("into each", right=True, share=1.4),
        Column("most of it is out by", share=2),
    ]
    return table(columns, cells, title="Coated feed at planting")


def _day(day: object) -> str:
    from datetime import date

    from brimful.render.words import MONTHS

    assert isinstance(day, date)
    return f"{day.day} {MONTHS[day.month - 1]}"
