"""Stage: the order: what to buy after spares and what is on hand, what it costs, and one container more."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import ceil

from brimful.catalog import Price as PriceRow
from brimful.design.care.cutting import cuts_of, roll_needs
from brimful.design.care.desk import CareDesk
from brimful.design.care.model import CutTubeWorked, OrderItem, OrderWorked, Unit
from brimful.design.care.needs import all_needs, container_key, largest_row
from brimful.design.care.stock import on_hand_of, spares_of
from brimful.design.plant_goods import plant_price, plant_spare, plants_a_pack, plants_to_buy
from brimful.design.settle.notes import Notes
from brimful.domains.takeoff.order import Need, OrderLine, Price, order_lines, order_total
from brimful.plan.read import Places
from brimful.quantities import Dimension, System, show
from brimful.records import record

ASSUMED = "assumed"
SOURCES = {"mix": "mix and feed", "feed": "mix and feed", "plant": "nursery", "container": "containers"}
GROUPS = {
    "container": "containers",
    "mix": "mix and feed",
    "feed": "mix and feed",
    "plant": "plants",
    "aggregate": "pads and ground",
    "brick": "pads and ground",
}
UNITS: dict[str, Unit] = {"each": "each", "m": "m", "l": "l", "kg": "kg", "m3": "m3"}


@record
class Priced:
    """A thing's price row where there is one, what to call it, and how it is packed."""

    name: str
    row: PriceRow | None
    price: Price

    @property
    def source(self) -> str:
        """Where the price is from; nothing where there is none."""
        return "" if self.row is None else "assumed, put in your own" if self.row.certainty == ASSUMED else "table"


def order_of(desk: CareDesk, extra: Sequence[Need]) -> tuple[OrderWorked, tuple[CutTubeWorked, ...]]:
    """The order of the whole job, each item rounded up once, what one container more would change, and the cut list."""
    laid = all_needs(desk, extra)
    stock = on_hand_of(desk, laid, {need.item: _priced(desk, [need]).name for need in laid})
    cuts = cuts_of(desk, stock)
    needs = with_rolls(laid, cuts)
    more = with_rolls(all_needs(desk, extra, more=1), cuts_of(desk, stock, more=1))
    groups, then_groups = _by_item(needs), _by_item(more)
    known, then_known = (
        {item: _priced(desk, group, stock) for item, group in one.items()} for one in (groups, then_groups)
    )
    prices, then_prices = ({item: one.price for item, one in two.items()} for two in (known, then_known))
    spares = spares_of(desk)
    lines = tuple(
        desk.ledger.at("care", "order").work(
            item, order_lines, needs=tuple(group), prices=prices, on_hand=stock, spares=_spares(desk, group[0], spares)
        )[0]
        for item, group in groups.items()
    )
    then = {
        item: order_lines(group, then_prices, on_hand=stock, spares=_spares(desk, group[0], spares))[0]
        for item, group in then_groups.items()
    }
    return _worked(desk, lines, then, known), cuts


def plants_on_hand(desk: CareDesk) -> dict[str, float]:
    """Plants on hand by item; what is wrong with the plan's stock the order tells."""
    quiet = replace(desk, notes=Notes(Places()))
    needs = [need for need in all_needs(quiet) if need.kind == "plant"]
    return (
        on_hand_of(quiet, needs, {need.item: _priced(quiet, [need]).name for need in needs}) if desk.plan.stock else {}
    )


def _by_item(needs: Sequence[Need]) -> dict[str, list[Need]]:
    """The needs of each item, items in the order they first appear."""
    groups: dict[str, list[Need]] = {}
    for need in needs:
        groups.setdefault(need.item, []).append(need)
    return groups


def _spares(desk: CareDesk, need: Need, usual: Mapping[str, float]) -> Mapping[str, float]:
    """The shares for an item: those of plants go by the size of their pot, unless the plan says otherwise."""
    if need.kind != "plant":
        return usual
    ball = desk.catalog.root_balls[need.item.split(" ", 1)[1]]
    return {**usual, "plant": plant_spare(desk.plan.spares, ball)}


def with_rolls(needs: Sequence[Need], cuts: Sequence[CutTubeWorked]) -> tuple[Need, ...]:
    """The needs with metres of tube replaced by the rolls that the cut list opens."""
    cut = {one.key for one in cuts}
    return (*(need for need in needs if need.item not in cut), *roll_needs(cuts))


