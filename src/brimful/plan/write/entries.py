"""A list set anew, told as changes of its entries: what stands between entries, notes above all, then stays."""

from itertools import takewhile
from typing import Any

from brimful.plan.write.intent import around_of, plain, same
from brimful.plan.write.layout import Layout
from brimful.plan.write.steps import Add, Remove, Set, Step


def by_entry(layout: Layout, step: Set) -> list[Step]:
    """Steps on entries that come to the same; none where the old or the new value is no list.

    Entries alike at the beginning and at the end stay; of those between, each gives way to the next new one.
    """
    new = plain(step.value)
    if step.path not in layout.values or not isinstance(new, list):
        return []
    old = around_of(layout.data, step.path, make=False)[step.path[-1]]
    if not isinstance(old, list) or same(old, new):
        return []
    head = _alike(old, new)
    tail = _alike(old[head:][::-1], new[head:][::-1])
    fresh, stale = new[head : len(new) - tail], len(old) - head - tail
    both = min(len(fresh), stale)
    return [
        *(Set((*step.path, head + i), fresh[i]) for i in range(both)),
        *(Remove((*step.path, i)) for i in range(head + stale - 1, head + both - 1, -1)),
        *(Add(step.path, fresh[i], head + i) for i in range(both, len(fresh))),
    ]


def _alike(old: list[Any], new: list[Any]) -> int:
    """How many entries are the same from the beginning on."""
    return sum(1 for _ in takewhile(lambda pair: same(*pair), zip(old, new, strict=False)))
