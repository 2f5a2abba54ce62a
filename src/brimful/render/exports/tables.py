"""Plain tables: the order, the work and the feed as CSV, and one order in words for each supplier."""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import fields

from brimful.design.care.model import Care
from brimful.quantities import Dimension, System, show
from brimful.render.care.shop import cut_length
from brimful.render.exports.order_table import OrderRow, harmless, order_rows
from brimful.render.exports.spreadsheet import HEAD

Cell = str | int | float | None


def order_csv(care: Care) -> str:
    """The order, line by line."""
    return _csv(HEAD, (tuple(getattr(row, f.name) for f in fields(row)) for row in order_rows(care)))


def schedule_csv(care: Care) -> str:
    """Who does what: one line a step of the schedule."""
    head = ("step", "place", "what", "day", "from_min", "to_min", "people")
    slots = care.build.slots if care.build is not None else ()
    who = {slot.key: " ".join(map(str, slot.people)) for slot in slots}
    times = {slot.key: (round(slot.start_min, 1), round(slot.end_min, 1)) for slot in slots}
    return _csv(head, ((s.key, s.place, s.name, s.day_count, *times[s.key], who[s.key]) for s in slots))


def set_out_csv(care: Care) -> str:
    """The set-out table to take along with tape and level, in m."""
    head = (
        "row", "container", "middle_m", "near_edge_m", "far_edge_m", "out_m", "diagonal_m", "ground_m", "pad_top_m",
        "cut_m", "fill_m", "bricks", "shims",
    )  # fmt: skip
    rows = (
        (
            out.row, s.container, s.middle_m, s.near_edge_m, s.far_edge_m, out.out_m, s.diagonal_m, s.ground_m,
            s.top_m, s.cut_m, s.fill_m, s.bricks_count, s.shims_count,
        )
        for out in care.set_out
        for s in out.stations
    )  # fmt: skip
    return _csv(head, ([round(cell, 4) if isinstance(cell, float) else cell for cell in row] for row in rows))


def feed_csv(care: Care) -> str:
    """What goes in the tank, feeding by feeding."""
    head = ("day", "zone", "containers", "solution_l", "stock_l", "feed_g", "nitrogen_ppm")
    tanks = care.feed.tanks if care.feed is not None else ()
    return _csv(
        head,
        (
            (t.day.isoformat(), t.zone, t.containers_count, round(t.solution_l, 2), round(t.stock_l, 3),
             round(t.feed_g, 1), t.nitrogen_ppm)
            for t in tanks
        ),
    )  # fmt: skip


def supplier_orders(care: Care) -> dict[str, str]:
    """One order in words for each supplier group, by file name."""
    rows = [row for row in order_rows(care) if row.packs]
    groups = dict.fromkeys(row.supplier for row in rows)
    return {f"order-{_plain(group)}.txt": _order(care, group, rows) for group in groups}


def cut_text(care: Care) -> str:
    """The cut list to print: each roll, what to cut from it in order, what is left."""
    system = System.METRIC if care.units == "metric" else System.US
    lines = [f"Cut list: {care.title}"]
    for cut in care.cuts:
        lines += ["", cut.name]
        for number, roll in enumerate(cut.rolls, start=1):
            said = "on hand" if roll.on_hand else "roll"
            lines.append(f"  {said} {number}, {show(roll.roll_m, Dimension.LENGTH, system)}")
            for label, length in zip(roll.labels, roll.pieces_m, strict=True):
                lines.append(f"    [ ] {cut_length(length, system):>14}  {label}")
            lines.append(f"    left over {cut_length(roll.offcut_m, system)}")
    return "\n".join(lines) + "\n"


def _order(care: Care, group: str, rows: Sequence[OrderRow]) -> str:
    mine = [row for row in rows if row.supplier == group]
    lines = [f"Order: {care.title}", f"For: {group}", ""]
    for row in mine:
        pack = "" if row.unit == "each" and row.pack == 1 else f" of {row.pack:g} {row.unit}"
        lines.append(f"[ ] {row.packs:>5}{pack}  {row.name}")
    return "\n".join(lines) + "\n"


def _plain(word: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", word.lower()).strip("-") or "other"


def _csv(head: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\n")
    writer.writerow(head)
    for row in rows:
        writer.writerow([harmless(cell) if isinstance(cell, str) else "" if cell is None else cell for cell in row])
    return page.getvalue()
