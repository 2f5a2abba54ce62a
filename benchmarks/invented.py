"""Invented seasons whose truth is known: what a crew would have read, and what really went on.

The truth is walked hour by hour with the season's own store, from spreads and faults that are not the filter's: other
shapes, other sizes, factors that drift with the weeks, weather the plan did not expect, readings wrong more often.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from brimful.domains.learning import CAUSE_KEYS, Days, Reading, Site
from brimful.domains.watering.season import Season, Store, daylight_shares
from brimful.domains.watering.store import run_store

DAYS, ROW, ROWS = 180, 10, 2
CONTAINERS = ROW * ROWS
READ_HOUR, EVENING, MORNING = 10, 19, 5
WEEK, MONTH = 7, 30


@dataclass(frozen=True)
class Fault:
    """What befalls one container: within these ranges, at once or over up to so many days."""

    supply: tuple[float, float] = (1.0, 1.0)
    demand: tuple[float, float] = (1.0, 1.0)
    metered: tuple[float, float] | None = None
    """Times what the meter counts for it; as the supply if None."""
    room: tuple[float, float] = (1.0, 1.0)
    longest_days: float = 0.0


FAULTS = dict(
    zip(
        CAUSE_KEYS[1:],
        (
            Fault(supply=(0.1, 0.6), longest_days=14),
            Fault(supply=(0.1, 0.7), metered=(1.2, 3.0), longest_days=3),
            Fault(supply=(0.0, 0.08)),
            Fault(demand=(1.2, 1.7), longest_days=30),
            Fault(demand=(0.35, 0.75), longest_days=30),
            Fault(demand=(1.4, 2.2), longest_days=14),
            Fault(room=(1.15, 1.45)),
        ),
        strict=True,
    )
)


@dataclass(frozen=True)
class Crew:
    """How often a crew reads: chances a day for each container, days between, and how many at a time."""

    visit: float = 1 / 3
    by_probe: float = 0.1
    """Share of the visits at which a probe is used in place of a finger."""
    wrong: float = 0.1
    """Share of finger tests and probes that tell nothing."""
    weighed_every: int = 14
    weighed: int = 2
    caught_every: int = MONTH
    caught: int = 3
    metered_every: int = WEEK
    """0 for never."""


@dataclass(frozen=True)
class Truth:
    """One invented season: what the filter is told, and what it is not."""

    site: Site
    days: Days
    readings: list[Reading]
    water_share: Any
    """(days, containers) at the hour of reading."""
    demand: Any
    supply: Any
    culprit: int
    cause: str
    onset: int


def make_truth(seed: int, cause: str, crew: Crew) -> Truth:
    """A season in which one container among twenty is befallen by one cause."""
    draw = np.random.default_rng(seed)
    site = make_site(draw)
    et0, told_et0, rain = make_weather(draw)
    litres_per_mm = 0.42 * site.capacity_l / 5.0
    planned = told_et0[:, None] * litres_per_mm
    minutes = weekly_minutes(told_et0, site.flow_l_h, litres_per_mm)
    days = Days(planned, minutes, rain, np.full(planned.shape, 0.12), morning_share=0.7, read_share=0.2)
    demand, supply = make_factors(draw)
    culprit, onset, fault = int(draw.integers(CONTAINERS)), int(draw.integers(40, 120)), FAULTS[cause]
    ramp = np.clip((np.arange(DAYS) - onset) / max(draw.uniform(0, fault.longest_days), 0.1), 0.0, 1.0)
    metered = supply.copy()
    thirst, given = (1.0 + ramp * (draw.uniform(*ends) - 1.0) for ends in (fault.demand, fault.supply))
    demand[:, culprit] *= thirst
    supply[:, culprit] *= given
    metered[:, culprit] *= given if fault.metered is None else 1.0 + ramp * (draw.uniform(*fault.metered) - 1.0)
    water = true_water(
        site,
        season_by_the_hour(et0, rain, demand * litres_per_mm),
        supply * minutes * site.flow_l_h / 60.0,
        onset=onset,
        room=1.0 + np.eye(CONTAINERS)[culprit] * (draw.uniform(*fault.room) - 1.0),
    )
    share = water / site.capacity_l
    told = make_readings(draw, share, site, crew)
    told += make_catches(draw, supply * site.flow_l_h, crew)
    told += make_meter(draw, (metered * minutes * site.flow_l_h / 60.0).sum(axis=1), crew)
    return Truth(site, days, told, share, demand, supply, culprit, cause, onset)


def make_site(draw: Any) -> Site:
    """Two rows of ten on one zone."""
    capacity = np.repeat(draw.uniform(6.0, 25.0, ROWS), ROW)
    row = np.repeat(np.arange(ROWS), ROW)
    return Site(
        capacity_l=capacity,
        stress_l=0.4 * capacity,
        flow_l_h=0.8 * capacity,
        row=row,
        zone=np.zeros_like(row),
        empty_kg=1.2 * capacity,
        dry_l=0.3 * capacity,
        dry_capture=np.full(CONTAINERS, 0.6),
    )


def make_weather(draw: Any) -> tuple[Any, Any, Any]:
    """ET0 as it was and as the plan thinks it was [mm/day], and rain [mm], each (days,)."""
    course = 3.2 + 2.3 * np.sin(np.pi * (np.arange(DAYS) + 10.0) / 200.0)
    persist = np.zeros(DAYS)
    for day in range(1, DAYS):
        persist[day] = 0.6 * persist[day - 1] + 0.18 * draw.standard_normal()
    wet = draw.random(DAYS) < 0.2
    rain = np.where(wet, draw.gamma(0.8, 6.0, DAYS), 0.0)
    et0 = np.maximum(course * np.exp(persist) * np.where(wet, 0.6, 1.0), 0.5)
    return et0, et0 * (1.0 + draw.uniform(-0.15, 0.15, DAYS)), rain


def weekly_minutes(et0: Any, flow_l_h: Any, litres_per_mm: Any) -> Any:
    """Minutes a day, set each week to a third more than the plan's demand, (days, containers)."""
    weeks = np.arange(DAYS) // WEEK
    mean = np.array([et0[weeks == week].mean() for week in weeks])
    return np.ceil(1.33 * 60.0 * mean[:, None] * (litres_per_mm / flow_l_h))


