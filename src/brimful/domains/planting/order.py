"""Plants to order, in whole trays with spares, and the dates that hang on planting day."""

import math
from collections.abc import Sequence
from datetime import date, timedelta

from brimful.domains.planting.taxon import Taxon
from brimful.records import record

SPARE_POTS, SPARE_PACKS, SPARE_PUBLIC = 0.05, 0.08, 0.10
"""Over count: pots of 4 in and larger; packs and plugs; public squares (common practice, no source)."""
SMALL_BALL_L = 0.25
LEAD_WEEKS = {
    "packs and plugs": (6, 14),
    "pots from seed": (8, 14),
    "pots from cuttings": (9, 14),
    "large pots": (11, 14),
    "baskets and tubs": (13, 14),
    "bulbs": (8, 14),
    "nursery stock": (4, 6),
}
"""Weeks before planting at the latest and at the earliest. Contract growing takes 6 to 14 weeks by species and size,
stock not on hand 4 to 6 (trade pages, read); bulbs are ordered in July and August (crop planner, read); the split is
the longest time to finish each kind: packs 4 to 6, 4-inch from seed 5 to 8, from cuttings 6 to 9, gallons 8 to 11,
baskets 10 to 13 (from memory: ask the grower)."""
LARGE_BALL_L, TUB_BALL_L = 1.2, 5.0
SLOW_WEEKS = 20.0
"""Plants so slow are bought at size, from a nursery's own stock (common practice, no source)."""
HARDENING_DAYS = 14
"""At least two weeks (master gardener handbook, read in quotation); 7 to 10 days is the short form (read)."""
CLASSES: dict[str, tuple[int, int]] = {
    "very hardy": (-42, -28),
    "frost tolerant": (-21, -14),
    "tender": (0, 7),
    "warm": (7, 14),
}
"""Days after the last frost date from which, and until when at best, a class is planted (Purdue HO-203 as copied
elsewhere, read, columns partly reconstructed; end of the tender class: own choice)."""
MIX_C = {"very hardy": 7.0, "frost tolerant": 7.0, "tender": 16.0, "warm": 18.0}
"""Temperature the mix should hold: cool plants 7 °C, warm ones 16 °C, heat lovers 18 °C (memory)."""
MIX_DAYS = 3


@record
class TrayOrder:
    """Plants needed, ordered in whole trays, and the spare that results as a share of those needed."""

    needed: int
    trays: int
    ordered: int
    spare_share: float


@record
class Dates:
    """When to place the order at the latest and at the earliest, when hardening starts, and planting day."""

    order_from: date
    order_by: date
    hardening: date | None
    planting: date


@record
class Window:
    """First and last good day to plant by frost and mix, what holds the first day, and whether a planned day fits."""

    first: date
    last: date
    held_by: str


def spare_share(ball_volume_l: float, *, public: bool = False) -> float:
    """Share of plants to order over count.

    Formula: 5 % for 4-inch and larger, 8 % for packs and plugs, 10 % where the public passes.

    Args:
        ball_volume_l: volume of the pot [L]; public: where plants are stolen or trampled
    Returns: share [1]
    Valid: known grower
    Source: common practice, no source
    """
    if not ball_volume_l > 0.0:
        raise ValueError(f"ball_volume_l is {ball_volume_l}: expected above 0")
    return SPARE_PUBLIC if public else SPARE_PACKS if ball_volume_l < SMALL_BALL_L else SPARE_POTS


def tray_order(needed: int, per_tray: int | None, spare: float, on_hand: int = 0) -> TrayOrder:
    """Plants to order, rounded up to whole trays after the spare is added and what is on hand taken off.

    Formula: trays = ⌈(⌈N (1 + p)⌉ − on hand) / cells⌉.

    Args:
        needed: plants in all containers; per_tray: cells, None where sold singly; spare: share over count [1];
        on_hand: plants that are there
    Returns: a TrayOrder; sold singly, a tray is one plant
    Valid: needed, spare and on hand of 0 or more
    Source: common practice, no source

    >>> tray_order(230, 18, 0.05).trays, tray_order(230, 18, 0.05).ordered
    (14, 252)
    """
    cells = 1 if per_tray is None else per_tray
    if needed < 0 or cells < 1 or not spare >= 0.0 or on_hand < 0:
        given = f"{needed} plants, {per_tray} a tray, spare {spare}, {on_hand} on hand were given"
        raise ValueError(f"{given}: expected 0 or more, 1 or more, 0 or more, 0 or more")
    wanted = math.ceil(round(needed * (1.0 + spare), 9))
    trays = max(0, math.ceil((wanted - on_hand) / cells))
    return TrayOrder(needed, trays, trays * cells, (on_hand + trays * cells) / needed - 1.0 if needed else 0.0)


