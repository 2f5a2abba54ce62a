"""Learning measured on invented seasons whose truth is known, beside the plain rule of two dry readings in a row.

    python3 run.py bench learning [--json] [--seasons N] [--first K]

The seasons are made in invented.py, each from a number of its own. Those from 0 to 39 were looked at while the filter
was tuned, those from 7000 to 7300 while a bias was sought; what is printed is of others.
"""

import json
import os
import sys
import time
from collections.abc import Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from benchmarks.invented import DAYS, FAULTS, WEEK, Crew, Truth, make_truth

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

SEASONS, FIRST = 210, 4000
METERED = {"daily": 1, "weekly": WEEK, "never": 0}
LEAK = CAUSE_KEYS[2]
FILTER, PLAIN = "filter", "two dry readings"
WITHIN = 30
Row = dict[str, Any]


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
    """Whether the truth lay in the interval: of the sound containers, and of the culprit once it was one."""
    off: dict[str, list[float]] = field(default_factory=dict)
    """Estimate less truth, or its logarithm for factors, mean of the sound containers on each day."""
    test_minutes: float = 0.0


@dataclass(frozen=True)
class Task:
    """One season to make and score."""

    number: int
    cause: str
    metered_every: int = WEEK


def score(task: Task) -> Score:
    """Make a season, follow it, and compare."""
    seed = 1000 * task.number
    truth = make_truth(seed, task.cause, Crew(metered_every=task.metered_every))
    report = tuple(range(14, DAYS, 15))
    track = follow(truth.site, truth.days, truth.readings, seed=seed + 1, report_days=report)
    result = Score(truth.cause)
    told = {FILTER: episodes(track), PLAIN: list(two_dry(truth.readings))}
    for rule, alarms in told.items():
        judge(result, truth, rule, alarms)
    named = [day for day, c in told[FILTER] if c == truth.culprit and day >= truth.onset]
    if named:
        ask(result, truth, track.causes[named[0], truth.culprit], np.random.default_rng(seed + 2))
    compare(result, track.beliefs, truth)
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


def compare(result: Score, beliefs: Iterable[Belief], truth: Truth) -> None:
    """For each belief in full: which containers' truth lies in the interval, and how far the estimates lie off."""
    for belief in beliefs:
        sound = np.arange(truth.supply.shape[1]) != truth.culprit
        for name, estimate, of_days in (
            ("store", belief.store_share, truth.water_share),
            ("demand factor", belief.demand_factor, truth.demand),
            ("supply factor", belief.supply_factor, truth.supply),
        ):
            true = of_days[belief.day]
            inside = (estimate.low <= true) & (true <= estimate.high)
            result.covered.setdefault(name, []).extend(inside[sound].tolist())
            if belief.day > truth.onset:
                result.covered.setdefault(f"{name} of the faulty one", []).extend(inside[~sound].tolist())
            off = estimate.mean - true if name == "store" else np.log(estimate.mean / true)
            result.off.setdefault(name, []).append(float(off[sound].mean()))


def tasks(seasons: int, first: int) -> list[Task]:
    """So many seasons, the causes in turn."""
    return [Task(first + k, list(FAULTS)[k % len(FAULTS)]) for k in range(seasons)]


def study(wanted: Sequence[Task], *, workers: int = 1) -> list[Score]:
    """Scores of seasons."""
    if workers == 1:
        return [score(task) for task in wanted]
    with ProcessPoolExecutor(workers) as pool:
        return list(pool.map(score, wanted, chunksize=5))


def quality_rows(scores: list[Score]) -> list[Row]:
    """The filter and the plain rule, side by side."""
    rows: list[Row] = []
    for rule in (FILTER, PLAIN):
        late = np.array([one.days[rule] for one in scores])
        named = np.array([one.right_cause for one in scores if one.right_cause and rule == FILTER])
        at_once, after = named.mean(axis=0).tolist() if named.size else (None, None)
        median, most = np.quantile(late, (0.5, 0.9), method="inverted_cdf").tolist()
        rows.append(
            {
                "rule": rule,
                "seasons": len(scores),
                "right container named first": float(np.mean([one.named_first[rule] for one in scores])),
                f"found within {WITHIN} days": float(np.mean([one.found[rule] for one in scores])),
                "days, median": median,
                "days, 90 %": most,
                "right cause at once": at_once,
                "after tests": after,
                "false alarms a season": float(np.mean([one.false_alarms[rule] for one in scores])),
            }
        )
    return rows


def cause_rows(scores: list[Score]) -> list[Row]:
    """The same by cause, and of all together."""
    groups = {cause: [one for one in scores if one.cause == cause] for cause in FAULTS} | {"all": scores}
    return [{"true cause": name, **row} for name, group in groups.items() if group for row in quality_rows(group)]


def minutes_rows(scores: list[Score]) -> list[Row]:
    """What the suggested tests take."""
    minutes = [one.test_minutes for one in scores if one.right_cause]
    return [{"tests after a naming": len(minutes), "minutes, mean": float(np.mean(minutes))}]


def cover_rows(scores: list[Score]) -> list[Row]:
    """How often the truth lies in the 90 % interval, every fifteenth day, and how far off the estimates lie."""
    rows: list[Row] = []
    for name in ("store", "demand factor", "supply factor"):
        off = np.array([np.mean(one.off[name]) for one in scores])
        faulty = [inside for one in scores for inside in one.covered.get(f"{name} of the faulty one", [])]
        rows.append(
            {
                "of": name,
                "truth inside 90 % intervals": float(np.mean([np.mean(one.covered[name]) for one in scores])),
                "of the faulty one": float(np.mean(faulty)) if faulty else None,
                "estimate off by": float(off.mean()),
                "give or take": float(off.std() / np.sqrt(off.size)),
            }
        )
    return rows


def meter_rows(seasons: int, first: int, workers: int) -> list[Row]:
    """A leak, by how often the meter is read."""
    rows: list[Row] = []
    for words, every in METERED.items():
        scores = study([Task(first + k, LEAK, every) for k in range(seasons)], workers=workers)
        rows.append({"meter read": words, **quality_rows(scores)[0]})
    return rows


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
        print("| " + " | ".join(map(shown, one.values())) + " |")
    print()


def shown(value: Any) -> str:
    """A cell: words as they are, what does not apply as a dash, days that never came as never."""
    if value is None:
        return "–"
    return value if isinstance(value, str) else "never" if value == float("inf") else f"{value:.3g}"


def option(words: list[str], name: str, usual: int) -> int:
    """The number after a word, or the usual one."""
    return int(words[words.index(name) + 1]) if name in words else usual


def main() -> None:
    """Print the tables, or the list."""
    words, workers = sys.argv[1:], os.cpu_count() or 1
    seasons, first = option(words, "--seasons", SEASONS), option(words, "--first", FIRST)
    speed = [speed_row()]
    scores = study(tasks(seasons, first), workers=workers)
    leaks = meter_rows(max(seasons // len(FAULTS), 1), first + seasons, workers)
    tables = [cause_rows(scores), minutes_rows(scores), leaks, cover_rows(scores), speed]
    if "--json" in words:
        print(json.dumps([row for table in tables for row in table], indent=2))
        return
    for table in tables:
        show(table)


if __name__ == "__main__":
    main()
