"""The plain rule that needs no model: two dry readings in a row at one container, look there."""

from collections.abc import Iterable

from brimful.domains.learning.inputs import Reading
from brimful.domains.learning.kinds import DRY


def two_dry(readings: Iterable[Reading], *, in_a_row: int = 2) -> tuple[tuple[int, int], ...]:
    """Days and containers at which so many finger tests in a row were dry.

    Args:
        readings: in any order; only finger tests count
        in_a_row: dry tests in a row, at one container, that make somebody look [-]
    Returns: (day, container), sorted, each time the count is reached; the count begins anew after it
    Valid: in_a_row 1 or more
    Source: common practice, no source

    >>> two_dry([Reading(1, 0, "finger", 0.0), Reading(4, 0, "finger", 0.0), Reading(4, 1, "finger", 0.0)])
    ((4, 0),)
    """
    count: dict[int, int] = {}
    found = []
    for reading in sorted((one for one in readings if one.kind == "finger"), key=lambda one: one.day):
        dry = count.get(reading.container, 0) + 1 if reading.value == DRY else 0
        if dry == in_a_row:
            found.append((reading.day, reading.container))
            dry = 0
        count[reading.container] = dry
    return tuple(sorted(found))
