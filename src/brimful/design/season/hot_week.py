"""The mix hour by hour through the hottest week, where it comes nearest to running short."""

import numpy as np

from brimful.design.season.model import HotWeekWorked
from brimful.design.season.telling import FloatArray, Inputs, Telling
from brimful.design.season.years import words_of
from brimful.domains.watering.hourly import levels_by_hour
from brimful.domains.watering.schedule import WEEK_DAYS, Outcome
from brimful.domains.watering.season import Season, Store
from brimful.domains.watering.settings import pulses_of_week


def hot_week_of(
    telling: list[Telling], store: Store, season: Season, *, outcome: Outcome, inputs: Inputs
) -> HotWeekWorked | None:
    """The whole week with the most ET0, of the telling container that falls lowest for its refill level in it."""
    weeks = season.rain_mm.shape[0] // WEEK_DAYS
    if weeks == 0:
        return None
    et0 = inputs.years.et0_mm[: weeks * WEEK_DAYS].reshape(weeks, -1).mean(axis=1)
    week = int(et0.argmax())
    lowest = outcome.balance.lowest_l[week]
    at = int((lowest / store.refill_l).min(axis=0).argmin())
    flow = np.array([telling[at].water.flow_l_h])
    first, wanted = week * WEEK_DAYS, inputs.wanted
    pulses = pulses_of_week(outcome.settings[week], flow, first_day=first, days=WEEK_DAYS, wanted=wanted)
    start = outcome.balance.start_l[week][:, [at]]
    levels = levels_by_hour(_one(store, at), _week_of(season, first, at), pulses, start)[:, :, 0]
    order = np.argsort(lowest[:, at], kind="stable")
    return HotWeekWorked(
        telling[at].water.container,
        words_of(int(inputs.years.day_of_year[first])),
        tuple(sorted({hour for starts in pulses for hour, _ in starts})) if outcome.settings[week].minutes else (),
        float(store.capacity_l[at]),
        float(store.refill_l[at]),
        float(store.stress_l[at]),
        tuple(levels[:, order[order.size // 2]].tolist()),
        tuple(levels[:, order[0]].tolist()),
    )


def _one(store: Store, at: int) -> Store:
    """One container of a store."""
    one = slice(at, at + 1)
    return Store(
        store.capacity_l[one], store.refill_l[one], store.stress_l[one], store.dry_l[one], store.dry_capture[one]
    )


def _week_of(season: Season, first: int, at: int) -> Season:
    """A week of one container of a season."""
    days, one = slice(first, first + WEEK_DAYS), slice(at, at + 1)
    et0: FloatArray = season.et0_mm[days] if season.et0_mm.ndim == 2 else season.et0_mm[days, :, one]
    hours = season.hour_shares
    return Season(
        et0,
        season.litres_per_mm[days, one],
        season.rain_mm[days],
        season.rain_litres_per_mm[days, one],
        hours if hours.ndim == 1 else hours[days],
        season.rain_hour,
    )
