"""What to buy and how to cut it."""

from rich.console import Console
from rich.table import Table

from brimful.design.care.model import Care, CutRollWorked, CutTubeWorked, OrderItem
from brimful.quantities import Dimension, System, show
from brimful.render.care.page import amount, money
from brimful.render.care.work import tape
from brimful.render.summary import titled_table

SHORT = 4


def answer(care: Care, _system: System) -> str:
    """The sentence a person would say about the order."""
    order = care.order
    if order is None:
        return "Nothing was worked out to buy."
    bought = [item for item in order.items if item.packs_count > 0]
    none = sum(item.cost_money is None for item in bought)
    left = f"; {none} more {'has' if none == 1 else 'have'} no price and {'is' if none == 1 else 'are'} not in it"
    assumed = any(item.price_source.startswith("assumed") for item in order.items)
    said = " Most prices are round figures assumed here: put in your own." if assumed else ""
    return (
        f"{len(bought) - none} things to buy for about {money(order.cost_money, order.currency)}, "
        f"{money(order.cost_container_money, order.currency)} a container{left if none else ''}. One container more in "
        f"{order.one_more_container} adds {money(order.one_more_money, order.currency)}.{said}"
    )


def body(care: Care, system: System, console: Console) -> None:
    """The order by group, then the cut lists."""
    if care.order is None:
        return
    for group in dict.fromkeys(item.group for item in care.order.items):
        console.print(_group(group, [item for item in care.order.items if item.group == group], system))
    console.print(f"Total {money(care.order.cost_money, care.order.currency)}", style="bold", markup=False)
    for cut in care.cuts:
        console.print(_cut(cut, system))


def _group(group: str, items: list[OrderItem], system: System) -> Table:
    table = titled_table(f"\n{group[0].upper()}{group[1:]}", ["what"], ["needed", "spare", "on hand", "buy", "cost"])
    table.add_column("1 more", justify="right")
    for item in items:
        spare, on_hand = (amount(v, item.unit, system) if v else "" for v in (item.spare_amount, item.on_hand_amount))
        cost = "no price" if item.cost_money is None else money(item.cost_money, item.currency)
        more = f"{item.one_more_packs_count:+d}" if item.one_more_packs_count else ""
        table.add_row(
            item.name, amount(item.needed_amount, item.unit, system), spare, on_hand, _buy(item, system), cost, more
        )
    return table


def _buy(item: OrderItem, system: System) -> str:
    if item.unit == "each" and item.pack_amount == 1:
        return str(item.packs_count)
    return f"{item.packs_count} × {amount(item.pack_amount, item.unit, system)}"


def _cut(cut: CutTubeWorked, system: System) -> Table:
    proof = "nothing is cheaper, proven" if cut.proven else f"at most {cut.cost_money - cut.bound_money:.2f} too dear"
    table = titled_table(f"\nCut {cut.name} ({proof})", ["roll", "cut in this order"], ["left over"])
    for roll in cut.rolls:
        kind = "on hand, " if roll.on_hand else ""
        length = show(roll.roll_m, Dimension.LENGTH, system)
        table.add_row(kind + length, cut_words(roll, system), cut_length(roll.offcut_m, system))
    return table


def cut_words(roll: CutRollWorked, system: System) -> str:
    """The pieces of a roll in order; equal ones that follow one another are told together."""
    groups: list[tuple[float, list[str]]] = []
    for label, length in zip(roll.labels, roll.pieces_m, strict=True):
        if groups and abs(groups[-1][0] - length) < 1e-9:
            groups[-1][1].append(label)
        else:
            groups.append((length, [label]))
    return "; ".join(_same(length, labels, system) for length, labels in groups)


def cut_length(length_m: float, system: System) -> str:
    """A piece as it is measured off: feet and inches, or metres to the centimetre.

    >>> cut_length(2.559, System.US), cut_length(2.559, System.METRIC)
    ('8 ft 4 3/4 in', '2.56 m')
    """
    return tape(length_m, system) if system is System.US else show(length_m, Dimension.LENGTH, system)


def _same(length_m: float, labels: list[str], system: System) -> str:
    shown = cut_length(length_m, system)
    if len(labels) == 1:
        return f"{shown} {labels[0]}"
    some = f"{labels[0]} … {labels[-1]}" if len(labels) > SHORT else ", ".join(labels)
    return f"{len(labels)} × {shown} ({some})"
