"""The water in the mix hour by hour, for a few days: what a probe left in it would show."""

from collections.abc import Sequence

import numpy as np

from brimful.domains.watering.season import FloatArray, Season, Store
from brimful.domains.watering.store import Pulse, StoreBlock


def levels_by_hour(store: Store, season: Season, pulses: Sequence[Sequence[Pulse]], start_l: FloatArray) -> FloatArray:
    """Water in every container at the end of each hour, in litres above wilting.

    Formula: as run_store, hour by hour.

    Args:
        store: what the mixes hold, (containers,)
        season: weather and plants of the days
        pulses: for every day its starts in order of the hour
        start_l: water at the start [L], (years, containers)
    Returns: [L], (24 × days, years, containers)
    Valid: as run_store; meant for a few containers and days, since every hour is kept
    Source: run_store
    """
    days, years = season.rain_mm.shape
    if len(pulses) != days or start_l.shape != (years, store.capacity_l.size):
        raise ValueError(
            f"{len(pulses)} days of starts and water of {start_l.shape}: expected {days} and "
            f"{(years, store.capacity_l.size)}"
        )
    block = StoreBlock(store, season, slice(0, store.capacity_l.size), np.array(start_l))
    block.seen = []
    for day, starts in enumerate(pulses):
        block.day(day, starts)
    return np.array(block.seen) * block.stress_l
