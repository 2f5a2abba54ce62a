"""The spreadsheet, read back with another library and worked out again: its formulas give what the report says."""

import io
import math
import re
from typing import Any

import pytest
from openpyxl import load_workbook
from tests.design.care.desks import made, with_top
from tests.design.plans import EXAMPLES, text_of

from brimful.design.care.model import Care
from brimful.render.exports.spreadsheet import order_xlsx

PACKS = re.compile(r"=ROUNDUP\(MAX\(0,E(\d+)\+F\1-G\1\)/H\1-0\.00001,0\)")
COST = re.compile(r'=IF\(J(\d+)="","",I\1\*J\1\)')
TOTAL = re.compile(r"=SUMIF\(L(\d+):L(\d+),L(\d+),K\1:K\2\)")
EACH = re.compile(r"=K(\d+)/K(\d+)")


def reckoned(sheet: Any) -> dict[str, float | str]:
    """Every formula of the order sheet worked out from its cells alone, top to bottom; unknown formulas are errors."""
    found: dict[str, float | str] = {}

    def value(cell: str) -> Any:
        return found[cell] if cell in found else sheet[cell].value

    for row in sheet.iter_rows():
        for cell in row:
            if not (isinstance(cell.value, str) and cell.value.startswith("=")):
                continue
            if match := PACKS.fullmatch(cell.value):
                e, f, g, h = (value(f"{column}{match[1]}") for column in "EFGH")
                found[cell.coordinate] = float(math.ceil(max(0, e + f - g) / h - 0.00001))
            elif match := COST.fullmatch(cell.value):
                price = value(f"J{match[1]}")
                found[cell.coordinate] = "" if price is None else value(f"I{match[1]}") * price
            elif match := TOTAL.fullmatch(cell.value):
                lines, wanted = range(int(match[1]), int(match[2]) + 1), value(f"L{match[3]}")
                costs = [value(f"K{i}") for i in lines if value(f"L{i}") == wanted]
                found[cell.coordinate] = sum(cost for cost in costs if cost != "")
            else:
                match = EACH.fullmatch(cell.value)
                assert match, cell.value
                found[cell.coordinate] = value(f"K{match[1]}") / value(f"K{match[2]}")
    return found


def sheets(care: Care) -> tuple[Any, Any]:
    """The workbook's formulas, and the values kept beside them."""
    data = order_xlsx(care)
    return load_workbook(io.BytesIO(data)), load_workbook(io.BytesIO(data), data_only=True)


@pytest.mark.parametrize("name", EXAMPLES)
def test_recalculated_it_gives_the_report(name: str) -> None:
    """Packs, costs, total and cost a container, worked out by the test from the cells, are the report's figures."""
    care = made(text_of(name))
    assert care.order is not None
    formulas, kept = sheets(care)
    got = reckoned(formulas["Order"])
    for line, item in enumerate(care.order.items, start=2):
        assert got[f"I{line}"] == item.packs_count, item.name
        cost = got[f"K{line}"]
        assert cost == "" if item.cost_money is None else cost == pytest.approx(item.cost_money)
    last = len(care.order.items) + 1
    assert got[f"K{last + 2}"] == pytest.approx(care.order.cost_money)
    assert got[f"K{last + 4}"] == pytest.approx(care.order.cost_container_money)
    for cell, value in got.items():
        assert (kept["Order"][cell].value or "") == (pytest.approx(value) if value != "" else "")


def test_a_new_price_works_through() -> None:
    """A price typed into the sheet changes its line and the total by as much."""
    formulas, _ = sheets(made())
    sheet = formulas["Order"]
    before = reckoned(sheet)
    total = next(cell for cell, value in before.items() if str(sheet[cell].value).startswith("=SUMIF"))
    sheet["J3"].value += 10
    after = reckoned(sheet)
    assert float(after[total]) - float(before[total]) == pytest.approx(10 * float(before["I3"]))


def test_the_same_order_gives_the_same_bytes() -> None:
    """Nothing in the file depends on the clock."""
    assert order_xlsx(made()) == order_xlsx(made())


def test_words_are_never_formulas() -> None:
    """A title or name that looks like a formula stays words."""
    care = made(with_top('title = "=1+1"').replace('"row"', '"=row"'))
    formulas, _ = sheets(care)
    texts = [c.value for row in formulas["Order"].iter_rows() for c in row if c.data_type == "f"]
    assert all(str(text).startswith(("=ROUNDUP", "=IF", "=SUMIF", "=K")) for text in texts)


def test_the_cut_list_sheet_has_every_piece() -> None:
    """As many lines as pieces to cut."""
    care = made()
    formulas, _ = sheets(care)
    pieces = sum(len(roll.pieces_m) for cut in care.cuts for roll in cut.rolls)
    assert formulas["Cut list"].max_row == pieces + 1
