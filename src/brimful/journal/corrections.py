"""Which entries still stand once corrections are applied; the answer does not depend on the order of arrival."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime

from brimful.journal.entries import Entry, order

Correction = tuple[str, str, datetime]
"""Id, id of what it corrects, when it was made."""


def standing(entries: Iterable[Entry], gone: frozenset[str]) -> tuple[Entry, ...]:
    """Of entries those that stand once these ids are gone, by the time they were made, then by id."""
    return tuple(one for one in sorted(entries, key=order) if one.id not in gone and one.kind != "withdrawn")


def superseded(corrections: Sequence[Correction]) -> frozenset[str]:
    """The ids of entries that another stands for.

    Entries that correct each other make a chain. Of a chain one stands: the last made of those that nobody corrected;
    two people who correct the same entry are settled so too. An entry whose original is missing stands for itself.
    """
    made = {id_: (made_at, id_) for id_, _, made_at in corrections}
    chain = _chains((id_, of) for id_, of, _ in corrections)
    corrected = {of for _, of, _ in corrections}
    gone: set[str] = set()
    for ids in chain:
        ends = [id_ for id_ in ids if id_ not in corrected] or [id_ for id_ in ids if id_ in made]
        gone |= ids - {max(ends, key=lambda id_: made[id_])}
    return frozenset(gone)


def _chains(pairs: Iterable[tuple[str, str]]) -> list[set[str]]:
    """The ids that hang together."""
    beside: dict[str, set[str]] = defaultdict(set)
    for one, other in pairs:
        beside[one].add(other)
        beside[other].add(one)
    chains, seen = [], set[str]()
    for start in beside:
        if start not in seen:
            chain, ahead = set[str](), [start]
            while ahead:
                here = ahead.pop()
                if here not in chain:
                    chain.add(here)
                    ahead += beside[here]
            seen |= chain
            chains.append(chain)
    return chains
