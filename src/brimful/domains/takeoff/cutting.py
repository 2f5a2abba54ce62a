"""Cutting tube from rolls: the plan that buys the least, proven so (integer program over cutting patterns)."""

from collections import Counter
from collections.abc import Sequence
from math import ceil, floor, gcd

from brimful.domains.takeoff.patterns import Pattern, Roll, cheap_patterns, dive, lp_patterns, whole_roll_bound
from brimful.records import record

FINE_PER_M = 10_000.0  # tenths of a millimetre: whole inches and whole centimetres are both exact
CM_FINE = 100
GRID_MOST = 20_000  # grid steps in the longest roll, above which lengths go to the next centimetre
NODE_LIMIT = 50  # of the integer program: awkward prices of several kinds end with a stated gap, not a long wait
_SMALL = 1e-6


Chosen = list[tuple[Pattern, int]]


@record
class Stock:
    """One kind of roll, stick or offcut: length [m], price of one, and how many there are (None: as many as wanted)."""

    name: str
    length_m: float
    price: float
    available: int | None = None


@record
class Piece:
    """One length wanted, with its label for the cut list [m]."""

    label: str
    length_m: float


@record
class CutRoll:
    """One roll opened: the pieces cut from it in order, and the offcut left [m]."""

    stock: Stock
    pieces: tuple[Piece, ...]
    offcut_m: float


@record
class CutPlan:
    """Which rolls to open and what to cut from each, its price, a bound no plan can beat, and whether it meets that."""

    rolls: tuple[CutRoll, ...]
    price: float
    lower_bound: float
    proven: bool

    @property
    def offcuts_m(self) -> tuple[float, ...]:
        """Lengths left over, longest first [m]."""
        return tuple(sorted((roll.offcut_m for roll in self.rolls), reverse=True))


def cut_plan(pieces: Sequence[Piece], stocks: Sequence[Stock]) -> CutPlan:
    """The cheapest rolls to open for all pieces, what to cut from each, and the proof that nothing is cheaper [price].

    Formula: least Σ price × rolls over cutting patterns that yield every piece; patterns come from the linear program's
    prices, then all patterns within its gap are added, so that the integer program over them is exact.
    Args: pieces: lengths wanted [m]. stocks: rolls with price; give length as price to waste the least tube.
    Returns: the rolls with their pieces and offcuts, price, lower bound, and whether the plan is proven cheapest.
    Valid: every piece fits some roll; exact for whole inches or centimetres, else to 1 cm.
    Source: column generation for cutting stock, Gilmore and Gomory (1961), from memory.
    """
    if not pieces:
        return CutPlan((), 0.0, 0.0, True)
    _check(pieces, stocks)
    step_m = _grid_m(pieces, stocks)
    wanted = Counter(_steps(piece, step_m) for piece in pieces)
    lengths = sorted(wanted, reverse=True)
    demand = [wanted[length] for length in lengths]
    rolls = [(floor(stock.length_m / step_m + _SMALL), stock.price, stock.available) for stock in stocks]
    relaxed = lp_patterns(lengths, demand, rolls)
    step = _price_step(stocks)
    bound = _next_price(max(relaxed.price, whole_roll_bound(lengths, demand, rolls, relaxed.duals)), step)
    dived, columns = dive(lengths, demand, rolls, relaxed)
    chosen = _cheaper(list(dived.items()) or None, _first_fit(lengths, demand, rolls), stocks)
    if chosen is None or _price(chosen, stocks) > bound + step / 2:
        chosen = _cheaper(chosen, _whole_rolls(columns, demand, rolls)[0], stocks)
    if chosen is None or _price(chosen, stocks) > bound + step / 2:
        most = _price(chosen, stocks) if chosen else sum(len(pieces) * stock.price for stock in stocks)
        more, complete = cheap_patterns(lengths, demand, rolls, relaxed.duals, gap=most - bound)
        if complete:
            better, reached = _whole_rolls(sorted({*columns, *more}), demand, rolls)
            chosen, bound = _cheaper(chosen, better, stocks), max(bound, _next_price(reached, step))
    if chosen is None:
        raise ValueError("the rolls there are do not yield all pieces; expected more of them, or a kind without limit")
    opened = _cut_list(chosen, pieces, lengths, stocks, step_m=step_m)
    price = sum(roll.stock.price for roll in opened)
    proven = price <= bound + step / 2
    return CutPlan(opened, price, price if proven else bound, proven)


def pieces_with_couplers(length_m: float, roll_m: float) -> tuple[tuple[float, ...], int]:
    """A length longer than the roll as whole rolls and a rest, and the couplers that join them [m, count].

    Args: length_m: wanted [m]. roll_m: longest roll [m].
    Returns: lengths to cut, couplers.
    Valid: both > 0.
    Source: definition.

    >>> pieces_with_couplers(70, 30)
    ((30, 30, 10), 2)
    """
    if not min(length_m, roll_m) > 0.0:
        raise ValueError(f"length {length_m:g} m from rolls of {roll_m:g} m; expected both above 0")
    whole = ceil(length_m / roll_m - _SMALL) - 1
    return (*[roll_m] * whole, length_m - whole * roll_m), whole


