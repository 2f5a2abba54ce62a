"""The work as a network: steps, what each waits for, and why."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from graphlib import CycleError, TopologicalSorter

from brimful.records import record


@record
class Step:
    """One step of the work at one place: how long [min], who and what it takes, what it waits for and why."""

    key: str
    name: str
    minutes: float
    people: int = 1
    equipment: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    reason: str = ""
    place: str = ""
    kind: str = ""
    source: str = "common practice, no source"

    def __post_init__(self) -> None:
        if not (self.minutes >= 0.0 and self.people >= 0):
            raise ValueError(f"step {self.key}: minutes and people are expected to be 0 or more")


@record
class LongestChain:
    """The chain of steps that no crew can shorten: its time [min] and its steps in order."""

    minutes: float
    keys: tuple[str, ...]


def network_faults(steps: Sequence[Step]) -> tuple[str, ...]:
    """What is wrong with a network, in words: double keys, steps waited for that are not there, circles.

    Args: steps: of the work.
    Returns: one sentence a fault; empty where it can be worked.
    Valid: any steps.
    Source: definition.
    """
    keys = [step.key for step in steps]
    faults = [f"Step {key} is there {keys.count(key)} times." for key in dict.fromkeys(keys) if keys.count(key) > 1]
    known = set(keys)
    faults += [f"Step {s.key} waits for {a}, which is not there." for s in steps for a in s.after if a not in known]
    if not faults:
        try:
            TopologicalSorter({step.key: step.after for step in steps}).prepare()
        except CycleError as circle:
            faults.append("Steps wait for one another in a circle: " + " → ".join(circle.args[1]) + ".")
    return tuple(faults)


def in_order(steps: Sequence[Step]) -> tuple[Step, ...]:
    """The steps so that each comes after all it waits for; otherwise in the order given.

    Args: steps: of the work.
    Returns: the same steps, sorted.
    Valid: a network without faults.
    Source: topological order.
    """
    if faults := network_faults(steps):
        raise ValueError(f"{faults[0]} Expected a network without faults.")
    by_key = {step.key: step for step in steps}
    return tuple(by_key[key] for key in TopologicalSorter({step.key: step.after for step in steps}).static_order())


def heads_and_tails(steps: Sequence[Step]) -> tuple[dict[str, float], dict[str, float]]:
    """The earliest start of each step, and the time from its start to the end of all that follows it [min].

    Formula: head = largest (head + minutes) of what it waits for; tail = minutes + largest tail of what waits for it.
    Args: steps: of the work.
    Returns: (heads, tails) by key, with hands and tools without limit.
    Valid: a network without faults.
    Source: critical path method.
    """
    ordered = in_order(steps)
    minutes = {step.key: step.minutes for step in ordered}
    heads: dict[str, float] = {}
    for step in ordered:
        heads[step.key] = max((heads[key] + minutes[key] for key in step.after), default=0.0)
    tails = dict(minutes)
    for step in reversed(ordered):
        for key in step.after:
            tails[key] = max(tails[key], minutes[key] + tails[step.key])
    return heads, tails


def longest_chain(steps: Sequence[Step]) -> LongestChain:
    """The chain of steps that sets the shortest time with any number of hands [min].

    Formula: from the step of longest tail on, always to the follower of longest tail.
    Args: steps: of the work.
    Returns: minutes and keys in order.
    Valid: a network without faults.
    Source: critical path method.
    """
    _, tails = heads_and_tails(steps)
    keys: list[str] = []
    choices = [step.key for step in steps if not step.after]
    while choices:
        keys.append(max(choices, key=lambda key: tails[key]))
        choices = [step.key for step in steps if keys[-1] in step.after]
    return LongestChain(tails[keys[0]] if keys else 0.0, tuple(keys))


def still_to_do(steps: Sequence[Step], done: Collection[str]) -> tuple[Step, ...]:
    """The steps not ticked off yet, freed from waiting for those that are.

    Args: steps: of the work. done: keys ticked off.
    Returns: the rest, ready to schedule anew.
    Valid: any keys; unknown ones are passed over.
    Source: definition.
    """
    return tuple(
        replace(step, after=tuple(key for key in step.after if key not in done))
        for step in steps
        if step.key not in done
    )
