"""Cutting patterns: which pieces come from one roll, found by the prices of the linear program."""

from collections import Counter
from collections.abc import Iterator, Sequence
from math import floor
from operator import mul
from typing import NamedTuple

Roll = tuple[int, float, int | None]  # length [grid steps], price, how many there are
PATTERN_LIMIT = 2_000
_SMALL = 1e-9


class Pattern(NamedTuple):
    """One way to cut one kind of roll: the kind's number and how many of each length come from it."""

    roll: int
    counts: tuple[int, ...]


class Duals(NamedTuple):
    """What the linear program pays for one piece of each length, and for one roll of each limited kind (≤ 0)."""

    pieces: tuple[float, ...]
    rolls: tuple[float, ...]


class Relaxed(NamedTuple):
    """The linear program's answer: patterns tried, how many rolls of each (fractions), price and dual prices."""

    columns: list[Pattern]
    times: list[float]
    price: float
    duals: Duals


def lp_patterns(
    lengths: Sequence[int], demand: Sequence[int], rolls: Sequence[Roll], *, start: Sequence[Pattern] = ()
) -> Relaxed:
    """The patterns that the best fractional cutting uses or tried, its price, and its dual prices.

    Formula: column generation; each round asks a knapsack for the pattern that the present prices undervalue most.
    Args: lengths: of the pieces, longest first [grid steps]. demand: pieces of each.
        rolls: length [grid steps], price, how many. start: patterns known already.
    Returns: patterns, rolls of each, least fractional price (no whole plan is cheaper), dual prices.
    Valid: every length fits some roll.
    Source: Gilmore and Gomory (1961), from memory.
    """
    single = [
        Pattern(kind, tuple(min(demand[i], roll[0] // length) if i == j else 0 for i in range(len(lengths))))
        for kind, roll in enumerate(rolls)
        for j, length in enumerate(lengths)
        if length <= roll[0]
    ]
    columns = list(dict.fromkeys([*start, *single]))
    known = set(columns)
    while True:
        times, bound, duals = _relaxed(columns, demand, rolls)
        fresh = [
            pattern
            for pattern, worth in _best_patterns(rolls, lengths, demand, duals.pieces)
            if worth + duals.rolls[pattern.roll] > rolls[pattern.roll][1] + 1e-7 and pattern not in known
        ]
        if not fresh:
            return Relaxed(columns, times, bound, duals)
        columns += fresh
        known.update(fresh)


def dive(
    lengths: Sequence[int], demand: Sequence[int], rolls: Sequence[Roll], first: Relaxed
) -> tuple[Counter[Pattern], list[Pattern]]:
    """Whole rolls by fixing those of the linear program and asking it again for what is left, and all patterns met.

    Args: lengths, demand, rolls: as lp_patterns. first: its answer for the whole demand.
    Returns: rolls of each pattern (empty where this way runs out of rolls), patterns.
    Valid: as lp_patterns.
    Source: rounding with residual problems, common practice in cutting stock.
    """
    left, stock, now = list(demand), list(rolls), first
    columns = dict.fromkeys(first.columns)
    plan = Counter[Pattern]()
    while any(left):
        if max(now.times) < _SMALL:
            return Counter(), list(columns)
        whole = {pattern: floor(times + 1e-6) for pattern, times in zip(now.columns, now.times, strict=True)}
        if not any(whole.values()):
            whole = {now.columns[max(range(len(now.times)), key=now.times.__getitem__)]: 1}
        for pattern, times in whole.items():
            plan[pattern] += times
            left = [max(0, n - times * count) for n, count in zip(left, pattern.counts, strict=True)]
            length, price, available = stock[pattern.roll]
            stock[pattern.roll] = (length, price, None if available is None else available - times)
        if min((roll[2] for roll in stock if roll[2] is not None), default=0) < 0:
            return Counter(), list(columns)
        now = lp_patterns(lengths, left, stock, start=list(columns))
        columns.update(dict.fromkeys(now.columns))
    return +plan, list(columns)


def cheap_patterns(
    lengths: Sequence[int], demand: Sequence[int], rolls: Sequence[Roll], duals: Duals, *, gap: float
) -> tuple[list[Pattern], bool]:
    """Every full pattern that a plan cheaper by less than the gap could use, and whether that list is complete.

    Formula: a pattern whose price exceeds the dual worth of its pieces by more than the gap is in no better plan.
    Args: lengths, demand, rolls: as lp_patterns. duals: its prices. gap: price in hand less the bound.
    Returns: patterns, True where none was left out for their number (2 000).
    Valid: gap ≥ 0.
    Source: reduced cost argument of linear programming.
    """
    found: list[Pattern] = []
    for kind, (length, price, _) in enumerate(rolls):
        need = price - duals.rolls[kind] - gap - 1e-7
        for counts in _worth_at_least(need, length, lengths, demand, duals.pieces):
            found.append(Pattern(kind, counts))
            if len(found) >= PATTERN_LIMIT:
                return found, False
    return found, True


def whole_roll_bound(lengths: Sequence[int], demand: Sequence[int], rolls: Sequence[Roll], duals: Duals) -> float:
    """The least price of whole rolls that hold all pieces by length, and by the worth the linear program gives them.

    Args: lengths, demand, rolls: as lp_patterns. duals: its prices.
    Returns: price that no plan can beat.
    Valid: as lp_patterns.
    Source: a roll yields no more worth than its best pattern; integer program over the counts of rolls.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    best = [worth for _, worth in _best_patterns(rolls, lengths, demand, duals.pieces)]
    holds = np.array([[float(roll[0]) for roll in rolls], best])
    wanted = [sum(map(mul, lengths, demand)), sum(map(mul, duals.pieces, demand)) - 1e-6]
    answer = milp(
        np.array([roll[1] for roll in rolls]),
        constraints=LinearConstraint(holds, lb=wanted, ub=np.inf),
        integrality=np.ones(len(rolls), int),
        bounds=Bounds(0.0, [np.inf if roll[2] is None else float(roll[2]) for roll in rolls]),
        options={"mip_rel_gap": 0.0},
    )
    return float(answer.mip_dual_bound or 0.0)


def _relaxed(
    columns: Sequence[Pattern], demand: Sequence[int], rolls: Sequence[Roll]
) -> tuple[list[float], float, Duals]:
    """Least price with fractions of rolls allowed, and the dual prices. A fine for pieces not cut keeps it solvable."""
    import numpy as np
    from scipy.optimize import linprog

    fine = 1e3 * (1.0 + max(roll[1] for roll in rolls))
    price = np.array([*(rolls[pattern.roll][1] for pattern in columns), *[fine] * len(demand)])
    yields = np.hstack([np.array([pattern.counts for pattern in columns], float).T, np.eye(len(demand))])
    limited = [kind for kind, roll in enumerate(rolls) if roll[2] is not None]
    uses = [[float(pattern.roll == kind) for pattern in columns] + [0.0] * len(demand) for kind in limited]
    at_most = [-float(count) for count in demand] + [float(roll[2]) for roll in rolls if roll[2] is not None]
    answer = linprog(price, A_ub=np.vstack([-yields, *([uses] if uses else [])]), b_ub=at_most, method="highs")
    if answer.x is None or answer.fun is None:
        raise RuntimeError(f"the linear program of the cutting failed: {answer.message}")
    marginals = answer.ineqlin.marginals
    paid = dict(zip(limited, marginals[len(demand) :], strict=True))
    pieces = tuple(max(0.0, -float(value)) for value in marginals[: len(demand)])
    times = [float(n) for n in answer.x[: len(columns)]]
    return times, float(answer.fun), Duals(pieces, tuple(float(paid.get(kind, 0.0)) for kind in range(len(rolls))))


def _best_patterns(
    rolls: Sequence[Roll], lengths: Sequence[int], demand: Sequence[int], worth: Sequence[float]
) -> list[tuple[Pattern, float]]:
    """The pattern of most worth in each kind of roll, and its worth: one bounded knapsack, counts in doubling lots."""
    import numpy as np

    longest = max(roll[0] for roll in rolls)
    lots = [(i, lot) for i in range(len(lengths)) for lot in _lots(min(demand[i], longest // lengths[i]))]
    best = np.zeros(longest + 1)
    taken = np.zeros((len(lots), longest + 1), bool)
    for (i, lot), take in zip(lots, taken, strict=True):
        size = lot * lengths[i]
        with_lot = best[: longest + 1 - size] + lot * worth[i]
        take[size:] = with_lot > best[size:] + _SMALL
        best[size:] = np.where(take[size:], with_lot, best[size:])
    answers = []
    for kind, (length, _, _) in enumerate(rolls):
        counts, room = [0] * len(lengths), length
        for (i, lot), take in zip(reversed(lots), taken[::-1], strict=True):
            if take[room]:
                counts[i] += lot
                room -= lot * lengths[i]
        answers.append((Pattern(kind, tuple(counts)), float(best[length])))
    return answers


def _lots(count: int) -> list[int]:
    """Doubling lots that can make any number up to the count."""
    lots, lot = [], 1
    while count > 0:
        lots.append(min(lot, count))
        count -= lots[-1]
        lot *= 2
    return lots


def _worth_at_least(
    need: float, length: int, lengths: Sequence[int], demand: Sequence[int], worth: Sequence[float]
) -> Iterator[tuple[int, ...]]:
    """Every full pattern worth at least so much, deepest first, cut short where what is left cannot reach it."""
    best_rate = [0.0] * (len(lengths) + 1)
    for i in range(len(lengths) - 1, -1, -1):
        best_rate[i] = max(best_rate[i + 1], worth[i] / lengths[i])

    def grow(i: int, room: int, value: float, counts: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if value + room * best_rate[i] < need:
            return
        if i == len(lengths):
            if all(room < size or count == most for size, count, most in zip(lengths, counts, demand, strict=True)):
                yield counts
            return
        for count in range(min(demand[i], room // lengths[i]), -1, -1):
            yield from grow(i + 1, room - count * lengths[i], value + count * worth[i], (*counts, count))

    return grow(0, length, 0.0, ())
