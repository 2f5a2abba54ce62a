"""Feed: what to weigh, when, and the nitrogen of each row through the season."""

from collections.abc import Iterator

from brimful.design.care.model import CoatedWorked, FeedWorked, NitrogenWorked, SolubleWorked, TankWorked
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text, ticks
from brimful.render.charts.nitrogen import nitrogen
from brimful.render.charts.vega import printed


def feeding(desk: Desk) -> Iterator[Block]:
    """Where a feed plan is worked out."""
    care = desk.scene.care
    feed = care.feed if care is not None else None
    if feed is not None and (feed.soluble or feed.coated):
        yield chapter("Feed", list(_blocks(desk, feed)), joins="whole")


def _blocks(desk: Desk, feed: FeedWorked) -> Iterator[Block]:
    if feed.soluble is not None:
        yield from _soluble(feed.soluble, desk.system)
    if feed.coated:
        yield _coated(feed.coated, desk.system)
    for tanks in _same(feed.tanks):
        one = tanks[0]
        yield ticks(
            [_day(tank.day) for tank in tanks],
            title=f"{len(tanks)} feedings of {one.zone}: "
            f"{show(one.feed_g / 1000, Dimension.MASS, desk.system)} of feed in "
            f"{show(one.stock_l, Dimension.VOLUME, desk.system)} of stock, "
            f"{show(one.solution_l, Dimension.VOLUME, desk.system)} of solution",
        )
    if feed.nitrogen:
        yield from _nitrogen(desk, feed.nitrogen)


def _same(tanks: tuple[TankWorked, ...]) -> list[list[TankWorked]]:
    """Feedings that weigh the same in the same zone, together."""
    groups: dict[object, list[TankWorked]] = {}
    for tank in tanks:
        groups.setdefault((tank.zone, tank.feed_g, tank.solution_l, tank.stock_l), []).append(tank)
    return list(groups.values())


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
        Column("into each", right=True),
        Column("most of it is out by", share=2.6),
    ]
    return table(columns, cells, title="Coated feed at planting")


def _day(day: object) -> str:
    from datetime import date

    from brimful.render.words import MONTHS

    assert isinstance(day, date)
    return f"{day.day} {MONTHS[day.month - 1]}"
