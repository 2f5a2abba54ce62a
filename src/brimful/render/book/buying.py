"""What to have before the day, what it costs as far as prices are known, and how to cut the tube."""

from collections.abc import Iterator

from brimful.design.care.model import OrderItem, OrderWorked
from brimful.design.model import Material
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.book.words import loose
from brimful.render.care.page import amount, money
from brimful.render.care.shop import answer, cut_length, cut_words
from brimful.render.charts.costs import costs
from brimful.render.charts.vega import printed
from brimful.render.words import capital


def buying(desk: Desk) -> Iterator[Block]:
    """The order with spares and packs where it is worked out, else what the design takes."""
    care = desk.scene.care
    if care is None or care.order is None:
        yield chapter("What to buy", [_taken(desk)])
        return
    yield chapter("What to buy", [say(answer(care, desk.system)), *_order(desk, care.order)])
    cuts = [_cut(desk, i) for i in range(len(care.cuts))]
    if cuts:
        yield chapter(
            "Cut list", [text("Cut each roll in this order; label each piece as you cut it."), *cuts], joins="whole"
        )


def _order(desk: Desk, order: OrderWorked) -> Iterator[Block]:
    stocked = any(item.on_hand_amount for item in order.items)
    columns = [
        Column("what", share=5),
        *(Column(words, right=True, share=1.4) for words in ("needed", "spare", *["on hand"] * stocked)),
        Column("buy", right=True, share=1.9),
        Column("cost", right=True, share=1.5),
        Column("got it", right=True),
    ]
    rows: list[tuple[str, ...]] = []
    for group in dict.fromkeys(item.group for item in order.items):
        rows.append((capital(group),))
        rows += [_item(item, desk.system, stocked=stocked) for item in order.items if item.group == group]
    yield table(columns, rows)
    chart = costs(order)
    if chart is not None:
        yield picture(printed(chart, desk.style.width, desk.style.size))


def _item(item: OrderItem, system: System, *, stocked: bool) -> tuple[str, ...]:
    spare, on_hand = (amount(v, item.unit, system) if v else "" for v in (item.spare_amount, item.on_hand_amount))
    single = item.unit == "each" and item.pack_amount == 1
    buy = str(item.packs_count) if single else f"{item.packs_count} × {amount(item.pack_amount, item.unit, system)}"
    cost = "no price" if item.cost_money is None else money(item.cost_money, item.currency)
    needed = amount(item.needed_amount, item.unit, system)
    return item.name, needed, spare, *[on_hand] * stocked, buy, cost, ""


def _cut(desk: Desk, index: int) -> Block:
    assert desk.scene.care is not None
    cut = desk.scene.care.cuts[index]
    rows = [
        (
            ("on hand, " if roll.on_hand else "") + show(roll.roll_m, Dimension.LENGTH, desk.system),
            cut_words(roll, desk.system),
            cut_length(roll.offcut_m, desk.system),
        )
        for roll in cut.rolls
    ]
    columns = [Column("roll", share=1), Column("cut", share=6), Column("left over", right=True, share=1)]
    return table(columns, rows, title=cut.name)


def _taken(desk: Desk) -> Block:
    rows = [(m.what, m.name, how_much(m, desk.system), "") for m in desk.scene.design.materials]
    columns = [
        Column("what", share=1.6),
        Column("which", share=5),
        Column("how much", right=True, share=2.4),
        Column("have it", share=1),
    ]
    return table(columns, rows)


def how_much(material: Material, system: System) -> str:
    """Bags, lengths or pieces, in the plan's units."""
    if material.volume_l is not None and material.pack_l is not None:
        return f"{loose(material.volume_l, system)} = {material.count} bags of {loose(material.pack_l, system)}"
    if material.length_m is not None:
        return show(material.length_m, Dimension.LENGTH, system)
    return str(material.count)
