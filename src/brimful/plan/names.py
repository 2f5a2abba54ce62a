"""Names that a plan must keep apart: zones, rows, and the containers that rows name by number."""

import re
from collections.abc import Iterator

from brimful.findings import Finding, Place, Severity
from brimful.plan.schema import Containers, Plan

_NUMBERED = re.compile(r"(.+) ([1-9]\d{0,3})")


def container_names(row: str, count: int) -> tuple[str, ...]:
    """The names of a row's containers: the row's own for a single one, else with a number from the water's end.

    >>> container_names("gate", 2), container_names("urn", 1)
    (('gate 1', 'gate 2'), ('urn',))
    """
    return (row,) if count == 1 else tuple(f"{row} {number + 1}" for number in range(count))


def zone_words(name: str) -> str:
    """A zone as a sentence names it: its name alone where that says what it is.

    >>> zone_words("zone 1"), zone_words("steps")
    ('zone 1', 'zone steps')
    """
    return name if name.lower().startswith("zone") else f"zone {name}"


def tube_words(branch: str) -> str:
    """A piece of tube as a sentence names it, from the design's name for it: its line, and a number from the water.

    >>> tube_words("main/1"), tube_words("main/2"), tube_words("water side/3")
    ('the main', 'piece 2 of the main', 'the lateral of water side, before container 3')
    """
    line, _, number = branch.rpartition("/")
    if line == "main":
        return "the main" if number == "1" else f"piece {number} of the main"
    return f"the lateral of {line}, before container {number}" if line else branch


def clashes(plan: Plan, at: dict[tuple[str, int], Place]) -> Iterator[Finding]:
    """A finding for each name that stands for two things; `at` says where each zone's and row's name stands."""
    yield from _twice("zone", "zones", [zone.name for zone in plan.zone], at)
    yield from _twice("containers", "rows", [row.name for row in plan.containers], at)
    counts = {row.name: row.count for row in plan.containers}
    for index, row in enumerate(plan.containers):
        if _is_numbered_in(row, counts):
            said = f'"{row.name}" is also the name of a container in the row of {counts[row.name.rpartition(" ")[0]]}'
            yield _clash(said, at["containers", index])


def _twice(table: str, what: str, names: list[str], at: dict[tuple[str, int], Place]) -> Iterator[Finding]:
    for index, name in enumerate(names):
        if name in names[:index]:
            yield _clash(f'two {what} are called "{name}"', at[table, index])


def _is_numbered_in(row: Containers, counts: dict[str, int]) -> bool:
    match = _NUMBERED.fullmatch(row.name)
    return bool(match and row.count == 1 and 1 < counts.get(match[1], 0) >= int(match[2]))


def _clash(said: str, where: Place) -> Finding:
    return Finding("name-twice", Severity.ERROR, said, "Give each its own name.", where)
