"""Stage: tube from rolls: every length to cut, the rolls to open for them, and the offcuts."""

from collections.abc import Iterator, Mapping, Sequence

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import CutRollWorked, CutTubeWorked
from brimful.design.care.needs import largest_row
from brimful.domains.takeoff.cutting import CutPlan, Piece, Stock, cut_plan, pieces_with_couplers
from brimful.domains.takeoff.order import Need
from brimful.records import record

ON_HAND = "on hand"


@record
class TubeLength:
    """One length of tube to lay: of which kind, what for [m]."""

    key: str
    label: str
    length_m: float


def lengths_of(desk: CareDesk, *, more: int = 0) -> Iterator[TubeLength]:
    """Every length of tube of the job; with `more`, so many more containers at the end of the largest row."""
    for spec in desk.settled.zones:
        yield TubeLength(spec.zone.main.tube.name, f"main {spec.name}", spec.main_length_m)
        for lateral in spec.zone.laterals:
            along = [station.distance_m for station in lateral.stations]
            step = along[-1] - along[-2] if len(along) > 1 else along[-1]
            longer = more * step if lateral.name == largest_row(desk).name else 0.0
            yield TubeLength(lateral.tube.name, f"lateral {lateral.name}", along[-1] + longer)
    for row, worked in desk.rows:
        extra = more if row is largest_row(desk) else 0
        ids = (*row.ids, *(f"{row.name} {row.count + 1 + i}" for i in range(extra)))
        feeder = row.delivery.assembly.feeder
        for container in ids:
            if feeder is not None:
                yield TubeLength(feeder.tube.name, f"feeder {container}", row.delivery.feeder_length_m)
            if worked.tube is not None:
                yield TubeLength(row.delivery.emission_key, f"dripline {container}", worked.tube.dripline_cut_m)


def cuts_of(desk: CareDesk, on_hand: Mapping[str, float], *, more: int = 0) -> tuple[CutTubeWorked, ...]:
    """The cut list of each tube that the price table sells by the roll; what is on hand is cut first."""
    by_tube: dict[str, list[TubeLength]] = {}
    for length in lengths_of(desk, more=more):
        by_tube.setdefault(length.key, []).append(length)
    found = (_cut(desk, key, lengths, on_hand.get(key, 0.0), noted=not more) for key, lengths in by_tube.items())
    return tuple(one for one in found if one is not None)


def _cut(
    desk: CareDesk, key: str, lengths: Sequence[TubeLength], on_hand_m: float, *, noted: bool
) -> CutTubeWorked | None:
    price = desk.catalog.prices.get(key)
    if price is None or not price.rolls or price.per != "m":
        return None
    stocks = [Stock(f"{roll:g}", roll, round(roll * price.price, 2)) for roll in price.rolls]
    if on_hand_m > 0:
        stocks.append(Stock(ON_HAND, on_hand_m, 0.0, 1))
    pieces, couplers = _pieces(lengths, max(price.rolls))
    if noted:
        plan = desk.ledger.at("care", "cuts").work(key, cut_plan, pieces=tuple(pieces), stocks=tuple(stocks))
    else:
        plan = cut_plan(pieces, stocks)
    return _worked(desk, key, plan, couplers)


def _worked(desk: CareDesk, key: str, plan: CutPlan, couplers: int) -> CutTubeWorked:
    rolls = tuple(
        CutRollWorked(
            roll.stock.length_m,
            roll.stock.name == ON_HAND,
            tuple(piece.label for piece in roll.pieces),
            tuple(piece.length_m for piece in roll.pieces),
            roll.offcut_m,
        )
        for roll in sorted(plan.rolls, key=lambda roll: -roll.stock.length_m)
    )
    row = desk.catalog.tubing.get(key) or desk.catalog.driplines.get(key)
    name = row.name if row is not None else key
    return CutTubeWorked(key, name, rolls, couplers, plan.price, plan.lower_bound, plan.proven)


def _pieces(lengths: Sequence[TubeLength], roll_m: float) -> tuple[list[Piece], int]:
    """Lengths as pieces; one longer than the longest roll is made of several, joined by couplers."""
    pieces: list[Piece] = []
    couplers = 0
    for length in lengths:
        parts, joined = pieces_with_couplers(length.length_m, roll_m)
        couplers += joined
        names = [length.label] if len(parts) == 1 else [f"{length.label}, part {i}" for i in range(1, len(parts) + 1)]
        pieces += [Piece(name, part) for name, part in zip(names, parts, strict=True)]
    return pieces, couplers


def roll_needs(cuts: Sequence[CutTubeWorked]) -> Iterator[Need]:
    """The rolls to buy, as items of the order, and the couplers."""
    for cut in cuts:
        for roll_m in sorted({roll.roll_m for roll in cut.rolls if not roll.on_hand}):
            count = sum(roll.roll_m == roll_m and not roll.on_hand for roll in cut.rolls)
            yield Need(f"{cut.key} roll {roll_m:g}", "roll", count, "each", "cut list", whole=True)
        if cut.couplers_count:
            yield Need("barb-coupling", "fitting", cut.couplers_count, "each", cut.name, whole=True)