def kind_of_good(taxon: Taxon, ball_volume_l: float) -> str:
    """How a plant is grown for sale, which sets how long ahead it is ordered.

    Formula: bulbs that are set dry; woody and slow plants from stock; the rest by the pot: packs and plugs below
    0.25 L, pots below 1.2 L, large pots below 5 L; annuals from seed, others from cuttings.

    Args:
        taxon: the plant; ball_volume_l: volume of its pot [L]
    Returns: a key of LEAD_WEEKS
    Valid: volume above 0
    Source: common practice, no source

    Raises: ValueError for a volume of 0 or less
    """
    if not ball_volume_l > 0.0:
        raise ValueError(f"ball_volume_l is {ball_volume_l}: expected above 0")
    if taxon.weeks_to_fill >= SLOW_WEEKS or taxon.life == "shrub":
        return "bulbs" if taxon.life == "bulb" else "nursery stock"
    if ball_volume_l < SMALL_BALL_L:
        return "packs and plugs"
    if ball_volume_l < LARGE_BALL_L:
        return "pots from seed" if taxon.life == "annual" else "pots from cuttings"
    return "large pots" if ball_volume_l < TUB_BALL_L else "baskets and tubs"


def order_dates(planting: date, lead: str = "pots from cuttings") -> Dates:
    """When to order and when to start hardening, counted back from planting day (practice of growers).

    Args:
        planting: day; lead: a kind of good, from kind_of_good
    Returns: Dates; what comes from stock or as bulbs has stood outside, and needs no hardening
    Valid: ask the grower; autumn is the time to plan for spring
    Source: contract growing 6–14 weeks, stock 4–6 (trade pages, read); hardening (handbook, read in quotation)

    >>> order_dates(date(2026, 5, 18)).order_by, order_dates(date(2026, 5, 18)).hardening
    (datetime.date(2026, 3, 16), datetime.date(2026, 5, 4))
    """
    if lead not in LEAD_WEEKS:
        raise ValueError(f'lead "{lead}" was given: expected one of {", ".join(LEAD_WEEKS)}')
    latest, earliest = (planting - timedelta(weeks=weeks) for weeks in LEAD_WEEKS[lead])
    hardening = None if lead in ("bulbs", "nursery stock") else planting - timedelta(days=HARDENING_DAYS)
    return Dates(earliest, latest, hardening, planting)


def hardiness_class(taxon: Taxon) -> str:
    """Frost class of a taxon: very hardy, frost tolerant, tender or warm, from its damaging temperature and season.

    Formula: cool-season plants hurt only at −8 °C or below are very hardy, others of them frost tolerant; other plants
    hurt above −1 °C are warm, the rest tender (our own rule).
    """
    if taxon.cold_season:
        return "very hardy" if taxon.min_temp_damage_c <= -8.0 else "frost tolerant"
    return "warm" if taxon.min_temp_damage_c > -1.0 else "tender"


def planting_window(hardiness: str, last_frost: date | None, mix_ready: date | None = None) -> Window:
    """Good days to plant a frost class in spring, by the last frost date and by when the mix is warm enough.

    Args:
        hardiness: a frost class; last_frost: mean or, safer, one-in-ten date of the last frost, None where there is no
        frost; mix_ready: from first_warm_mix, None where it is not known; one of them is needed
    Returns: a Window; where a cold mix holds back the start, it is moved as a whole
    Valid: spring planting; frost dates of the site
    Source: Purdue HO-203 as copied elsewhere (read, partly reconstructed)
    """
    if hardiness not in CLASSES:
        raise ValueError(f'frost class "{hardiness}" was given: expected one of {", ".join(CLASSES)}')
    start, end = CLASSES[hardiness]
    frost_gone = None if last_frost is None else last_frost + timedelta(days=start)
    if frost_gone is None and mix_ready is None:
        raise ValueError("neither last frost nor warm mix was given: expected one of them")
    firsts = [day for day in (frost_gone, mix_ready) if day is not None]
    first = max(firsts)
    return Window(first, first + timedelta(days=end - start), "frost" if first == frost_gone else "mix temperature")


def first_warm_mix(hardiness: str, days: Sequence[date], mix_mean_c: Sequence[float]) -> date | None:
    """First day on which the mix has held a frost class's temperature for three days, or None.

    Args:
        hardiness: a frost class; days, mix_mean_c: day by day [°C]
    Returns: date or None
    Valid: daily means
    Source: temperatures from memory; three days our own rule
    """
    if hardiness not in MIX_C or len(days) != len(mix_mean_c):
        raise ValueError(
            f'class "{hardiness}", {len(days)} days, {len(mix_mean_c)} means: expected a class, equal lengths'
        )
    held = 0
    for day, mean in zip(days, mix_mean_c, strict=True):
        held = held + 1 if mean >= MIX_C[hardiness] else 0
        if held == MIX_DAYS:
            return day
    return None
