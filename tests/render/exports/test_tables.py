"""CSV, text orders and cut list: read back, they say what the report says."""

import csv
import io

import pytest
from tests.design.care.desks import made, with_top
from tests.design.plans import EXAMPLES, text_of

from brimful.quantities import System
from brimful.render.care.page import amount
from brimful.render.exports.tables import cut_text, feed_csv, order_csv, schedule_csv, set_out_csv, supplier_orders


@pytest.mark.parametrize("name", EXAMPLES)
def test_csv_comes_back(name: str) -> None:
    """As many lines as the report has, with its packs and costs."""
    care = made(text_of(name))
    assert care.order is not None
    assert care.build is not None
    lines = list(csv.DictReader(io.StringIO(order_csv(care))))
    assert [int(line["packs to buy"]) for line in lines] == [item.packs_count for item in care.order.items]
    assert sum(float(line["cost"] or 0) for line in lines) == pytest.approx(care.order.cost_money)
    assert len(list(csv.reader(io.StringIO(schedule_csv(care))))) == len(care.build.slots) + 1
    assert len(list(csv.reader(io.StringIO(set_out_csv(care))))) == 1 + sum(len(out.stations) for out in care.set_out)
    assert care.feed is not None
    assert len(list(csv.reader(io.StringIO(feed_csv(care))))) == len(care.feed.tanks) + 1


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_thing_is_ordered_from_one_supplier(name: str) -> None:
    """All orders together hold each thing that is bought, once."""
    care = made(text_of(name))
    assert care.order is not None
    lines = [line for text in supplier_orders(care).values() for line in text.splitlines() if line.startswith("[ ]")]
    assert len(lines) == sum(item.packs_count > 0 for item in care.order.items)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_printed_cut_list_has_a_box_for_each_piece(name: str) -> None:
    """Each piece has a box to tick."""
    care = made(text_of(name))
    boxes = sum(line.strip().startswith("[ ]") for line in cut_text(care).splitlines())
    assert boxes == sum(len(roll.pieces_m) for cut in care.cuts for roll in cut.rolls)


def test_names_that_look_like_formulas_are_kept_as_words() -> None:
    """A row called like a formula reaches no spreadsheet as one."""
    care = made(with_top("").replace('"row"', '"=row"'))
    assert all(not line.startswith(("=", "@", "+")) for line in set_out_csv(care).splitlines())


def test_amounts_in_shop_words() -> None:
    """Feet, cubic feet and cubic yards in US units; metres, litres and cubic metres in metric ones."""
    us = [amount(*one, System.US) for one in ((3.048, "m"), (28.316846592, "l"), (0.764554857984, "m3"), (7.0, "each"))]
    assert us == ["10 ft", "1.00 cu ft", "1.00 cu yd", "7"]
    assert [amount(2.0, unit, System.METRIC) for unit in ("m", "l", "m3")] == ["2 m", "2 L", "2.00 m³"]
