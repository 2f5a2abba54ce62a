"""The order: laws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.takeoff.order import SPARES, Need, Price, more_packs, order_lines, order_total

AMOUNTS = st.lists(st.floats(0, 500), min_size=1, max_size=6)


@given(AMOUNTS, st.sampled_from([0.5, 1.0, 10.0]), st.floats(0, 300), st.sampled_from(sorted(SPARES)), st.booleans())
def test_the_order_covers_the_job_with_less_than_a_pack_over(
    amounts: list[float], pack: float, stock: float, kind: str, whole: bool
) -> None:
    """What is bought and on hand covers needs and spares; what is bought is never a whole pack too much."""
    needs = [Need("x", kind, amount, "u", whole=whole) for amount in amounts]
    (line,) = order_lines(needs, {"x": Price(pack, 2.0, "USD")}, on_hand={"x": stock})
    wanted = line.needed + line.spare
    assert line.needed == pytest.approx(sum(amounts))
    assert wanted >= sum(amounts) * (1 + SPARES[kind]) - 1e-6
    assert line.left_over >= -1e-6
    assert line.packs == 0 or line.packs * pack - max(0, wanted - stock) < pack
    assert line.left_over == pytest.approx(stock + line.packs * pack - wanted)
    assert line.cost == line.packs * 2.0


def test_packs_are_rounded_once_over_the_whole_job() -> None:
    """Twenty containers of 0.6 bags take 12 bags, not 20; purposes are kept in order."""
    needs = [Need("mix", "mix", 0.6, "bag", f"container {i}") for i in range(20)]
    (line,) = order_lines(needs, {"mix": Price(1.0, None, "")})
    assert line.packs == 12
    assert line.purposes[:2] == ("container 0", "container 1")


def test_spare_plants_come_whole() -> None:
    """30 plants and 5 % spare are 32 plants, which fill two trays of 18 and leave four."""
    (line,) = order_lines([Need("viola", "plant", 30, "plant", whole=True)], {"viola": Price(18, 20.0, "USD")})
    assert (line.spare, line.packs, line.left_over, line.cost) == (2.0, 2, 4.0, 40.0)


def test_missing_and_foreign_prices_are_told_apart_and_never_added() -> None:
    """A line without price and one in another currency are named; the known cost is the rest; stock is free."""
    needs = [Need(item, "feed", 2, "bag") for item in ("a", "b", "c", "d")]
    prices = {"a": Price(1, 5.0, "USD"), "c": Price(1, 7.0, "EUR"), "d": Price(1, None, "USD")}
    total = order_total(order_lines(needs, prices, on_hand={"d": 5}), "USD")
    assert (total.cost, total.unpriced, total.other_currency) == (10.0, ("b",), ("c",))
    assert not total.complete
    assert order_total(order_lines(needs[:1], prices), "USD").complete


def test_one_container_more_is_the_difference_of_two_orders() -> None:
    """Only items whose packs change are told, new ones and dropped ones too."""
    prices = {"mix": Price(10, 1.0, "USD")}
    before = order_lines([Need("mix", "mix", 95, "L"), Need("old", "feed", 1, "bag")], prices)
    after = order_lines([Need("mix", "mix", 101, "L"), Need("new", "feed", 2, "bag")], prices)
    assert more_packs(before, after) == {"mix": 1, "old": -1, "new": 2}
    assert more_packs(after, after) == {}


@pytest.mark.parametrize(
    ("needs", "stock"),
    [
        ([Need("x", "feed", -1, "kg")], 0),
        ([Need("x", "feed", 1, "kg")], -1),
        ([Need("x", "feed", 1, "kg"), Need("x", "feed", 1, "L")], 0),
    ],
)
def test_orders_that_cannot_be_are_refused(needs: list[Need], stock: float) -> None:
    """Amounts or stock below zero and one item in two units are refused."""
    with pytest.raises(ValueError, match="expected"):
        order_lines(needs, {}, on_hand={"x": stock})
