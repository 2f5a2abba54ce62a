"""The order as a spreadsheet: packs, cost and totals are formulas, so that a new price works through."""

import io
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from brimful.design.care.model import Care
from brimful.quantities import Dimension, System, show
from brimful.render.exports.order_table import OrderRow, order_rows

FIXED = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
HEAD = (
    "group", "what", "supplier", "unit", "needed", "spare", "on hand", "pack holds", "packs to buy", "price a pack",
    "cost", "currency",
)  # fmt: skip
WIDTHS = (18, 52, 18, 7, 10, 9, 9, 11, 13, 13, 12, 9)
FIRST = 2
"""The first line of the order, as a spreadsheet counts: below the heading."""


def order_xlsx(care: Care) -> bytes:
    """The order and the cut list as a workbook; the same order gives the same bytes."""
    import xlsxwriter

    page = io.BytesIO()
    book = xlsxwriter.Workbook(page, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"title": f"Order: {care.title}"[:250], "author": "", "created": FIXED})
    bold = book.add_format({"bold": True})
    money = book.add_format({"num_format": "#,##0.00"})
    _order(book.add_worksheet("Order"), care, bold, money)
    _cuts(book.add_worksheet("Cut list"), care, bold)
    book.close()
    return page.getvalue()


def _order(sheet: Any, care: Care, bold: Any, money: Any) -> None:
    rows = order_rows(care)
    sheet.freeze_panes(1, 2)
    for column, (word, width) in enumerate(zip(HEAD, WIDTHS, strict=True)):
        sheet.set_column(column, column, width)
        sheet.write_string(0, column, word, bold)
    for line, row in enumerate(rows, start=FIRST):
        _line(sheet, line, row, money)
    if care.order is not None:
        _totals(sheet, FIRST + len(rows), care, bold, money)


def _line(sheet: Any, line: int, row: OrderRow, money: Any) -> None:
    at = line - 1
    for column, word in enumerate((row.group, row.name, row.supplier, row.unit)):
        sheet.write_string(at, column, word)
    for column, value in enumerate((row.needed, row.spare, row.on_hand, row.pack), start=4):
        sheet.write_number(at, column, value)
    packs = f"=ROUNDUP(MAX(0,E{line}+F{line}-G{line})/H{line}-0.00001,0)"
    sheet.write_formula(at, 8, packs, None, row.packs)
    if row.price is None:
        sheet.write_blank(at, 9, None)
    else:
        sheet.write_number(at, 9, row.price, money)
    sheet.write_formula(at, 10, f'=IF(J{line}="","",I{line}*J{line})', money, "" if row.cost is None else row.cost)
    sheet.write_string(at, 11, row.currency)


def _totals(sheet: Any, after: int, care: Care, bold: Any, money: Any) -> None:
    """The total in the plan's currency, and per container; nothing is converted."""
    order = care.order
    assert order is not None
    last, total = after - 1, after + 1
    containers = round(order.cost_money / order.cost_container_money) if order.cost_container_money else 1
    sheet.write_string(total - 1, 1, f"total in {order.currency}", bold)
    formula = f"=SUMIF(L{FIRST}:L{last},L{total},K{FIRST}:K{last})"
    sheet.write_formula(total - 1, 10, formula, money, order.cost_money)
    sheet.write_string(total - 1, 11, order.currency)
    sheet.write_string(total, 1, "containers")
    sheet.write_number(total, 10, containers)
    sheet.write_string(total + 1, 1, "for each container", bold)
    sheet.write_formula(total + 1, 10, f"=K{total}/K{total + 1}", money, order.cost_container_money)


def _cuts(sheet: Any, care: Care, bold: Any) -> None:
    system = System.METRIC if care.units == "metric" else System.US
    head: Sequence[str] = ("tube", "roll", "number", "piece", "cut to", "left over")
    for column, word in enumerate(head):
        sheet.set_column(column, column, 40 if column in (0, 3) else 12)
        sheet.write_string(0, column, word, bold)
    line = 1
    for cut in care.cuts:
        for number, roll in enumerate(cut.rolls, start=1):
            for index, (label, length) in enumerate(zip(roll.labels, roll.pieces_m, strict=True)):
                last = index == len(roll.labels) - 1
                words = [cut.name, show(roll.roll_m, Dimension.LENGTH, system), str(number), label]
                words += [show(length, Dimension.LENGTH, system)]
                words += [show(roll.offcut_m, Dimension.LENGTH, system) if last else ""]
                for column, word in enumerate(words):
                    sheet.write_string(line, column, word)
                line += 1
