"""Solve the linear system of a network in plain Python: nodes eliminated one by one, fewest neighbours first.

A tree fills in nothing and costs a few operations a node; each ring adds a handful more. So an ordinary zone, rings and
all, needs no sparse-matrix library, and the order is worked out once for all iterations.
"""

from collections.abc import Sequence

from brimful.records import record

Step = tuple[int, tuple[tuple[int, int], ...], tuple[tuple[int, int, int], ...]]


@record
class Elimination:
    """The order of elimination: for each node in turn (node, ((neighbour, slot)…), ((slot, slot, slot filled)…))."""

    steps: tuple[Step, ...]
    link_slot: tuple[int, ...]  # which off-diagonal a link adds to; -1 where one end is the source
    slots: int

    def solve(self, diagonal: Sequence[float], off: Sequence[float], right: Sequence[float]) -> list[float]:
        """x of A·x = b for symmetric A: its diagonal, minus one conductance per link off it, and b.

        Args:
            diagonal: one per node; off: conductance of each link (subtracted); right: b, one per node
        """
        d, b, a = list(diagonal), list(right), [0.0] * self.slots
        for slot, conductance in zip(self.link_slot, off, strict=True):
            if slot >= 0:
                a[slot] -= conductance
        for node, around, fills in self.steps:
            pivot, own = 1.0 / d[node], b[node]
            for other, slot in around:
                part = a[slot] * pivot
                d[other] -= part * a[slot]
                b[other] -= part * own
            for one, two, filled in fills:
                a[filled] -= a[one] * a[two] * pivot
        x = b
        for node, around, _ in reversed(self.steps):
            total = b[node]
            for other, slot in around:
                total -= a[slot] * x[other]
            x[node] = total / d[node]
        return x


def plan_elimination(count: int, links: Sequence[tuple[int, int]]) -> Elimination:
    """The order of elimination of a network of `count` unknown nodes; a link end outside 0…count-1 is the source."""
    slot_of: dict[tuple[int, int], int] = {}
    around: list[set[int]] = [set() for _ in range(count)]
    link_slot = []
    for s, e in links:
        if max(s, e) >= count:
            link_slot.append(-1)
            continue
        around[s].add(e)
        around[e].add(s)
        link_slot.append(slot_of.setdefault((min(s, e), max(s, e)), len(slot_of)))
    steps = tuple(_order(around, slot_of))
    return Elimination(steps, tuple(link_slot), len(slot_of))


def _order(around: list[set[int]], slot_of: dict[tuple[int, int], int]) -> list[Step]:
    """Take the node with the fewest neighbours left, join its neighbours, go on."""
    buckets: dict[int, set[int]] = {}
    for node, others in enumerate(around):
        buckets.setdefault(len(others), set()).add(node)
    steps: list[Step] = []
    for _ in range(len(around)):
        least = min(size for size, nodes in buckets.items() if nodes)
        node = buckets[least].pop()
        near = sorted(around[node])
        _join(near, node, around, buckets)
        pairs = [(a, b) for i, a in enumerate(near) for b in near[i + 1 :]]
        fills = tuple((_slot(slot_of, node, a), _slot(slot_of, node, b), _slot(slot_of, a, b)) for a, b in pairs)
        steps.append((node, tuple((other, _slot(slot_of, node, other)) for other in near), fills))
    return steps


def _join(others: list[int], node: int, around: list[set[int]], buckets: dict[int, set[int]]) -> None:
    """Take a node out and make its neighbours neighbours of each other."""
    for other in others:
        buckets[len(around[other])].discard(other)
        around[other].discard(node)
        around[other].update(x for x in others if x != other)
        buckets.setdefault(len(around[other]), set()).add(other)


def _slot(slot_of: dict[tuple[int, int], int], a: int, b: int) -> int:
    """The place of a pair among the off-diagonals, made when new."""
    return slot_of.setdefault((min(a, b), max(a, b)), len(slot_of))
