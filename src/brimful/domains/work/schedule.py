"""Who does what when: a schedule for the crew and tools there are, with a bound no schedule can beat."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field, replace
from heapq import heappop, heappush

from brimful.domains.work.network import Step, heads_and_tails, in_order
from brimful.records import record

_SMALL = 1e-9
PEOPLE, CHAIN = "people", "the order of the steps"


@record
class Crew:
    """How many people there are, and how many of each tool or machine."""

    people: int
    equipment: Mapping[str, int] = field(default_factory=dict)


@record
class Slot:
    """One step in the schedule: from and to [min], and the numbers of the people on it, from 1."""

    step: Step
    start_min: float
    end_min: float
    people: tuple[int, ...]


@record
class Schedule:
    """All slots by start, finish [min], the bound no schedule can beat [min], and what that bound comes from."""

    slots: tuple[Slot, ...]
    finish_min: float
    bound_min: float
    bottleneck: str

    @property
    def gap(self) -> float:
        """How far the finish may be from the best possible, as a share of the bound [0 up]; 0 is proven best."""
        return self.finish_min / self.bound_min - 1.0 if self.bound_min > 0.0 else 0.0

    def at(self, place: str) -> tuple[Slot, ...]:
        """The card of one station: its own slots in order."""
        return tuple(slot for slot in self.slots if slot.step.place == place)


def crew_faults(steps: Sequence[Step], crew: Crew) -> tuple[str, ...]:
    """What a crew lacks for the work, in words.

    Args: steps: of the work. crew: people and tools.
    Returns: one sentence for each kind of lack; empty where the work can be done.
    Valid: any.
    Source: definition.
    """
    most = max((step.people for step in steps), default=0)
    faults = [] if crew.people >= most else [f"A step takes {most} people, the crew is {crew.people}."]
    wanted = dict.fromkeys(name for step in steps for name in step.equipment)
    for name in wanted:
        there, at_once = crew.equipment.get(name, 0), max(step.equipment.count(name) for step in steps)
        if there < at_once:
            faults.append(f"A step takes {at_once} of {name}, there are {there}.")
    return tuple(faults)


def schedule(steps: Sequence[Step], crew: Crew) -> Schedule:
    """When each step is done and by whom, the finish, and how far that can be from the best [min].

    Formula: list scheduling: whenever hands and tools are free, the waiting step of highest rank starts; the best of
    three ranks (longest tail, station by station, most hands) is kept. Bound: largest of longest chain, work over
    people, and time of each tool.
    Args: steps: of the work. crew: people and tools.
    Returns: slots, finish, bound and bottleneck.
    Valid: a network without faults and a crew that lacks nothing.
    Source: list scheduling, Graham (1966), from memory.
    """
    if faults := crew_faults(steps, crew):
        raise ValueError(f"{faults[0]} Expected a crew with enough of each.")
    ordered = in_order(steps)
    _, tails = heads_and_tails(ordered)
    place = {step.key: i for i, step in enumerate(steps)}
    ranks: tuple[Callable[[Step], tuple[float, ...]], ...] = (
        lambda step: (-tails[step.key], place[step.key]),
        lambda step: (place[step.key],),
        lambda step: (-step.people, -tails[step.key], place[step.key]),
    )
    bottleneck, bound = max(time_bounds(ordered, crew).items(), key=lambda item: item[1])
    best: list[Slot] | None = None
    for rank in ranks:
        tried = _list_schedule(sorted(ordered, key=rank), crew)
        best = tried if best is None or _finish(tried) < _finish(best) - _SMALL else best
        if _finish(best) <= bound + _SMALL:
            break
    slots = best or []
    return Schedule(tuple(sorted(slots, key=lambda slot: slot.start_min)), _finish(slots), bound, bottleneck)


def time_bounds(steps: Sequence[Step], crew: Crew) -> dict[str, float]:
    """Times that no schedule can beat, by what sets them: the order of the steps, the people, each tool [min].

    Formula: longest chain; least lead + Σ people × minutes / crew + least follow-up; the same for each tool.
    Args: steps: of the work. crew: people and tools.
    Returns: minutes by cause.
    Valid: a network without faults.
    Source: definition.
    """
    heads, tails = heads_and_tails(steps)
    bounds = {CHAIN: max(tails.values(), default=0.0), PEOPLE: 0.0}

    def shared(users: Sequence[Step], load: float, number: int) -> float:
        lead = min(heads[step.key] for step in users)
        follow = min(tails[step.key] - step.minutes for step in users)
        return lead + load / number + follow

    workers = [step for step in steps if step.people and step.minutes > 0.0]
    if workers and crew.people:
        bounds[PEOPLE] = shared(workers, sum(step.people * step.minutes for step in workers), crew.people)
    for name, number in crew.equipment.items():
        users = [step for step in steps if name in step.equipment]
        if users and number:
            load = sum(step.minutes * step.equipment.count(name) for step in users)
            bounds[name] = shared(users, load, number)
    return bounds


def saved_by_one_more(steps: Sequence[Step], crew: Crew) -> float:
    """How much sooner the work is done with one more pair of hands [min].

    Args: steps: of the work. crew: people and tools as they are.
    Returns: minutes; never below zero, as a larger crew can always leave one idle.
    Valid: as schedule.
    Source: difference of two schedules; both are within their stated gap.
    """
    more = replace(crew, people=crew.people + 1)
    return max(0.0, schedule(steps, crew).finish_min - schedule(steps, more).finish_min)


def working_time(minute: float, *, day_min: float = 480.0) -> tuple[int, float]:
    """The working day, from 1, and the minute within it at which a minute of the schedule falls.

    Args: minute: of the schedule [min]. day_min: work in one day [min].
    Returns: (day, minute of that day).
    Valid: minute ≥ 0, day_min > 0.
    Source: division.

    >>> working_time(500)
    (2, 20.0)
    """
    if not (minute >= 0.0 and day_min > 0.0):
        raise ValueError(f"minute {minute:g} of days of {day_min:g} min; expected 0 or more, and above 0")
    day = int(minute // day_min)
    return day + 1, minute - day * day_min


def _finish(slots: Sequence[Slot]) -> float:
    return max((slot.end_min for slot in slots), default=0.0)


def _list_schedule(ranked: Sequence[Step], crew: Crew) -> list[Slot]:
    """Start the highest-ranked step that fits, whenever something ends."""
    rank = {step.key: i for i, step in enumerate(ranked)}
    waits = {step.key: len(set(step.after)) for step in ranked}
    followers: dict[str, list[int]] = {step.key: [] for step in ranked}
    for step in ranked:
        for key in set(step.after):
            followers[key].append(rank[step.key])
    ready = sorted(rank[key] for key, count in waits.items() if count == 0)
    free, tools = list(range(1, crew.people + 1)), dict(crew.equipment)
    last_place = dict.fromkeys(free, "")
    running: list[tuple[float, int]] = []
    slots: dict[int, Slot] = {}
    now = 0.0
    while ready or running:
        for i in list(ready):
            step = ranked[i]
            if not _fits(step, free, tools):
                continue
            hands = sorted(free, key=lambda person: (last_place[person] != step.place, person))[: step.people]
            _take(step, hands, free, tools)
            last_place.update(dict.fromkeys(hands, step.place))
            slots[i] = Slot(step, now, now + step.minutes, tuple(sorted(hands)))
            heappush(running, (now + step.minutes, i))
            ready.remove(i)
        now = running[0][0]
        while running and running[0][0] <= now + _SMALL:
            ended = slots[heappop(running)[1]]
            _give_back(ended, free, tools)
            for i in followers[ended.step.key]:
                waits[ranked[i].key] -= 1
                if waits[ranked[i].key] == 0:
                    ready.append(i)
        ready.sort()
    return list(slots.values())


def _fits(step: Step, free: Sequence[int], tools: Mapping[str, int]) -> bool:
    return step.people <= len(free) and all(tools[name] >= step.equipment.count(name) for name in step.equipment)


def _take(step: Step, hands: Sequence[int], free: list[int], tools: dict[str, int]) -> None:
    for person in hands:
        free.remove(person)
    for name in step.equipment:
        tools[name] -= 1


def _give_back(slot: Slot, free: list[int], tools: dict[str, int]) -> None:
    free.extend(slot.people)
    for name in slot.step.equipment:
        tools[name] += 1