def make_factors(draw: Any) -> tuple[Any, Any]:
    """True factors of demand and supply, (days, containers): rows differ, containers differ, weeks differ."""
    row = np.repeat(draw.uniform(0.75, 1.3, ROWS), ROW)
    phase, period = draw.uniform(0, 2 * np.pi, CONTAINERS), draw.uniform(80, 200, CONTAINERS)
    drift = 1.0 + 0.08 * np.sin(2 * np.pi * np.arange(DAYS)[:, None] / period + phase)
    demand = row * draw.uniform(0.78, 1.25, CONTAINERS) * drift
    supply = np.broadcast_to(draw.triangular(0.85, 1.0, 1.15, CONTAINERS) * draw.uniform(0.93, 1.05), demand.shape)
    return demand, supply.copy()


def season_by_the_hour(et0: Any, rain: Any, litres_per_mm: Any) -> Season:
    """The season for the hourly store, its clock begun at the hour of reading."""
    hours = daylight_shares(np.array([5.6]), np.array([20.4]))[0]
    later = np.append(et0[1:], et0[-1])
    parts = np.where(np.arange(24)[None] >= READ_HOUR, et0[:, None], later[:, None]) * hours
    total = parts.sum(axis=1)
    rolled = np.roll(parts / total[:, None], -READ_HOUR, axis=1)
    caught = np.full(litres_per_mm.shape, 0.12)
    return Season(total[:, None], litres_per_mm, rain[:, None], caught, rolled, rain_hour=15 - READ_HOUR)


