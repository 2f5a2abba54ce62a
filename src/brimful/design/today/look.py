"""Which container to look at first, and which one to feel next because least is known of it."""

from collections.abc import Mapping, Sequence

from brimful.design.today.model import BelievedWorked, CauseWorked, LookWorked
from brimful.design.today.told import Ground, Told
from brimful.domains.learning import Belief, suspects

CAUSES_TOLD = 3
MOST = 5


def look_of(belief: Belief, ground: Ground, told: Sequence[Told]) -> tuple[LookWorked, ...]:
    """Containers that have drifted from their siblings, the surest first, and those somebody reported."""
    reported = _reported(told)
    found = [
        LookWorked(
            ground.names[one.container],
            one.chance,
            tuple(CauseWorked(cause, chance) for cause, chance in one.ranked[:CAUSES_TOLD]),
            one.test.key,
            one.test.minutes,
            reported.pop(ground.names[one.container], ""),
        )
        for one in suspects(belief.causes)[:MOST]
    ]
    others = [LookWorked(place, 1.0, (), "", 0.0, words) for place, words in reported.items()]
    return tuple(found + others)


def _reported(told: Sequence[Told]) -> dict[str, str]:
    """Problems that somebody wrote down and nobody has mended since, by place."""
    open_: dict[str, str] = {}
    for one in sorted(told, key=lambda one: one.at):
        if one.kind == "problem":
            open_[one.place] = one.words
        elif one.kind == "mended":
            open_.pop(one.place, None)
    return open_


def believed_of(
    belief: Belief, ground: Ground, *, row_of: Sequence[str], zone_of: Sequence[str], unread: Mapping[int, int]
) -> tuple[BelievedWorked, ...]:
    """The belief in numbers, a line a container."""
    store, demand, supply = belief.store_share, belief.demand_factor, belief.supply_factor
    return tuple(
        BelievedWorked(
            container=name,
            row=row_of[i],
            zone=zone_of[i],
            store_share=float(store.mean[i]),
            store_low_share=float(store.low[i]),
            store_high_share=float(store.high[i]),
            demand_factor=float(demand.mean[i]),
            demand_low_factor=float(demand.low[i]),
            demand_high_factor=float(demand.high[i]),
            supply_factor=float(supply.mean[i]),
            supply_low_factor=float(supply.low[i]),
            supply_high_factor=float(supply.high[i]),
            stress_chance_share=float(belief.stress_chance[i]),
            unread_days=unread.get(i),
        )
        for i, name in enumerate(ground.names)
    )


def feel_next(believed: Sequence[BelievedWorked]) -> str:
    """The container of whose store least is known."""
    return max(believed, key=lambda one: one.store_high_share - one.store_low_share).container if believed else ""
