"""Unequal containers on one valve: whole numbers of emitters so that one run time serves them all."""

import math
from collections.abc import Sequence

from brimful.records import record

ALIKE = 0.02  # surpluses that differ by less are as good as each other
_SLACK = 1e-9


@record
class Match:
    """Emitters in each container, the minutes a day that then serve all, and what each still gets beyond its wish."""

    counts: tuple[int, ...]
    minutes_per_day: float
    surplus_share: tuple[float, ...]  # 0.1: a tenth more than wanted; never below 0


def matched_emitters(
    wanted_l_day: Sequence[float], emitter_l_h: Sequence[float], *, least: int = 1, most: int = 40, near: int = 0
) -> Match:
    """Emitters in each kind of container, so that one run time gives every one its water and the greatest surplus is
    least (whole numbers, exact).

    Formula: for a time T each kind needs n = ⌈wanted / (q·T)⌉ emitters; the best T makes one of them come out even, so
    only the times wanted / (q·n), n = least … most, are tried. Of choices within two points of the least surplus, the
    one whose emitters together come nearest to `near` is taken.

    Args:
        wanted_l_day: water each kind of container wants [L/day]; emitter_l_h: flow of one of its emitters [L/h]
        least, most: bounds on the emitters in one container; near: emitters of all kinds together, as they are now
    Returns: counts, minutes a day, surplus of each kind as a share of its wish
    Valid: wishes and flows above 0; wishes that differ more than most / least leave a large surplus
    Source: own derivation

    >>> matched_emitters([6.0, 12.0], [2.0, 2.0], most=16).counts
    (1, 2)
    """
    if len(wanted_l_day) != len(emitter_l_h) or not wanted_l_day or not 1 <= least <= most:
        raise ValueError(f"{len(wanted_l_day)} wishes, {len(emitter_l_h)} flows, {least} to {most} emitters were given")
    if min(*wanted_l_day, *emitter_l_h, math.inf) <= 0:
        raise ValueError(f"wishes {list(wanted_l_day)} L, flows {list(emitter_l_h)} L/h were given; expected above 0")
    hours = [w / q for w, q in zip(wanted_l_day, emitter_l_h, strict=True)]
    found = [_counts(hours, alone / n, least) for alone in hours for n in range(least, most + 1)]
    fitting = [(counts, time) for counts, time in found if max(counts) <= most]
    worst = [max(_surplus(hours, *one)) for one in fitting]
    good = [(abs(sum(one[0]) - near), w, one) for w, one in zip(worst, fitting, strict=True) if w <= min(worst) + ALIKE]
    counts, time = min(good)[2]
    return Match(counts, 60.0 * time, tuple(_surplus(hours, counts, time)))


def _counts(hours: Sequence[float], time_h: float, least: int) -> tuple[tuple[int, ...], float]:
    """The fewest emitters at a time, and the least time that those then need."""
    counts = tuple(max(least, math.ceil(alone / time_h * (1 - _SLACK))) for alone in hours)
    return counts, max(alone / n for alone, n in zip(hours, counts, strict=True))


def _surplus(hours: Sequence[float], counts: Sequence[int], time_h: float) -> list[float]:
    return [max(0.0, n * time_h / alone - 1.0) for alone, n in zip(hours, counts, strict=True)]
