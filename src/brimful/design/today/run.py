"""How long each zone runs today, and why that is not what the printed table says."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from brimful.design.season.model import WeekWorked
from brimful.design.season.zones import ZoneWeeks
from brimful.design.today.days import Sky, days_until_water, permitted
from brimful.design.today.model import ByHand, ZoneToday
from brimful.domains.learning import LOOK_SHARE, Belief, Days, Site
from brimful.domains.watering.day import DayNeed, DayRun, run_of_day
from brimful.domains.watering.season import FloatArray
from brimful.domains.watering.settings import Wanted
from brimful.records import record

IntArray = NDArray[np.int64]
RAIN_TRUST = 0.5
"""Share of foretold rain that is counted on (common practice, no source)."""
WORTH_SAYING = 0.10
LEAST_SUPPLY = 0.05
LEAST_L = 0.05
"""Less than this nobody carries."""
BROKEN_SUPPLY = 0.5
"""A container that gets less than this share of its water is watered by hand until it is put right."""


@record
class Morning:
    """What is known on the morning of one day of the season."""

    today: int
    belief: Belief
    site: Site
    days: Days
    sky: Sky
    usual: Days
    """The days as the printed table counts on them."""
    usual_held_l: FloatArray
    """What each would hold now if all had gone as designed."""
    wanted: Wanted
    names: tuple[str, ...]
    zone_of: tuple[str, ...]


def zone_today(morning: Morning, zone: ZoneWeeks) -> ZoneToday:
    """The zone's minutes of today with what set them; its starts get their hours by the clock of all zones."""
    at = np.array([i for i, name in enumerate(morning.zone_of) if name == zone.zone])
    week = zone.weeks[min(morning.today // 7, len(zone.weeks) - 1)]
    broken = _broken(morning.belief, at)
    allowed, usual_min = permitted(morning.wanted, morning.today), week.starts_per_day_count * week.minutes_per_start
    need = _need(morning, at, broken, float(usual_min))
    run = run_of_day(need, morning.wanted.timer, max(week.starts_per_day_count, 1))
    minutes, starts = (run.minutes, run.starts) if allowed else (0, 0)
    lacking = run.by_hand_l if allowed else np.where(run.by_hand_l > 0.0, run.wanted_l, 0.0)
    by_hand = tuple(
        ByHand(morning.names[i], float(lacks), bool(out))
        for i, lacks, out in zip(at, lacking, broken, strict=True)
        if lacks > LEAST_L
    )
    return ZoneToday(
        zone.zone,
        ("",) * starts,
        minutes,
        minutes * starts,
        week.starts_per_day_count,
        week.minutes_per_start,
        morning.names[at[run.ruling]],
        run.short_l if allowed else float(run.wanted_l[run.ruling]),
        by_hand,
        (*_why(morning, week, run, at, allowed=allowed), *_why_by_hand(by_hand)),
    )


def _broken(belief: Belief, at: IntArray) -> NDArray[np.bool_]:
    """Containers that are likely out of order and get little: they do not rule the run."""
    broken: NDArray[np.bool_] = (belief.causes[at, 0] < 1.0 - LOOK_SHARE) & (
        belief.supply_factor.mean[at] < BROKEN_SUPPLY
    )
    return broken


def _need(morning: Morning, at: IntArray, broken: NDArray[np.bool_], usual_min: float) -> DayNeed:
    """What the zone's containers want before water may run again, beside what the table counts on."""
    belief, site, days, today = morning.belief, morning.site, morning.days, morning.today
    ahead = slice(today, today + days_until_water(morning.wanted, today))
    usual = _drawn(morning.usual, ahead, at)
    fall = days.rain_mm[ahead, None] * days.rain_litres_per_mm[ahead][:, at]
    foretold = np.where(morning.sky.known[ahead], RAIN_TRUST, 1.0)[:, None] * fall
    counted = morning.usual.rain_mm[ahead, None] * morning.usual.rain_litres_per_mm[ahead][:, at]
    held = site.capacity_l[at]
    return DayNeed(
        usual_l=usual_min / 60.0 * site.flow_l_h[at],
        usual_held_l=morning.usual_held_l[at],
        usual_demand_l=usual,
        held_l=belief.store_share.middle[at] * held,
        demand_l=_drawn(days, ahead, at) * belief.demand_factor.middle[at],
        rain_l=(foretold - counted).sum(axis=0),
        capacity_l=held,
        arrives_l_h=site.flow_l_h[at] * np.maximum(belief.supply_factor.middle[at], LEAST_SUPPLY),
        rules=1.0 - broken.astype(np.float64),
    )


def _drawn(days: Days, ahead: slice, at: IntArray) -> FloatArray:
    """What is drawn from the hour of reading on until water may run again, at demand factor 1 [L]."""
    rest = np.ones(ahead.stop - ahead.start)
    rest[0] = 1.0 - days.read_share
    drawn: FloatArray = (rest[:, None] * days.demand_l[ahead][:, at]).sum(axis=0)
    return drawn


def _why(morning: Morning, week: WeekWorked, run: DayRun, at: IntArray, *, allowed: bool) -> Iterator[str]:
    """Reasons that matter, in words."""
    sky, today, ruling = morning.sky, morning.today, at[run.ruling]
    if not allowed:
        yield "Today is not one of the days on which the timer may run."
    if sky.known[today]:
        share = sky.et0_mm[today] / max(week.et0_mm_day, 1e-9)
        if abs(share - 1.0) > WORTH_SAYING:
            kind = "thirstier" if share > 1 else "cooler"
            yield f"The day is {kind} than the week's mean: {100 * share:.0f} % of it."
    fell = float(sky.rain_mm[max(today - 2, 0) : today].sum())
    if fell > 1.0 and bool(sky.known[max(today - 2, 0) : today].any()):
        yield "Rain of the last two days is counted."
    name, belief = morning.names[ruling], morning.belief
    factor = float(belief.demand_factor.middle[ruling])
    if belief.demand_factor.low[ruling] > 1.0 or belief.demand_factor.high[ruling] < 1.0:
        yield f"{name} draws {100 * factor:.0f} % of what was planned, by what the readings say."
    held = 100 * float(belief.store_share.middle[ruling])
    usual = 100 * float(morning.usual_held_l[ruling] / morning.site.capacity_l[ruling])
    yield f"{name} sets the run: it is believed to hold {held:.0f} % of what it can; the table counts on {usual:.0f} %."


def _why_by_hand(by_hand: Sequence[ByHand]) -> Iterator[str]:
    """Why the driest do not lengthen the run."""
    few = sum(not one.out_of_order for one in by_hand)
    if few:
        drier = "One container is" if few == 1 else f"{few} containers are"
        yield f"{drier} far drier than the rest: by hand, since so long a run would drench all the others."