def true_water(site: Site, season: Season, litres: Any, *, onset: int, room: Any) -> Any:
    """Water at the hour of reading [L], (days, containers); from the onset on a mix holds `room` times as much."""
    next_day = np.concatenate([litres[1:], litres[-1:]])
    pulses = [
        [(EVENING - READ_HOUR, 0.3 * now), (MORNING + 24 - READ_HOUR, 0.7 * then)]
        for now, then in zip(litres, next_day, strict=True)
    ]
    start, walked = 0.9 * site.capacity_l[None], []
    for part, capacity in ((slice(0, onset), site.capacity_l), (slice(onset, DAYS), room * site.capacity_l)):
        store = Store(capacity, 0.6 * site.capacity_l, site.stress_l, site.dry_l, site.dry_capture)
        days = replace(
            season, **{name: getattr(season, name)[part] for name in ("et0_mm", "rain_mm", "hour_shares")},
            litres_per_mm=season.litres_per_mm[part], rain_litres_per_mm=season.rain_litres_per_mm[part],
        )  # fmt: skip
        balance = run_store(store, days, pulses[part], start_l=start, period_days=1)
        start = balance.end_l[-1]
        walked.append(balance.start_l[:, 0])
    return np.concatenate(walked)


def make_readings(draw: Any, share: Any, site: Site, crew: Crew) -> list[Reading]:
    """Fingers, now and then a probe or the scales; each season another hand, and plants that grow heavier."""
    soft, dry, wet = draw.uniform(0.04, 0.10), draw.uniform(0.36, 0.46), draw.uniform(0.74, 0.84)
    felt = np.digitize(share + soft * draw.standard_normal(share.shape), [dry, wet])
    wrong = draw.random(share.shape) < crew.wrong
    felt = np.where(wrong, (felt + draw.integers(1, 3, share.shape)) % 3, felt)
    stray = draw.uniform(0.9, 1.1) * share + 0.08 * draw.standard_normal(share.shape)
    probed = 100.0 * np.clip(np.where(wrong, draw.uniform(0, 1.2, share.shape), stray), 0.0, 2.0)
    probe = draw.random(share.shape) < crew.by_probe
    told = [
        Reading(int(d), int(c), "probe", float(probed[d, c]))
        if probe[d, c]
        else Reading(int(d), int(c), "finger", float(felt[d, c]))
        for d, c in np.argwhere(draw.random(share.shape) < crew.visit)
    ]
    grown = draw.uniform(0.0, 1.0) / DAYS
    for day in range(crew.weighed_every // 2, DAYS, crew.weighed_every):
        for c in draw.permutation(CONTAINERS)[: crew.weighed].tolist():
            stands = site.empty_kg[c] + share[day, c] * site.capacity_l[c] + grown * day
            told.append(Reading(day, c, "weight", float(stands + 0.3 * draw.standard_normal())))
    return told


def make_catches(draw: Any, arrives_l_h: Any, crew: Crew) -> list[Reading]:
    """Catch tests of ten minutes at a few containers."""
    told = []
    for day in range(crew.caught_every // 2, DAYS, crew.caught_every):
        for c in draw.permutation(CONTAINERS)[: crew.caught].tolist():
            caught = arrives_l_h[day, c] * 10.0 / 60.0 * (1.0 + 0.1 * draw.standard_normal())
            told.append(Reading(day, c, "catch", max(float(caught), 0.0), minutes=10.0))
    return told


def make_meter(draw: Any, litres: Any, crew: Crew) -> list[Reading]:
    """The zone's dial read on two mornings running, so often; the dial strays by itself, one pair in thirty misread."""
    told, dial = [], draw.uniform(0.985, 1.015)
    for day in range(3, DAYS, crew.metered_every) if crew.metered_every else ():
        read = litres[day] * dial * (1.0 + 0.01 * draw.standard_normal())
        misread = draw.uniform(0.5, 1.5) if draw.random() < 1 / 30 else 1.0
        told.append(Reading(day, 0, "meter", max(float(read * misread), 0.0)))
    return told
