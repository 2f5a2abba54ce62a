"""Nitrogen week by week: what is let out, fed, taken up and washed out of one container."""

from collections.abc import Sequence
from math import exp

from brimful.records import record

DRY_MATTER_G_L = 2.0  # plant dry matter made for each litre used, annuals outdoors; from memory, 1.5 to 3
NITROGEN_SHARE = 0.035  # nitrogen in leafy dry matter of bedding plants; from memory, 0.03 to 0.045
APPETITE_PPM = {  # constant feed by appetite, Michigan State University Extension (2025)
    "light": (100.0, 150.0),
    "medium": (150.0, 200.0),
    "heavy": (200.0, 300.0),
}


@record
class WeekIn:
    """One week's givings and takings before the balance: nitrogen in g for one container, water in L."""

    released_g: float
    fed_g: float
    demand_g: float
    drained_l: float
    held_l: float

    def __post_init__(self) -> None:
        if not (min(self.released_g, self.fed_g, self.demand_g, self.drained_l) >= 0.0 and self.held_l > 0.0):
            raise ValueError(f"a week of nitrogen needs amounts of 0 or more and water held above 0, got {self}")


@record
class WeekOut:
    """One week of the nitrogen balance [g N for one container], and the strength of the water left in the mix."""

    released_g: float
    fed_g: float
    demand_g: float
    taken_up_g: float
    drained_g: float
    stored_g: float
    solution_ppm: float

    @property
    def short_g(self) -> float:
        """Nitrogen the plants could have used and did not find [g]."""
        return self.demand_g - self.taken_up_g

    @property
    def drained_share(self) -> float:
        """Share of what came in this week that left with the drained water [0 up]; 0 where nothing came in."""
        came_in = self.released_g + self.fed_g
        return self.drained_g / came_in if came_in > 0.0 else 0.0


def nitrogen_demand_g(
    transpired_l: float, *, dry_matter_g_l: float = DRY_MATTER_G_L, nitrogen_share: float = NITROGEN_SHARE
) -> float:
    """Nitrogen a growing container wants for the water its plants use [g N].

    Formula: demand = water used × dry matter a litre × nitrogen in the dry matter.
    Args: transpired_l: water used by the plants [L]. dry_matter_g_l: made for each litre [g/L].
        nitrogen_share: nitrogen in dry matter [0 to 1].
    Returns: nitrogen [g].
    Valid: transpired_l ≥ 0; plants in growth.
    Source: both factors from memory (about 70 mg N a litre used); no table of uptake by bedding plant was found.
    """
    if not min(transpired_l, dry_matter_g_l, nitrogen_share) >= 0.0:
        raise ValueError("water used, dry matter and nitrogen share are expected to be 0 or more")
    return transpired_l * dry_matter_g_l * nitrogen_share


def nitrogen_balance(start_g: float, weeks: Sequence[WeekIn]) -> tuple[WeekOut, ...]:
    """The nitrogen in one container week by week: released + fed − taken up − drained [g N].

    Formula: in each week first comes in, then is taken up (no more than there is), then washes out of a well mixed
    store: drained = store × (1 − e^(−water drained / water held)).
    Args: start_g: in the mix at the start [g N]. weeks: what each week brings.
    Returns: one balance a week, with what is left and the strength of its solution [mg N/L].
    Valid: start_g ≥ 0; a mix without much loss to the air.
    Source: conservation of mass; well mixed reservoir.
    """
    if not start_g >= 0.0:
        raise ValueError(f"start_g is {start_g:g}; expected 0 or more")
    out: list[WeekOut] = []
    stored = start_g
    for week in weeks:
        out.append(_one_week(stored, week))
        stored = out[-1].stored_g
    return tuple(out)


def nitrogen_to_feed_g(
    start_g: float, weeks: Sequence[WeekIn], *, floor_ppm: float, most_g: float
) -> tuple[float, ...]:
    """Nitrogen to add each week, on top of the plan, so that the mix's solution ends no weaker than wanted [g N].

    Formula: feed = (floor × water held × e^(drained / held) + demand) − what is there and comes;
    never below 0 nor above the most.
    Args: start_g: in the mix [g N]. weeks: what each week brings. floor_ppm: wanted at the week's end [mg N/L].
        most_g: most nitrogen one week's watering can carry [g N].
    Returns: one amount a week [g N].
    Valid: start_g, floor_ppm, most_g ≥ 0.
    Source: the balance of nitrogen_balance, turned round.
    """
    if not min(start_g, floor_ppm, most_g) >= 0.0:
        raise ValueError("start, floor and most are expected to be 0 or more")
    extra: list[float] = []
    stored = start_g
    for week in weeks:
        floor_g = floor_ppm * week.held_l / 1000.0
        wanted = floor_g * exp(week.drained_l / week.held_l) + week.demand_g
        more = min(most_g, max(0.0, wanted - stored - week.released_g - week.fed_g))
        extra.append(more)
        stored = _one_week(stored + more, week).stored_g
    return tuple(extra)


def _one_week(stored_g: float, week: WeekIn) -> WeekOut:
    there = stored_g + week.released_g + week.fed_g
    taken_up = min(week.demand_g, there)
    left = there - taken_up
    kept = left * exp(-week.drained_l / week.held_l)
    return WeekOut(week.released_g, week.fed_g, week.demand_g, taken_up, left - kept, kept, 1000.0 * kept / week.held_l)