def _check(pieces: Sequence[Piece], stocks: Sequence[Stock]) -> None:
    longest = max((stock.length_m for stock in stocks), default=0.0)
    for piece in pieces:
        if not 0.0 < piece.length_m <= longest + _SMALL:
            raise ValueError(f"piece {piece.label} of {piece.length_m:g} m; expected above 0 and at most {longest:g} m")
    for stock in stocks:
        if not (stock.length_m > 0.0 and stock.price >= 0.0 and (stock.available or 0) >= 0):
            raise ValueError(f"a roll is expected to have a length above 0, price and count of 0 or more, got {stock}")


def _grid_m(pieces: Sequence[Piece], stocks: Sequence[Stock]) -> float:
    """The longest step that all lengths are whole numbers of; a centimetre where that would be too fine."""
    lengths = [*(piece.length_m for piece in pieces), *(stock.length_m for stock in stocks)]
    fine = gcd(*(round(length * FINE_PER_M) for length in lengths))
    return (fine if fine and max(lengths) * FINE_PER_M / fine <= GRID_MOST else CM_FINE) / FINE_PER_M


def _steps(piece: Piece, step_m: float) -> int:
    return ceil(piece.length_m / step_m - _SMALL)


def _price_step(stocks: Sequence[Stock]) -> float:
    """Every possible price is a multiple of this, as long as prices are given to a thousandth."""
    return max(1, gcd(*(round(stock.price * 1000) for stock in stocks))) / 1000.0


def _next_price(bound: float, step: float) -> float:
    return ceil(bound / step - _SMALL) * step


def _price(chosen: Chosen, stocks: Sequence[Stock]) -> float:
    return sum(stocks[pattern.roll].price * times for pattern, times in chosen)


def _cheaper(one: Chosen | None, other: Chosen | None, stocks: Sequence[Stock]) -> Chosen | None:
    return min((plan for plan in (one, other) if plan), key=lambda plan: _price(plan, stocks), default=None)


def _first_fit(lengths: Sequence[int], demand: Sequence[int], rolls: Sequence[Roll]) -> Chosen | None:
    """The longest pieces first, each into the first roll with room; of the kinds without limit the cheapest way.

    Where many short pieces come from long rolls this often meets the bound that the linear program's patterns miss.
    """
    ways = []
    for kind, (length, price, available) in enumerate(rolls):
        if available is not None or length < lengths[0]:
            continue
        opened: list[list[int]] = []
        room: list[int] = []
        for i, wanted in enumerate(lengths):
            for _ in range(demand[i]):
                at = next((k for k, free in enumerate(room) if free >= wanted), len(room))
                if at == len(room):
                    opened.append([0] * len(lengths))
                    room.append(length)
                opened[at][i] += 1
                room[at] -= wanted
        ways.append((len(opened) * price, Counter(Pattern(kind, tuple(counts)) for counts in opened)))
    return list(min(ways, key=lambda way: way[0])[1].items()) if ways else None


def _whole_rolls(
    columns: Sequence[Pattern], demand: Sequence[int], rolls: Sequence[Roll]
) -> tuple[Chosen | None, float]:
    """The cheapest whole rolls of each pattern found (None where there is no way), and a bound over these patterns."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    yields = np.array([pattern.counts for pattern in columns], float).T
    limits = [LinearConstraint(yields, lb=np.array(demand, float), ub=np.inf)]
    for kind, (_, _, available) in enumerate(rolls):
        if available is not None:
            uses = np.array([[float(pattern.roll == kind) for pattern in columns]])
            limits.append(LinearConstraint(uses, lb=-np.inf, ub=float(available)))
    answer = milp(
        np.array([rolls[pattern.roll][1] for pattern in columns]),
        constraints=limits,
        integrality=np.ones(len(columns), int),
        bounds=Bounds(0.0, np.inf),
        options={"mip_rel_gap": 0.0, "node_limit": NODE_LIMIT, "presolve": False},
    )
    if answer.x is None:
        return None, 0.0
    times = [(pattern, round(n)) for pattern, n in zip(columns, answer.x, strict=True)]
    return [(pattern, n) for pattern, n in times if n > 0], float(answer.mip_dual_bound or 0.0)


def _cut_list(
    chosen: Chosen,
    pieces: Sequence[Piece],
    lengths: Sequence[int],
    stocks: Sequence[Stock],
    *,
    step_m: float,
) -> tuple[CutRoll, ...]:
    """Labels dealt out to the patterns in order; a pattern's surplus pieces stay on the roll as offcut."""
    waiting = {length: [piece for piece in pieces if _steps(piece, step_m) == length] for length in lengths}
    opened: list[CutRoll] = []
    for pattern, times in chosen:
        stock = stocks[pattern.roll]
        for _ in range(times):
            cut = [
                waiting[length].pop(0)
                for length, count in zip(lengths, pattern.counts, strict=True)
                for _ in range(min(count, len(waiting[length])))
            ]
            if cut:
                opened.append(_on_cheapest(cut, stock, stocks))
    return tuple(opened)


def _on_cheapest(cut: Sequence[Piece], planned: Stock, stocks: Sequence[Stock]) -> CutRoll:
    """The same pieces from a cheaper kind that can be had without limit, where they fit on it."""
    used = sum(piece.length_m for piece in cut)
    fits = [stock for stock in stocks if stock.available is None and stock.length_m >= used - _SMALL]
    stock = min([planned, *fits], key=lambda stock: stock.price)
    return CutRoll(stock, tuple(cut), stock.length_m - used)
