"""Cutting stock: laws, brute force, and the size a large run asks for."""

import random
from collections import Counter
from itertools import product
from math import ceil, inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.takeoff.cutting import CutPlan, Piece, Stock, cut_plan, pieces_with_couplers


def check(plan: CutPlan, pieces: list[Piece]) -> None:
    """Every piece is cut once, no roll yields more than its length, no kind is opened more often than there are."""
    assert Counter(piece for roll in plan.rolls for piece in roll.pieces) == Counter(pieces)
    for roll in plan.rolls:
        used = sum(piece.length_m for piece in roll.pieces)
        assert used + roll.offcut_m == pytest.approx(roll.stock.length_m)
        assert roll.offcut_m >= -1e-6
    opened = Counter(roll.stock for roll in plan.rolls)
    assert all(stock.available is None or count <= stock.available for stock, count in opened.items())
    assert plan.price >= plan.lower_bound - 1e-9


def brute_force(lengths: list[int], stocks: list[Stock]) -> float:
    """Cheapest price over every way to give each piece to one of as many rolls as there are pieces."""
    slots = [stock for stock in stocks for _ in range(len(lengths) if stock.available is None else stock.available)]
    best = inf
    for places in product(range(len(slots)), repeat=len(lengths)):
        used = Counter[int]()
        for place, length in zip(places, lengths, strict=True):
            used[place] += length
        if all(total <= slots[place].length_m * 100 for place, total in used.items()):
            best = min(best, sum(slots[place].price for place in used))
    return best


@settings(max_examples=25, deadline=None)
@given(st.lists(st.integers(100, 500), min_size=1, max_size=4), st.integers(1, 9), st.integers(0, 1))
def test_small_jobs_cost_what_trying_everything_costs(lengths: list[int], price: int, offcuts: int) -> None:
    """On small jobs the plan is proven and costs what trying every way costs, offcuts on hand included."""
    stocks = [Stock("roll", 6.0, float(price)), Stock("offcut", 2.5, 0.0, offcuts)]
    pieces = [Piece(f"p{i}", length / 100) for i, length in enumerate(lengths)]
    plan = cut_plan(pieces, stocks)
    check(plan, pieces)
    assert plan.proven
    assert plan.price == pytest.approx(brute_force(lengths, stocks))


@pytest.mark.parametrize("seed", range(6))
def test_two_hundred_pieces_in_eight_lengths_are_proven(seed: int) -> None:
    """200 pieces in 8 lengths from one roll: complete, never below the tube itself, and proven least."""
    rng = random.Random(seed)
    lengths = [rng.randint(30, 900) / 100 for _ in range(8)]
    pieces = [Piece(f"p{i}", rng.choice(lengths)) for i in range(200)]
    plan = cut_plan(pieces, [Stock("roll", 30.48, 1.0)])
    check(plan, pieces)
    assert plan.proven
    assert len(plan.rolls) >= ceil(sum(piece.length_m for piece in pieces) / 30.48)


@pytest.mark.parametrize("seed", range(3))
def test_awkward_prices_of_several_kinds_state_their_gap(seed: int) -> None:
    """With three kinds at awkward prices the plan is complete and its stated bound is below its price or meets it."""
    rng = random.Random(seed)
    pieces = [Piece(f"p{i}", rng.randint(30, 900) / 100) for i in range(20)]
    plan = cut_plan(pieces, [Stock("short", 30.48, 30.48), Stock("long", 76.2, 70.0), Stock("rest", 12.3, 0.0, 2)])
    check(plan, pieces)
    assert plan.proven == (plan.price == pytest.approx(plan.lower_bound))
    assert plan.price <= plan.lower_bound * 1.12


def test_fractions_that_do_not_round_are_still_proven() -> None:
    """Three pieces of just over half a roll need three rolls although their length fits in two."""
    plan = cut_plan([Piece(str(i), 1.6) for i in range(3)], [Stock("stick", 3.0, 2.0)])
    assert (len(plan.rolls), plan.price, plan.proven) == (3, 6.0, True)
    assert plan.offcuts_m == pytest.approx((1.4, 1.4, 1.4))


def test_exact_fits_waste_nothing() -> None:
    """Pieces that add up to the roll exactly leave no offcut."""
    plan = cut_plan([Piece("a", 0.1), Piece("b", 0.2), Piece("c", 29.7)], [Stock("roll", 30.0, 1.0)])
    assert len(plan.rolls) == 1
    assert plan.offcuts_m == pytest.approx((0.0,), abs=1e-9)


def test_no_pieces_open_no_roll() -> None:
    """Nothing wanted costs nothing."""
    assert cut_plan([], []) == CutPlan((), 0.0, 0.0, True)


@given(st.floats(0.5, 500), st.floats(1, 100))
def test_long_lengths_are_joined_without_loss(length: float, roll: float) -> None:
    """Joined pieces add up to the length, none passes the roll, and couplers are one fewer than pieces."""
    pieces, couplers = pieces_with_couplers(length, roll)
    assert sum(pieces) == pytest.approx(length)
    assert max(pieces) <= roll * (1 + 1e-6) + 1e-6
    assert couplers == len(pieces) - 1


@pytest.mark.parametrize(
    ("pieces", "stocks"),
    [
        ([Piece("a", 31.0)], [Stock("roll", 30.0, 1.0)]),
        ([Piece("a", 0.0)], [Stock("roll", 30.0, 1.0)]),
        ([Piece("a", 1.0)], [Stock("roll", 30.0, -1.0)]),
        ([Piece("a", 20.0), Piece("b", 20.0)], [Stock("roll", 30.0, 1.0, 1)]),
    ],
)
def test_jobs_that_cannot_be_cut_are_refused(pieces: list[Piece], stocks: list[Stock]) -> None:
    """Pieces longer than any roll, no length, prices below zero, and too few rolls are refused."""
    with pytest.raises(ValueError, match="expected"):
        cut_plan(pieces, stocks)


def test_joining_nothing_is_refused() -> None:
    """A length of zero has no pieces."""
    with pytest.raises(ValueError, match="expected"):
        pieces_with_couplers(0, 30)


@pytest.mark.parametrize("seed", range(8))
def test_many_short_pieces_from_long_rolls_are_proven(seed: int) -> None:
    """200 pieces of 0.9 to 4.3 m from rolls of 30 m, as feeders and dripline are, meet the bound too."""
    rng = random.Random(seed)
    pieces = [Piece(f"p{i}", rng.choice((0.9, 1.2, 1.5, 1.83, 2.44, 3.05, 3.66, 4.27))) for i in range(200)]
    plan = cut_plan(pieces, [Stock("roll", 30.48, 12.0)])
    check(plan, pieces)
    assert plan.proven
