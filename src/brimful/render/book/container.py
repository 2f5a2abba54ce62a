"""One page for each container built alike: from above, cut through, what is planted where, what it holds."""

from collections.abc import Iterator

from brimful.quantities import Dimension, show
from brimful.render.book.blocks import Block, Column, Desk, abreast, chapter, table, text
from brimful.render.book.words import loose, percent
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
        names = ", ".join(row.spec.name for row in rows)
        yield chapter(f"One container of {names}", list(_blocks(desk, rows)))


def _blocks(desk: Desk, rows: list[RowSeen]) -> Iterator[Block]:
    row, half, size = rows[0], desk.style.width / 2 - 6, desk.style.size
    count = sum(one.spec.count for one in rows)
    yield text(f"Build {count} of these: {row.worked.container}, filled with {row.worked.mix}.")
    above = draw_above(desk.scene, row, width=0.8 * half, size=size)
    yield abreast([above, draw_section(desk.scene, row, width=1.15 * half, size=size)])
    if row.plants:
        yield _plants(row)
    yield _figures(desk, row)


def _plants(row: RowSeen) -> Block:
    letters = {plant.taxon.key: plant.letter for plant in row.plants}
    rows = [
        (letters[s.plant.key], f"{s.plant.common_name} ({s.plant.botanical_name})", s.root_ball.name, s.count)
        for s in row.spec.plants
    ]
    columns = [
        Column("", share=0.6),
        Column("plant", share=5),
        Column("bought as", share=3),
        Column("in each", right=True, share=1.2),
    ]
    return table(columns, rows, title="Plants")


def _figures(desk: Desk, row: RowSeen) -> Block:
    worked, system = row.worked, desk.system
    rows = [
        ("room for mix", loose(worked.fill_volume_l, system)),
        ("mix to buy, settling and root balls counted", loose(worked.mix_to_buy_l, system)),
        ("water held, drained", show(worked.water_held_l, Dimension.VOLUME, system)),
        ("of it easy to take up", show(worked.easily_available_l, Dimension.VOLUME, system)),
        ("air in the mix, drained", percent(worked.air_share)),
        ("weight empty", show(worked.weight_empty_kg, Dimension.MASS, system)),
        ("weight saturated", show(worked.weight_saturated_kg, Dimension.MASS, system)),
    ]
    if worked.tube is not None:
        rows += [
            ("dripline to cut", show(worked.tube.dripline_cut_m, Dimension.LENGTH, system)),
            ("feeder inside, from the drain hole up", show(worked.tube.feeder_cut_m, Dimension.LENGTH, system)),
            ("emitters", str(len(worked.tube.emitters_x_m))),
            ("staples", str(worked.tube.staples_count)),
        ]
    return table([Column("each container", share=4), Column("", right=True, share=1.5)], rows)
