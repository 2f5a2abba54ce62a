"""The order: nothing is lost between network and shop, stock and spares act as said, one container more is a figure."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.design.care.desks import codes, desk_of, made, with_top
from tests.design.plans import EXAMPLES, FIXED, text_of

from brimful.catalog import Catalog, Price
from brimful.design.care.cutting import lengths_of
from brimful.design.care.needs import all_needs, joints_of
from brimful.domains.hydraulics.zone import Zone


def priced(**rows: Price) -> Catalog:
    """The catalogue with some prices of the user's laid over it."""
    return Catalog({"prices": {row.key: row for row in rows.values()}})


def price(key: str, value: float, *, per: str = "each", currency: str = "") -> Price:
    """One row of a price table."""
    return Price(key=key, source="a test", certainty="assumed", per=per, price=value, currency=currency)


@pytest.mark.parametrize("name", EXAMPLES)
def test_emitters_and_stations_of_the_network_are_bought(name: str) -> None:
    """As many barbed tees as feeders, as many plugs as laterals, and all the dripline that is laid."""
    desk = desk_of(text_of(name))
    needs = all_needs(desk)
    amount = {item: sum(n.amount for n in needs if n.item == item) for item in {n.item for n in needs}}
    feeders = sum(row.count for row in desk.settled.rows if row.delivery.assembly.feeder is not None)
    assert amount["feeder-tee"] >= feeders
    assert amount["end-plug"] == sum(len(spec.zone.laterals) for spec in desk.settled.zones)
    for row, worked in desk.rows:
        if worked.tube is not None:
            alike = sum(
                r.count * w.tube.dripline_cut_m
                for r, w in desk.rows
                if w.tube is not None and r.delivery.emission_key == row.delivery.emission_key
            )
            assert amount[row.delivery.emission_key] == pytest.approx(alike)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_cut_list_holds_every_length_once(name: str) -> None:
    """The pieces of all rolls are the lengths to lay, no roll is overfull, and every plan is proven cheapest."""
    desk, care = desk_of(text_of(name)), made(text_of(name))
    cut = {one.key for one in care.cuts}
    laid = sum(length.length_m for length in lengths_of(desk) if length.key in cut)
    assert sum(sum(roll.pieces_m) for one in care.cuts for roll in one.rolls) == pytest.approx(laid)
    for one in care.cuts:
        assert one.proven
        for roll in one.rolls:
            assert sum(roll.pieces_m) + roll.offcut_m == pytest.approx(roll.roll_m)
            assert roll.offcut_m >= -1e-9


@pytest.mark.parametrize("name", EXAMPLES)
def test_packs_cover_what_is_needed_and_not_a_pack_more(name: str) -> None:
    """Packs bought and stock cover need and spares; with one pack less they would not."""
    order = made(text_of(name)).order
    assert order is not None
    for item in order.items:
        wanted = item.needed_amount + item.spare_amount
        bought = item.on_hand_amount + item.packs_count * item.pack_amount
        assert bought >= wanted - 1e-6
        assert item.packs_count == 0 or bought - item.pack_amount < wanted
        assert item.left_over_amount == pytest.approx(bought - wanted)
    assert order.cost_money == pytest.approx(sum(i.cost_money or 0 for i in order.items))
    assert order.cost_container_money * sum(i.needed_amount for i in order.items if i.group == "containers") == (
        pytest.approx(order.cost_money)
    )


def test_one_container_more_is_the_plan_with_one_more() -> None:
    """What one more adds is the difference of the two plans' orders, but for steps of stakes along the tube."""
    one_more = FIXED.replace("count = 4", "count = 5")
    now, then = made(FIXED).order, made(one_more).order
    assert now is not None
    assert then is not None
    stake = next(i.cost_money for i in then.items if i.key == "stake") or 0.0
    before = next(i.cost_money for i in now.items if i.key == "stake") or 0.0
    assert now.one_more_money == pytest.approx(then.cost_money - now.cost_money - (stake - before), abs=0.01)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 40))
