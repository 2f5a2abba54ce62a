"""Even mixing: the order in which varieties follow each other along a ring."""

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


def alternate(counts: Sequence[tuple[T, int]]) -> list[T]:
    """The varieties in an order that spreads each one as evenly as whole plants allow.

    Formula: the k-th of n plants of a variety stands at (k − ½)/n of the way; all are sorted by that.

    Args:
        counts: variety and how many of it
    Returns: one entry a plant; the same for the same input
    Valid: counts of 0 or more. With two varieties the gaps between plants of one differ by one place at most
    Source: our own rule

    >>> "".join(alternate([("a", 3), ("b", 3)])), "".join(alternate([("a", 6), ("b", 3)]))
    ('ababab', 'abaabaaba')
    """
    at = [((2 * k + 1) / (2 * n), rank, kind) for rank, (kind, n) in enumerate(counts) for k in range(n)]
    return [kind for _, _, kind in sorted(at, key=lambda entry: entry[:2])]


def turned(order: Sequence[T], first: T, slot: int = 0) -> list[T]:
    """The order turned round so that `first` stands in the slot given; as it was where it is not in it."""
    if first not in order:
        return list(order)
    shift = list(order).index(first) - slot
    return [order[(i + shift) % len(order)] for i in range(len(order))]


def share_out(total: int, weights: Sequence[float]) -> list[int]:
    """A whole number split in proportion, largest remainders first, so that the parts add up.

    >>> share_out(7, [4, 2, 1]), share_out(5, [1, 1])
    ([4, 2, 1], [3, 2])
    """
    whole = sum(weights)
    if total < 0 or not whole > 0:
        raise ValueError(f"total {total} and weights {list(weights)} were given: expected 0 or more and some weight")
    exact = [total * w / whole for w in weights]
    parts = [int(e) for e in exact]
    for i in sorted(range(len(parts)), key=lambda i: (parts[i] - exact[i], i))[: total - sum(parts)]:
        parts[i] += 1
    return parts
