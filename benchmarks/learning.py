"""Learning measured on invented seasons whose truth is known, beside the plain rule of two dry readings in a row.

    python3 run.py bench learning [--json] [--seasons N]

The truth is walked hour by hour with the season's own store, from spreads and faults that are not the filter's: other
shapes, other sizes, factors that drift with the weeks, weather the plan did not expect, readings wrong more often.
"""

import json
import os
import sys
import time
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from brimful.domains.learning import (
    CAUSE_KEYS,
    LOOK_SHARE,
    Belief,
    Days,
    FieldTest,
    Reading,
    Site,
    Track,
    after_test,
    follow,
    suspect,
    two_dry,
)
from brimful.domains.watering.season import Season, Store, daylight_shares
from brimful.domains.watering.store import run_store

SEASONS, DAYS, ROW, ROWS = 200, 180, 10, 2
CONTAINERS = ROW * ROWS
READ_HOUR, EVENING, MORNING = 10, 19, 5
PLUGGED, THIRSTY = CAUSE_KEYS[1], CAUSE_KEYS[6]
Row = dict[str, Any]


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


def make_truth(seed: int) -> Truth:
    """A season with one plugged or thirsty container among twenty, felt every third day, one feeling in ten wrong."""
    draw = np.random.default_rng(seed)
    site = make_site(draw)
    et0, told_et0, rain = make_weather(draw)
    litres_per_mm = 0.42 * site.capacity_l / 5.0
    planned = told_et0[:, None] * litres_per_mm
    minutes = weekly_minutes(told_et0, site.flow_l_h, litres_per_mm)
    days = Days(planned, minutes, rain, np.full(planned.shape, 0.12), morning_share=0.7, read_share=0.2)
    demand, supply = make_factors(draw)
    culprit, onset = int(draw.integers(CONTAINERS)), int(draw.integers(40, 120))
    cause = PLUGGED if draw.random() < 0.5 else THIRSTY
    ramp = np.clip((np.arange(DAYS) - onset) / max(draw.uniform(0, 14), 0.1), 0.0, 1.0)
    if cause == PLUGGED:
        supply[:, culprit] *= 1.0 - ramp * (1.0 - draw.uniform(0.1, 0.6))
    else:
        demand[:, culprit] *= 1.0 + ramp * (draw.uniform(1.4, 2.2) - 1.0)
    water = true_water(site, et0, rain, demand * litres_per_mm, supply * minutes * site.flow_l_h / 60.0)
    share = water / site.capacity_l
    return Truth(site, days, make_readings(draw, share, supply, site), share, demand, supply, culprit, cause, onset)