def _worked(
    desk: CareDesk, lines: tuple[OrderLine, ...], then: Mapping[str, OrderLine], known: Mapping[str, Priced]
) -> OrderWorked:
    currency = desk.plan.currency
    total = order_total(lines, currency)
    after = order_total(tuple(then.values()), currency)
    items = tuple(_item(line, then.get(line.item), known[line.item]) for line in lines)
    if any(priced.source.startswith(ASSUMED) for priced in known.values()):
        source = "round figures, assumed; put your own in brimful-prices.csv beside the plan"
        desk.notes.assume("brimful-prices.csv", "prices", "the table's round figures", source)
    return OrderWorked(
        currency,
        items,
        total.cost,
        total.cost / desk.containers_count,
        largest_row(desk).name,
        after.cost - total.cost,
        tuple(known[item].name for item in total.unpriced),
        tuple(known[item].name for item in total.other_currency),
    )


def _item(line: OrderLine, then: OrderLine | None, priced: Priced) -> OrderItem:
    row = priced.row
    return OrderItem(
        key=line.item,
        name=priced.name,
        group=GROUPS.get(line.kind, "drip"),
        supplier=(row.supplier if row else "") or SOURCES.get(line.kind, "irrigation"),
        purposes=line.purposes,
        unit=UNITS[line.unit],
        needed_amount=line.needed,
        spare_amount=line.spare,
        on_hand_amount=line.on_hand,
        pack_amount=line.pack,
        packs_count=line.packs,
        left_over_amount=line.left_over,
        price_pack_money=priced.price.price,
        cost_money=line.cost,
        currency=line.currency,
        price_source=priced.source,
        one_more_packs_count=_more_packs(line, then),
    )


def _more_packs(line: OrderLine, then: OrderLine | None) -> int:
    """Packs more for one container more, in packs as they are bought now."""
    bought = then.packs * then.pack if then else 0.0
    return ceil(bought / line.pack - line.packs - 1e-9)


def _priced(desk: CareDesk, group: Sequence[Need], stock: Mapping[str, float] | None = None) -> Priced:
    """The price row of an item: its own key, for a plant its taxon and then its trade size; a roll by its metres."""
    need = group[0]
    if need.kind == "roll":
        return _roll(desk, need)
    row = plant_price(desk.catalog, need.item) if need.kind == "plant" else desk.catalog.prices.get(need.item)
    row = None if row is None or row.per != need.unit else row
    name = (row.name if row else "") or _name(desk, need)
    pack = _pack(desk, group, row, (stock or {}).get(need.item, 0.0))
    cost = None if row is None else row.price * pack
    currency = desk.plan.currency if row is None or not row.currency else row.currency
    return Priced(name, row, Price(pack, cost, currency))


def _roll(desk: CareDesk, need: Need) -> Priced:
    key, length = need.item.rsplit(" roll ", 1)
    row = desk.catalog.prices[key]
    system = System.METRIC if desk.plan.units == "metric" else System.US
    tube = desk.catalog.tubing.get(key) or desk.catalog.driplines.get(key)
    name = f"{tube.name if tube else key}, roll of {show(float(length), Dimension.LENGTH, system)}"
    price = round(row.price * float(length), 2)
    return Priced(name, row, Price(1.0, price, row.currency or desk.plan.currency))


def _pack(desk: CareDesk, group: Sequence[Need], row: PriceRow | None, on_hand: float) -> float:
    """How much one pack holds: a tray of plants, the price table's own word, a bag of mix, or a piece or metre."""
    need = group[0]
    if need.kind == "plant":
        spare = _spares(desk, need, {})["plant"]
        to_buy = plants_to_buy(sum(one.amount for one in group), spare, on_hand)
        return float(plants_a_pack(desk.catalog, need.item, to_buy))
    if row is not None and row.pack:
        return row.pack
    if need.kind == "mix":
        return desk.catalog.mixes[need.item].bag_l
    return 0.1 if need.unit == "m3" else 1.0


def _name(desk: CareDesk, need: Need) -> str:
    if need.kind == "plant":
        taxon, size = need.item.split(" ", 1)
        return f"{desk.catalog.plants[taxon].common_name}, {desk.catalog.root_balls[size].name}"
    if need.kind == "container":
        return next(row.container for row in desk.settled.rows if container_key(desk, row) == need.item)
    catalog = desk.catalog
    tables = (
        catalog.containers,
        catalog.mixes,
        catalog.tubing,
        catalog.driplines,
        catalog.emitters,
        catalog.devices,
        catalog.fittings,
        catalog.feeds,
    )
    for table in tables:
        row = table.get(need.item)
        if row is not None:
            return str(getattr(row, "name", need.item))
    return need.item
