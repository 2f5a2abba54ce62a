"""What to have before the day."""

from brimful.design.model import Material
from brimful.quantities import Dimension, System, show
from brimful.render.book.blocks import Block, Column, Desk, chapter, table
from brimful.render.book.words import loose


def buying(desk: Desk) -> Block:
    """Everything the design takes, each with how much of it."""
    rows = [(m.what, m.name, how_much(m, desk.system), "") for m in desk.scene.design.materials]
    columns = [
        Column("what", share=1.6),
        Column("which", share=5),
        Column("how much", right=True, share=2.4),
        Column("have it", share=1),
    ]
    return chapter("What to buy", [table(columns, rows)])


def how_much(material: Material, system: System) -> str:
    """Bags, lengths or pieces, in the plan's units."""
    if material.volume_l is not None and material.pack_l is not None:
        return f"{loose(material.volume_l, system)} = {material.count} bags of {loose(material.pack_l, system)}"
    if material.length_m is not None:
        return show(material.length_m, Dimension.LENGTH, system)
    return str(material.count)
