"""One page for each container built alike: from above, cut through, what is planted where, what it holds."""

from collections.abc import Iterator

from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, abreast, chapter, pairs, picture, table, text
from brimful.render.book.words import by_name, loose, percent, some_of
from brimful.render.care.shop import cut_length
from brimful.render.drawings.above import draw_above
from brimful.render.drawings.scene import RowSeen
from brimful.render.drawings.section import draw_section


def alike(desk: Desk) -> list[list[RowSeen]]:
    """Rows whose containers are built the same way, together."""
    groups: dict[object, list[RowSeen]] = {}
    for row in desk.scene.rows:
        key = (row.worked.container, row.worked.plants, row.worked.tube, row.worked.fill_volume_l, row.spec.delivery)
        groups.setdefault(key, []).append(row)
    return list(groups.values())


def containers(desk: Desk) -> Iterator[Block]:
    """One chapter a kind of container."""
    for rows in alike(desk):
        names = some_of([row.spec.name for row in rows])
        yield chapter(f"One container of {names}", list(_blocks(desk, rows)))


def _blocks(desk: Desk, rows: list[RowSeen]) -> Iterator[Block]:
    row = rows[0]
    count = sum(one.spec.count for one in rows)
    if len(rows) > 3:
        yield text("For " + ", ".join(one.spec.name for one in rows) + ".")
    what = f"{row.worked.container}, filled with {row.worked.mix}, watered by {row.spec.delivery.emission}"
    yield text(f"Build {count} of these: {what}.")
    yield from _pictures(desk, row)
    if row.plants:
        yield _plants(row)
    yield _figures(desk, row)
    yield from _order(desk, row)


def _pictures(desk: Desk, row: RowSeen) -> Iterator[Block]:
    """From above and cut through: side by side, or one under the other in large print."""
    width, size = desk.style.width, desk.style.size
    if desk.style.large:
        tall = desk.style.height
        yield picture(draw_above(desk.scene, row, width=min(0.5 * width, 0.3 * tall), size=size))
        yield picture(draw_section(desk.scene, row, width=width, size=size, tallest=0.24 * tall))
        return
    above = draw_above(desk.scene, row, width=0.37 * width, size=size)
    yield abreast([above, draw_section(desk.scene, row, width=0.57 * width, size=size)])


def _plants(row: RowSeen) -> Block:
    letters = {plant.taxon.key: plant.letter for plant in row.plants}
    rows = [
        (letters[s.plant.key], f"{s.plant.common_name} ({s.plant.botanical_name})", s.root_ball.name, s.count)
        for s in row.spec.plants
    ]
    columns = [
        Column("", share=0.6),
        Column("plant", share=5.4),
        Column("bought as", share=3.8),
        Column("in each", right=True),
    ]
    return table(columns, rows)


def _order(desk: Desk, row: RowSeen) -> Iterator[Block]:
    """In which order to plant, and why, where the planting is worked out."""
    planting = desk.scene.planting
    own = next((one for one in planting.rows if one.row == row.spec.name), None) if planting else None
    if own is not None and own.steps:
        names = {spec.plant.key: spec.plant.common_name for spec in row.spec.plants}
        rows = [(number, by_name(step.what, names), step.why) for number, step in enumerate(own.steps, 1)]
        columns = [Column("", share=0.5), Column("do", share=5), Column("because", share=4.4)]
        yield table(columns, rows, title="In this order")


def _figures(desk: Desk, row: RowSeen) -> Block:
    worked, system = row.worked, desk.system
    rows = [
        ("room for mix", loose(worked.fill_volume_l, system)),
        ("mix to buy, settled", loose(worked.mix_to_buy_l, system)),
        ("water held, drained", show(worked.water_held_l, Dimension.VOLUME, system)),
        ("of it easy to take up", show(worked.easily_available_l, Dimension.VOLUME, system)),
        ("air in the mix, drained", percent(worked.air_share)),
        ("weight empty", show(worked.weight_empty_kg, Dimension.MASS, system)),
        ("weight saturated", show(worked.weight_saturated_kg, Dimension.MASS, system)),
    ]
    if worked.tube is not None:
        rows += [
            ("dripline to cut", cut_length(worked.tube.dripline_cut_m, system)),
            ("feeder inside, from the hole up", cut_length(worked.tube.feeder_cut_m, system)),
            ("emitters", str(len(worked.tube.emitters_x_m))),
            ("staples", str(worked.tube.staples_count)),
        ]
    return pairs(rows, columns=1 if desk.style.large else 2)
