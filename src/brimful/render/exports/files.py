"""Which files each part gives."""

from datetime import datetime

from brimful.design.care.model import Care
from brimful.render.exports.calendar import season_ics
from brimful.render.exports.spreadsheet import order_xlsx
from brimful.render.exports.tables import cut_text, feed_csv, order_csv, schedule_csv, set_out_csv, supplier_orders


def files_of(care: Care, part: str, changed: datetime) -> dict[str, str | bytes]:
    """Content by file name; `changed` is when the plan last changed."""
    if part == "shop":
        return {
            "order.xlsx": order_xlsx(care),
            "order.csv": order_csv(care),
            "cut-list.txt": cut_text(care),
            **supplier_orders(care),
        }
    if part == "work":
        return {
            "season.ics": season_ics(care, changed),
            "schedule.csv": schedule_csv(care),
            "set-out.csv": set_out_csv(care),
        }
    return {"feed.csv": feed_csv(care)}
