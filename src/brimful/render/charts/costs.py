"""Where the money goes, by kind of thing."""

from brimful.design.care.model import OrderWorked
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import CLAY
from brimful.render.words import capital


def costs(order: OrderWorked) -> Spec | None:
    """A bar for each group that costs something in the order's own currency; None where nothing is priced."""
    sums: dict[str, float] = {}
    for item in order.items:
        if item.cost_money and item.currency == order.currency:
            sums[item.group] = sums.get(item.group, 0.0) + item.cost_money
    if not sums:
        return None
    total = sum(sums.values())
    rows = [
        {"group": name, "cost": cost, "says": f"{100 * cost / total:.0f} %"}
        for name, cost in sorted(sums.items(), key=lambda one: -one[1])
    ]
    room = {"domain": [0, 1.12 * max(sums.values())], "nice": False}
    return spec(
        f"{capital(str(rows[0]['group']))} take {rows[0]['says']} of {order.currency}{total:,.0f}",
        f"cost by kind, {order.currency}",
        rows,
        height=16 * len(rows),
        encoding={"y": axis("group", None, "nominal", sort=None), "x": axis("cost", order.currency, scale=room)},
        layer=[
            {"mark": {"type": "bar", "color": CLAY, "height": 8}},
            {"mark": {"type": "text", "align": "left", "dx": 4}, "encoding": {"text": {"field": "says"}}},
        ],
    )
