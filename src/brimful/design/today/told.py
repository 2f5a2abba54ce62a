"""What the crew has told, in the plan's own terms, and how it is read by the season's learning."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from brimful.domains.learning import DRY, MOIST, WET, Reading
from brimful.records import record

FINGER = (DRY, MOIST, WET)
METER_KIND = "meter"


@record
class Told:
    """One thing seen or done: when by the local clock, its kind, where, its value in the kind's own unit."""

    at: datetime
    kind: str
    place: str = ""
    value: float | None = None
    during_s: float | None = None
    words: str = ""
    by: str = ""


@record
class Ground:
    """The containers of a plan in order: their names, and for each name of a row or zone the containers in it."""

    names: tuple[str, ...]
    groups: Mapping[str, tuple[int, ...]]

    def at(self, place: str) -> tuple[int, ...]:
        """The containers that a place means; all for "", none for a place that the plan does not have any more."""
        if not place:
            return tuple(range(len(self.names)))
        if place in self.groups:
            return self.groups[place]
        return (self.names.index(place),) if place in self.names else ()


def readings_of(told: Iterable[Told], ground: Ground, day_of: Mapping[Told, int]) -> Iterator[Reading]:
    """What of it tells about single containers and meters; rain, runs and water by hand are told by the days."""
    for one in told:
        day = day_of.get(one)
        at = ground.at(one.place)
        if day is None or not at:
            continue
        if one.kind in ("trimmed", "replaced", "fed"):
            continue
        yield from _reading(one, day, at)


def _reading(one: Told, day: int, at: Sequence[int]) -> Iterator[Reading]:
    single = at[0] if len(at) == 1 else None
    if one.kind == "mended":
        yield from (Reading(day, c, "mended", 1.0) for c in at)
    elif one.value is None or single is None:
        return
    elif one.kind == "finger":
        yield Reading(day, single, "finger", FINGER[int(one.value)])
    elif one.kind == "probe":
        yield Reading(day, single, "probe", 100.0 * one.value)
    elif one.kind == "weight":
        yield Reading(day, single, "weight", one.value)
    elif one.kind == "catch" and one.during_s:
        yield Reading(day, single, "catch", one.value, minutes=one.during_s / 60.0)


def metered(told: Iterable[Told], ground: Ground, day_of: Mapping[Told, int]) -> Iterator[Reading]:
    """What a zone's dial has counted between two readings on following days, as that day's water."""
    last: dict[str, tuple[int, float]] = {}
    for one in sorted((one for one in told if one.kind == METER_KIND), key=lambda one: one.at):
        day, at = day_of.get(one), ground.at(one.place)
        if day is None or not at or one.value is None:
            continue
        before = last.get(one.place)
        last[one.place] = day, one.value
        if before is not None and day - before[0] == 1 and one.value >= before[1] and one.place:
            yield Reading(before[0], at[0], "meter", one.value - before[1])
