"""How plants are bought: by the tray or as the price table says, with spares, at what price; every list asks here."""

from collections.abc import Mapping
from math import ceil

from brimful.catalog import Catalog, Price, RootBall
from brimful.domains.planting.order import spare_share


def item_of(plant: str, ball: RootBall) -> str:
    """What a taxon in a trade size is called in the order: the two keys, a blank between."""
    return f"{plant} {ball.key}"


def plant_price(catalog: Catalog, item: str) -> Price | None:
    """The price row of a plant in its trade size: under both keys, its taxon's, or its size's; sold by the piece."""
    plant, size = item.split(" ", 1)
    keys = (item, plant, f"plant-{size.replace('#', 'no-')}")
    rows = (catalog.prices.get(key) for key in keys)
    return next((row for row in rows if row is not None and row.per == "each"), None)


def plants_a_pack(catalog: Catalog, item: str, to_buy: int) -> int:
    """How many plants are bought at once: as the price table packs them, else a tray of their size; fewer than a tray
    singly (our own rule)."""
    row, ball = plant_price(catalog, item), catalog.root_balls[item.split(" ", 1)[1]]
    if row is not None and row.pack:
        return max(1, round(row.pack))
    tray = ball.per_tray or 1
    return tray if to_buy >= tray else 1


def plants_to_buy(needed: float, spare: float, on_hand: float) -> int:
    """Plants to buy after spares and what is on hand, before they are rounded up to trays."""
    return max(0, ceil(round(needed * (1.0 + spare), 9)) - int(on_hand))


def plant_spare(given: Mapping[str, float], ball: RootBall) -> float:
    """Share of plants bought over count: the plan's own, else by the size of the pot."""
    return given["plant"] if "plant" in given else spare_share(ball.volume_l)
