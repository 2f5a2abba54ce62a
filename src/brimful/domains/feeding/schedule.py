"""The feed plan: what to weigh and what goes in the tank, for each zone and week."""

from collections.abc import Sequence

from brimful.domains.feeding.injector import Ratio, stock_g_l, stock_volume_l
from brimful.domains.feeding.soluble import feed_g_l
from brimful.records import record

DRENCH_PPM = (200.0, 300.0)  # weekly, annual planters without coated feed; common practice, no source
WITH_COATED = 0.5  # half strength where coated feed is in the mix; common practice, no source


@record
class Feeding:
    """One feeding of one zone: when, how many containers, how much solution each gets and how strong."""

    zone: str
    week: int
    containers: int
    solution_l_each: float
    nitrogen_ppm: float


@record
class TankFill:
    """What one feeding takes: dry feed, stock to mix and its strength, and the nitrogen each container gets."""

    zone: str
    week: int
    solution_l: float
    feed_g: float
    stock_l: float
    stock_strength_g_l: float
    nitrogen_g_each: float


def tank_fill(feeding: Feeding, nitrogen_percent: float, *, ratio: float, convention: Ratio) -> TankFill:
    """What to weigh and mix for one feeding of one zone [g, L].

    Formula: solution = containers × litres each; feed = solution × g/L; stock = solution ÷ dilution.
    Args: feeding: zone, week, containers, litres each, ppm N. nitrogen_percent: label N [%].
        ratio: R of 1:R; 1, of final, where the feed goes straight in the tank. convention: what the ratio counts.
    Returns: amounts of feed [g], stock [L] and nitrogen per container [g].
    Valid: containers ≥ 0, litres ≥ 0, ratio ≥ 1.
    Source: conservation of mass.
    """
    if feeding.containers < 0 or not feeding.solution_l_each >= 0.0:
        raise ValueError(f"a feeding needs 0 or more containers and litres, got {feeding}")
    solution_l = feeding.containers * feeding.solution_l_each
    strength = feed_g_l(feeding.nitrogen_ppm, nitrogen_percent)
    return TankFill(
        zone=feeding.zone,
        week=feeding.week,
        solution_l=solution_l,
        feed_g=solution_l * strength,
        stock_l=stock_volume_l(solution_l, ratio, convention),
        stock_strength_g_l=stock_g_l(strength, ratio, convention),
        nitrogen_g_each=feeding.solution_l_each * feeding.nitrogen_ppm / 1000.0,
    )


def feed_plan(
    feedings: Sequence[Feeding], nitrogen_percent: float, *, ratio: float, convention: Ratio
) -> tuple[TankFill, ...]:
    """What to weigh and mix, week by week and zone by zone [g, L].

    Args: feedings: in any order. nitrogen_percent: label N [%]. ratio, convention: of the injector.
    Returns: one tank fill for each feeding, by week, then zone.
    Valid: as tank_fill.
    Source: conservation of mass.
    """
    fills = (tank_fill(feeding, nitrogen_percent, ratio=ratio, convention=convention) for feeding in feedings)
    return tuple(sorted(fills, key=lambda fill: (fill.week, fill.zone)))


def drench_ppm(nitrogen_g: float, solution_l: float) -> float:
    """Strength that carries so much nitrogen in so much solution [mg N/L].

    Formula: ppm = 1000 × g N ÷ L.
    Args: nitrogen_g: to give one container [g N]. solution_l: it gets [L].
    Returns: nitrogen strength [mg/L].
    Valid: nitrogen_g ≥ 0, solution_l > 0.
    Source: definition.
    """
    if not (nitrogen_g >= 0.0 and solution_l > 0.0):
        raise ValueError(f"nitrogen {nitrogen_g:g} g in {solution_l:g} L; expected 0 or more in more than 0")
    return 1000.0 * nitrogen_g / solution_l