def make_site(draw: Any) -> Site:
    """Two rows of ten on one zone."""
    capacity = np.repeat(draw.uniform(6.0, 25.0, ROWS), ROW)
    row = np.repeat(np.arange(ROWS), ROW)
    none = np.full(CONTAINERS, np.nan)
    return Site(
        capacity_l=capacity,
        stress_l=0.4 * capacity,
        flow_l_h=0.8 * capacity,
        row=row,
        zone=np.zeros_like(row),
        empty_kg=none,
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
    weeks = np.arange(DAYS) // 7
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


def true_water(site: Site, et0: Any, rain: Any, litres_per_mm: Any, litres: Any) -> Any:
    """Water at the hour of reading [L], (days, containers): the hourly store, its clock begun at that hour."""
    hours = daylight_shares(np.array([5.6]), np.array([20.4]))[0]
    later = np.append(et0[1:], et0[-1])
    parts = np.where(np.arange(24)[None] >= READ_HOUR, et0[:, None], later[:, None]) * hours
    total = parts.sum(axis=1)
    rolled = np.roll(parts / total[:, None], -READ_HOUR, axis=1)
    store = Store(site.capacity_l, 0.6 * site.capacity_l, site.stress_l, site.dry_l, site.dry_capture)
    season = Season(
        total[:, None], litres_per_mm, rain[:, None], np.full(litres.shape, 0.12), rolled, rain_hour=15 - READ_HOUR
    )
    next_day = np.concatenate([litres[1:], litres[-1:]])
    pulses = [
        [(EVENING - READ_HOUR, 0.3 * now), (MORNING + 24 - READ_HOUR, 0.7 * then)]
        for now, then in zip(litres, next_day, strict=True)
    ]
    balance = run_store(store, season, pulses, start_l=0.9 * site.capacity_l[None], period_days=1)
    return balance.start_l[:, 0]


def make_readings(draw: Any, share: Any, supply: Any, site: Site) -> list[Reading]:
    """Fingers every third day on average, one in ten wrong, each season another hand; a catch test a week somewhere."""
    soft, dry, wet = draw.uniform(0.04, 0.10), draw.uniform(0.36, 0.46), draw.uniform(0.74, 0.84)
    felt = np.digitize(share + soft * draw.standard_normal(share.shape), [dry, wet])
    wrong = draw.random(share.shape) < 0.1
    felt = np.where(wrong, (felt + draw.integers(1, 3, share.shape)) % 3, felt)
    told = [
        Reading(int(day), int(c), "finger", float(felt[day, c]))
        for day, c in np.argwhere(draw.random(share.shape) < 1 / 3)
    ]
    for day in range(3, DAYS, 7):
        c = int(draw.integers(CONTAINERS))
        caught = site.flow_l_h[c] * supply[day, c] * 10.0 / 60.0 * (1.0 + 0.1 * draw.standard_normal())
        told.append(Reading(day, c, "catch", max(float(caught), 0.0), minutes=10.0))
    return told


@dataclass
class Score:
    """What came of one season; days late and causes of the culprit, per rule."""

    cause: str
    named_first: dict[str, bool] = field(default_factory=dict)
    found: dict[str, bool] = field(default_factory=dict)
    days: dict[str, float] = field(default_factory=dict)
    false_alarms: dict[str, int] = field(default_factory=dict)
    right_cause: list[bool] = field(default_factory=list)
    """At the first naming, and after the suggested tests; empty where it was never named."""
    covered: dict[str, Any] = field(default_factory=dict)
    test_minutes: float = 0.0


WITHIN = 30


def score(seed: int) -> Score:
    """Make a season, follow it, and compare."""
    truth = make_truth(seed)
    report = tuple(range(14, DAYS, 15))
    track = follow(truth.site, truth.days, truth.readings, seed=seed + 1, report_days=report)
    result = Score(truth.cause)
    told = {"filter": episodes(track), "two dry readings": list(two_dry(truth.readings))}
    for rule, alarms in told.items():
        judge(result, truth, rule, alarms)
    named = [day for day, c in told["filter"] if c == truth.culprit and day >= truth.onset]
    if named:
        ask(result, truth, track.causes[named[0], truth.culprit], np.random.default_rng(seed + 2))
    for one in report_of(track.beliefs, truth):
        for name, hits in one:
            result.covered.setdefault(name, []).append(hits)
    return result


def episodes(track: Track) -> list[tuple[int, int]]:
    """Day and container of each naming; a container is named anew once it has been trusted again."""
    found = []
    for c in range(track.causes.shape[1]):
        named = False
        for day, sound in enumerate(track.causes[:, c, 0].tolist()):
            if not named and sound < 1.0 - LOOK_SHARE:
                found.append((day, c))
            named = sound < (0.8 if named else 1.0 - LOOK_SHARE)
    return sorted(found)


def judge(result: Score, truth: Truth, rule: str, alarms: list[tuple[int, int]]) -> None:
    """Was the culprit the first named after its fault set in, how late, and how many others were named wrongly?"""
    after = [(day, c) for day, c in alarms if day >= truth.onset]
    hits = [day for day, c in after if c == truth.culprit]
    result.named_first[rule] = bool(after) and truth.culprit in {c for day, c in after if day == after[0][0]}
    result.found[rule] = bool(hits) and hits[0] - truth.onset <= WITHIN
    result.days[rule] = hits[0] - truth.onset if hits else float("inf")
    result.false_alarms[rule] = sum(c != truth.culprit or day < truth.onset for day, c in alarms)


def ask(result: Score, truth: Truth, chances: Any, draw: Any) -> None:
    """Which cause leads at the naming and after the suggested tests, each misread one time in seven.

    Tests go on until one cause is four times as likely as all others, three of them at most.
    """
    result.right_cause.append(leading(chances) == truth.cause)
    for _ in range(3):
        if chances.max() > 0.8:
            break
        test = suspect(chances, container=truth.culprit).test
        result.test_minutes += test.minutes
        chances = after_test(test, outcome(test, truth.cause, draw), chances)
    result.right_cause.append(leading(chances) == truth.cause)


def leading(chances: Any) -> str:
    """The likeliest of the real causes."""
    return CAUSE_KEYS[1 + int(chances[1:].argmax())]


def outcome(test: FieldTest, cause: str, draw: Any) -> str:
    """What a person sees: what the cause shows most often, or one time in seven something else."""
    usual = int(test.table()[:, CAUSE_KEYS.index(cause)].argmax())
    if draw.random() < 1 / 7:
        usual = int(draw.choice([k for k in range(len(test.outcomes)) if k != usual]))
    return test.outcomes[usual]


def report_of(beliefs: Iterable[Belief], truth: Truth) -> Iterator[list[tuple[str, Any]]]:
    """For each belief in full: which containers' truth lies in the interval."""
    for belief in beliefs:
        parts = (
            ("store", belief.store_share, truth.water_share),
            ("demand factor", belief.demand_factor, truth.demand),
            ("supply factor", belief.supply_factor, truth.supply),
        )
        yield [(name, (e.low <= true[belief.day]) & (true[belief.day] <= e.high)) for name, e, true in parts]


def study(seasons: int, *, workers: int = 1, first: int = 0) -> list[Score]:
    """Scores of so many seasons."""
    seeds = [1000 * (first + k) for k in range(seasons)]
    if workers == 1:
        return [score(seed) for seed in seeds]
    with ProcessPoolExecutor(workers) as pool:
        return list(pool.map(score, seeds, chunksize=5))


def quality_rows(scores: list[Score]) -> list[Row]:
    """The filter and the plain rule, side by side."""
    rows = []
    for rule in ("filter", "two dry readings"):
        late = np.array([one.days[rule] for one in scores])
        rows.append(
            {
                "rule": rule,
                "right container named first": float(np.mean([one.named_first[rule] for one in scores])),
                f"found within {WITHIN} days": float(np.mean([one.found[rule] for one in scores])),
                "median days to find": float(np.median(late)),
                "false alarms a season": float(np.mean([one.false_alarms[rule] for one in scores])),
            }
        )
    return rows


def cause_rows(scores: list[Score]) -> list[Row]:
    """How often the right cause leads, before and after the suggested tests."""
    rows = []
    for cause in (PLUGGED, THIRSTY):
        named = np.array([one.right_cause for one in scores if one.cause == cause and one.right_cause])
        minutes = float(np.mean([one.test_minutes for one in scores if one.cause == cause and one.right_cause]))
        shares = dict(zip(("right cause first", "after the tests"), named.mean(axis=0).tolist(), strict=True))
        rows.append({"true cause": cause, "seasons": len(named), **shares, "minutes of tests": minutes})
    return rows


def cover_rows(scores: list[Score]) -> list[Row]:
    """How often the truth lies in the 90 % interval, all containers, every fifteenth day."""
    names = ("store", "demand factor", "supply factor")
    return [
        {"of": name, "truth inside 90 % intervals": float(np.mean([one.covered[name] for one in scores]))}
        for name in names
    ]


def speed_row() -> Row:
    """A season of daily readings in a hundred containers."""
    days, containers = 180, 100
    capacity = np.full(containers, 10.0)
    each = np.arange(containers)
    site = Site(
        capacity,
        0.4 * capacity,
        0.8 * capacity,
        each // 10,
        each // 50,
        0.0 * capacity,
        0.3 * capacity,
        0.06 * capacity,
    )
    shape = (days, containers)
    plan = Days(
        np.full(shape, 4.0),
        np.full(shape, 40.0),
        np.zeros(days),
        np.full(shape, 0.1),
        morning_share=0.7,
        read_share=0.2,
    )
    draw = np.random.default_rng(0)
    told = [Reading(d, c, "finger", float(draw.integers(1, 3))) for d in range(days) for c in range(containers)]
    start = time.perf_counter(), time.process_time()
    follow(site, plan, told, seed=1)
    return {
        "case": f"{containers} containers × {days} days, each read daily",
        "seconds": time.perf_counter() - start[0],
        "processor seconds": time.process_time() - start[1],
    }


def show(rows: list[Row]) -> None:
    """Print one table."""
    print("| " + " | ".join(rows[0]) + " |\n|---" + "|---:" * (len(rows[0]) - 1) + "|")
    for one in rows:
        print("| " + " | ".join(v if isinstance(v, str) else f"{v:.3g}" for v in one.values()) + " |")
    print()


def main() -> None:
    """Print the tables, or the list."""
    words = sys.argv[1:]
    seasons = int(words[words.index("--seasons") + 1]) if "--seasons" in words else SEASONS
    speed = [speed_row()]
    scores = study(seasons, workers=os.cpu_count() or 1)
    tables = [quality_rows(scores), cause_rows(scores), cover_rows(scores), speed]
    if "--json" in words:
        print(json.dumps([row for table in tables for row in table], indent=2))
        return
    for table in tables:
        show(table)


if __name__ == "__main__":
    main()
