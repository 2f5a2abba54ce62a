"""The order as a plain table in the plan's units: the ground of spreadsheet, CSV and text orders."""

from brimful.design.care.model import Care, OrderItem
from brimful.quantities import System
from brimful.records import record

FOOT_M, CUBIC_FOOT_L, POUND_KG, CUBIC_YARD_M3 = 0.3048, 28.316846592, 0.45359237, 0.764554857984
SHOP_UNITS: dict[tuple[str, System], tuple[str, float]] = {
    ("m", System.US): ("ft", FOOT_M),
    ("l", System.US): ("cu ft", CUBIC_FOOT_L),
    ("kg", System.US): ("lb", POUND_KG),
    ("m3", System.US): ("cu yd", CUBIC_YARD_M3),
    ("l", System.METRIC): ("L", 1.0),
    ("m3", System.METRIC): ("m³", 1.0),
}


@record
class OrderRow:
    """One line in shop units."""

    group: str
    name: str
    supplier: str
    unit: str
    needed: float
    spare: float
    on_hand: float
    pack: float
    packs: int
    price: float | None
    cost: float | None
    currency: str


def order_rows(care: Care) -> tuple[OrderRow, ...]:
    """Every line of the order, in the order of the report."""
    system = System.METRIC if care.units == "metric" else System.US
    return tuple(_row(item, system) for item in care.order.items) if care.order is not None else ()


def _row(item: OrderItem, system: System) -> OrderRow:
    unit, size = SHOP_UNITS.get((item.unit, system), (item.unit, 1.0))
    amounts = (item.needed_amount, item.spare_amount, item.on_hand_amount, item.pack_amount)
    needed, spare, on_hand, pack = (round(amount / size, 6) for amount in amounts)
    return OrderRow(
        item.group, item.name, item.supplier, unit, needed, spare, on_hand, pack, item.packs_count,
        item.price_pack_money, item.cost_money, item.currency,
    )  # fmt: skip


def harmless(text: str) -> str:
    """Words that no spreadsheet takes for a formula.

    >>> harmless("=1+1"), harmless("brick")
    ("'=1+1", 'brick')
    """
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text
