"""The order: spares added, what is on hand taken off, packs rounded up once, prices added as far as they are known."""

from collections.abc import Mapping, Sequence
from math import ceil

from brimful.records import record

_SMALL = 1e-9
SPARES = {  # share added, by class
    "brick": 0.05,  # breakage, brick industry guide as told in a trade article, read
    "fitting": 0.10,  # common practice, no source, as all that follow
    "emitter": 0.05,
    "plug": 0.10,
    "stake": 0.10,
    "clamp": 0.10,
    "tube": 0.05,
    "plant": 0.05,
    "mix": 0.0,
    "feed": 0.0,
    "aggregate": 0.0,
}


@record
class Need:
    """So much of one item for one purpose, in its own unit; `whole` where it only comes in whole numbers."""

    item: str
    kind: str
    amount: float
    unit: str
    purpose: str = ""
    whole: bool = False


@record
class Price:
    """What one pack costs: its contents in the need's unit, price and currency."""

    pack: float
    price: float | None
    currency: str


@record
class OrderLine:
    """One line of the order: needed, with spares, on hand, packs to buy, what will be left over, and the cost."""

    item: str
    kind: str
    unit: str
    needed: float
    spare: float
    on_hand: float
    pack: float
    packs: int
    left_over: float
    cost: float | None
    currency: str
    purposes: tuple[str, ...]


@record
class OrderTotal:
    """The known cost in the plan's currency, lines without a price, and lines in another currency."""

    currency: str
    cost: float
    unpriced: tuple[str, ...]
    other_currency: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether the cost covers every line."""
        return not (self.unpriced or self.other_currency)


def order_lines(
    needs: Sequence[Need],
    prices: Mapping[str, Price],
    *,
    on_hand: Mapping[str, float] | None = None,
    spares: Mapping[str, float] = SPARES,
) -> tuple[OrderLine, ...]:
    """The order, one line an item: needs of the whole job summed, spares added, stock taken off, packs rounded up once.

    Formula: packs = round up((Σ need + spares − on hand) / pack).
    Args: needs: every amount wanted, in the item's unit. prices: pack, price and currency by item; an item without
        one is sold singly at an unknown price. on_hand: amount by item. spares: share by class.
    Returns: lines in the order items first appear.
    Valid: amounts, stock and spares ≥ 0; one unit an item.
    Source: definition; spares are common practice but for bricks.
    """
    stock = on_hand or {}
    by_item: dict[str, list[Need]] = {}
    for need in needs:
        by_item.setdefault(need.item, []).append(need)
    return tuple(
        _line(group, prices.get(item, Price(1.0, None, "")), stock.get(item, 0.0), spares.get(group[0].kind, 0.0))
        for item, group in by_item.items()
    )


def order_total(lines: Sequence[OrderLine], currency: str) -> OrderTotal:
    """What the order costs as far as it is known, and which lines that leaves out.

    Args: lines: of the order. currency: of the plan, as "USD".
    Returns: cost in that currency, items without a price, items priced in another currency.
    Valid: any lines; nothing is ever converted.
    Source: definition.
    """
    bought = [line for line in lines if line.packs]
    known = [line for line in bought if line.cost is not None and line.currency == currency]
    return OrderTotal(
        currency,
        sum(line.cost or 0.0 for line in known),
        tuple(line.item for line in bought if line.cost is None),
        tuple(line.item for line in bought if line.cost is not None and line.currency != currency),
    )


def more_packs(before: Sequence[OrderLine], after: Sequence[OrderLine]) -> dict[str, int]:
    """How many more packs of each item a changed job takes, as with one container more; unchanged items are left out.

    Args: before, after: the two orders.
    Returns: packs by item, below zero where fewer.
    Valid: both orders with the same packs.
    Source: definition.
    """
    old, new = ({line.item: line.packs for line in lines} for lines in (before, after))
    items = dict.fromkeys([*old, *new])
    changes = {item: new.get(item, 0) - old.get(item, 0) for item in items}
    return {item: change for item, change in changes.items() if change}


def _line(group: Sequence[Need], price: Price, on_hand: float, spare_share: float) -> OrderLine:
    first = group[0]
    if not (all(need.amount >= 0.0 for need in group) and on_hand >= 0.0 and spare_share >= 0.0 and price.pack > 0.0):
        raise ValueError(f"{first.item}: amounts, stock and spares are expected to be 0 or more, a pack above 0")
    if len({need.unit for need in group}) > 1:
        raise ValueError(f"{first.item} is given in {sorted({need.unit for need in group})}; expected one unit")
    needed = sum(need.amount for need in group)
    with_spares = needed * (1.0 + spare_share)
    if first.whole:
        with_spares = float(ceil(with_spares - _SMALL))
    short = max(0.0, with_spares - on_hand)
    packs = ceil(short / price.pack - _SMALL)
    return OrderLine(
        item=first.item,
        kind=first.kind,
        unit=first.unit,
        needed=needed,
        spare=with_spares - needed,
        on_hand=on_hand,
        pack=price.pack,
        packs=packs,
        left_over=on_hand + packs * price.pack - with_spares,
        cost=None if price.price is None else packs * price.price,
        currency=price.currency,
        purposes=tuple(dict.fromkeys(need.purpose for need in group if need.purpose)),
    )