def test_stock_on_hand_is_bought_less(pieces: int) -> None:
    """What lies in the shed is not bought again, and never makes an order below nothing."""
    bare, stocked = made().order, made(with_top(f"stock = {{ staple = {pieces} }}")).order
    assert bare is not None
    assert stocked is not None
    packs = [next(i.packs_count for i in order.items if i.key == "staple") for order in (bare, stocked)]
    assert packs[1] == max(0, packs[0] - pieces)


def test_tube_on_hand_is_cut_first() -> None:
    """A length of feeder in the shed is cut before a new roll is opened."""
    care = made(with_top('stock = { "feeder-quarter-0.170" = "13 ft" }'))
    cut = next(one for one in care.cuts if one.key == "feeder-quarter-0.170")
    assert [roll.on_hand for roll in cut.rolls] == [True]
    assert cut.cost_money == 0


def test_a_line_longer_than_a_roll_is_coupled() -> None:
    """A main of 600 ft comes from rolls of 250 ft at most, with a coupling for each joint."""
    care = made(FIXED.replace('"40 ft"', '"600 ft"'))
    cut = next(one for one in care.cuts if one.key == "pe-one-1.057")
    assert cut.couplers_count == 2
    assert care.order is not None
    assert next(i.needed_amount for i in care.order.items if i.key == "barb-coupling") == 2


def test_joints_by_hand() -> None:
    """Two laterals at the end of the main and one half way: one tee each; one alone at the end: an elbow."""
    spec = desk_of(FIXED).settled.zones[0].zone
    alone = joints_of(spec)
    assert (alone.tees, alone.crosses, alone.elbows, alone.feeder_tees, alone.end_plugs) == (0, 0, 1, 4, 1)
    assert alone.barbs == 4  # main's start, both of the elbow, the plug
    from dataclasses import replace

    half = replace(spec.laterals[0], at_m=spec.laterals[0].at_m / 2, name="half")
    other = replace(spec.laterals[0], name="other")
    three = joints_of(Zone("z", spec.main, (half, spec.laterals[0], other), water=spec.water))
    assert (three.tees, three.crosses, three.elbows, three.end_plugs) == (2, 0, 0, 3)


def test_pads_are_counted_by_the_brick_guide() -> None:
    """A pad's bricks are area times 4.5 a square foot and 5 % (brick industry guide as told in a trade article)."""
    text = FIXED + '[pads]\nbeyond = "0 in"\n'
    order = made(text).order
    assert order is not None
    side_ft = 24 / 12
    each = math.ceil(side_ft**2 * 4.5 * 1.05 - 1e-6)
    assert next(i.needed_amount for i in order.items if i.key == "brick") == 4 * each


def test_no_price_and_another_currency_are_told() -> None:
    """What has no price, or a price in other money, is named and left out of the total."""
    other = priced(one=price("staple", 2.0, currency="EUR"))
    care = made(catalog=other)
    assert care.order is not None
    assert care.order.other_currency == ("staple",) or "staple" in care.order.other_currency[0]
    assert "other-currency" in codes(FIXED, catalog=other)
    assert "no-price" in codes(FIXED)  # the container of its own sizes
    staples = next(i for i in care.order.items if i.key == "staple")
    assert staples.cost_money is not None
    assert care.order.cost_money == pytest.approx(
        sum(i.cost_money or 0 for i in care.order.items if i.currency == care.order.currency)
    )


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("stock = { staple = -5 }", "stock-negative"),
        ('stock = { staple = "many" }', "stock-unreadable"),
        ('stock = { staple = "3 ft" }', "stock-unreadable"),
        ("stock = { stapple = 5 }", "stock-unused"),
        ('spares = { briks = "5 %" }', "spares-unknown"),
    ],
)
def test_bad_stock_is_a_finding(line: str, code: str) -> None:
    """Stock that cannot be counts as nothing, and is told."""
    assert code in codes(with_top(line))
    assert made(with_top(line)).order is not None
