"""The water in every container, hour by hour, for all containers and all weather-years at once.

Water is counted above wilting: 0 is the wilting point, capacity what the drained mix holds above it. The hours are
walked in blocks of containers small enough for the processor's cache; hours in a row in which no container comes to
stress are taken in one step, which is exact, since each then draws in full.
"""

from collections.abc import Sequence
from dataclasses import fields
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from brimful.domains.watering.levels import capture_share
from brimful.domains.watering.season import Balance, FloatArray, Season, Store

Pulse: TypeAlias = tuple[int, FloatArray]
"""One start: the hour of the day it falls in, and the litres it brings to each container, shape (containers,)."""

_LANES_PER_BLOCK = 4096
_SAFE_SHARE = 0.999  # of the stress level: what one hour may ask for before it could overdraw the mix


def run_store(
    store: Store,
    season: Season,
    pulses: Sequence[Sequence[Pulse]],
    *,
    start_l: FloatArray | None = None,
    period_days: int = 7,
) -> Balance:
    """Water in every container through the season, summed by period.

    Formula: each hour S ← S − w·demand·Ks(S); at a start S ← min(S + capture·pulse, capacity), the rest drains.

    Args:
        store: what the mixes hold, (containers,)
        season: weather and plants
        pulses: for every day its starts in order of the hour
        start_l: water at the start [L], (years, containers); full if omitted
        period_days: days summed into one period; the last may be shorter
    Returns: Balance [L], (periods, years, containers)
    Valid: any demand; an hour that asks for more than there is empties the mix
    Source: model of FAO-56, eq. 84–88, by the hour
    """
    days, years = season.rain_mm.shape
    containers = store.capacity_l.size
    if len(pulses) != days or season.litres_per_mm.shape[1] != containers:
        raise ValueError(
            f"{len(pulses)} days of starts, {season.litres_per_mm.shape[1]} containers of demand: "
            f"expected {days} and {containers}"
        )
    shape = (-(-days // period_days), years, containers)
    balance = Balance(**{part.name: np.zeros(shape) for part in fields(Balance)})
    width = max(1, _LANES_PER_BLOCK // years)
    for first in range(0, containers, width):
        block = slice(first, min(first + width, containers))
        water = store.capacity_l[block] if start_l is None else start_l[:, block]
        StoreBlock(store, season, block, np.array(np.broadcast_to(water, (years, block.stop - first)))).run(
            pulses, period_days, balance
        )
    return balance


class StoreBlock:
    """A few containers times all years: the state in stress levels (x = S / stress level) and its scratch space."""

    def __init__(self, store: Store, season: Season, block: slice, water_l: FloatArray) -> None:
        self.season, self.block, self.shape = season, block, water_l.shape
        self.stress_l = np.array(np.broadcast_to(store.stress_l[block], self.shape))
        self.per_stress = 1.0 / self.stress_l
        self.full = store.capacity_l[block] * self.per_stress
        self.dry = store.dry_l[block] * self.per_stress
        self.sheds = bool(np.any((store.dry_l[block] > 0.0) & (store.dry_capture[block] < 1.0)))
        self.dry_capture = store.dry_capture[block]
        self.x = water_l * self.per_stress
        self.demand, self.scratch, self.gift = (np.empty(self.shape) for _ in range(3))
        self.sums = {
            name: np.zeros(self.shape) for name in ("applied_l", "rain_l", "wanted_l", "used_l", "drained_l", "shed_l")
        }
        self.lowest = self.x.copy()
        self.seen: list[FloatArray] | None = None  # the state at the end of each hour, where someone wants to see it

    def run(self, pulses: Sequence[Sequence[Pulse]], period_days: int, balance: Balance) -> None:
        """Walk the days; write each period's sums into the balance."""
        for day, starts in enumerate(pulses):
            period, within = divmod(day, period_days)
            if within == 0:
                balance.start_l[period, :, self.block] = self.x * self.stress_l
                np.copyto(self.lowest, self.x)
            self.day(day, starts)
            if within == period_days - 1 or day == len(pulses) - 1:
                self._close(balance, period)

    def _close(self, balance: Balance, period: int) -> None:
        """Hand over the sums of a period, back in litres, and begin anew."""
        for name, total in self.sums.items():
            getattr(balance, name)[period, :, self.block] = total * self.stress_l
            total.fill(0.0)
        balance.lowest_l[period, :, self.block] = self.lowest * self.stress_l
        balance.end_l[period, :, self.block] = self.x * self.stress_l

    def day(self, day: int, starts: Sequence[Pulse]) -> None:
        """One day: dry through the light hours, fill at the starts and at the hour of rain."""
        season, shares = self.season, self.season.hour_shares
        hours = (shares if shares.ndim == 1 else shares[day]).tolist()
        et0 = season.et0_mm[day]
        et0 = et0[:, None] if et0.ndim == 1 else et0[:, self.block]
        np.multiply(et0, season.litres_per_mm[day, self.block], out=self.demand)
        self.demand *= self.per_stress
        self.sums["wanted_l"] += self.demand
        empties = float(self.demand.max()) * max(hours) > _SAFE_SHARE
        rain = season.rain_mm[day]
        events = {hour for hour, _ in starts} | ({season.rain_hour} if rain.any() else set())
        marks = sorted({0, 24, *events}) if self.seen is None else range(25)
        for hour, until in pairwise(marks):
            if hour in events:
                self._fill(day, hour, starts)
            self._dry(hours[hour:until], empties)
            if self.seen is not None:
                self.seen.append(self.x.copy())
        np.minimum(self.lowest, self.x, out=self.lowest)

    def _dry(self, shares: Sequence[float], empties: bool) -> None:
        """What some hours in a row draw: all at once where no container comes to stress in them, else hour by hour."""
        whole = sum(shares)
        if whole <= 0.0:
            return
        draw = np.multiply(self.demand, whole, out=self.scratch)
        left = np.subtract(self.x, draw, out=self.gift)
        if left.min() >= 1.0:
            self.x, self.gift = left, self.x
            self.sums["used_l"] += draw
            return
        for share in shares:
            if share > 0.0:
                self._draw(share, empties)

    def _draw(self, share: float, empties: bool) -> None:
        """An hour's draw: demand × Ks, and never more than there is."""
        draw = self.scratch
        np.minimum(self.x, 1.0, out=draw)
        draw *= self.demand
        draw *= share
        if empties:
            np.minimum(draw, self.x, out=draw)
        self.x -= draw
        self.sums["used_l"] += draw

    def _fill(self, day: int, hour: int, starts: Sequence[Pulse]) -> None:
        """Rain and starts of this hour; the lowest level is just before them."""
        np.minimum(self.lowest, self.x, out=self.lowest)
        if hour == self.season.rain_hour:
            self._add(self.season.rain_mm[day][:, None] * self.season.rain_litres_per_mm[day, self.block], "rain_l")
        for at, litres in starts:
            if at == hour:
                self._add(litres[self.block], "applied_l")

    def _add(self, litres: FloatArray, name: str) -> None:
        """Bring water: what a dry mix sheds and what a full one cannot hold runs out."""
        water = np.multiply(litres, self.per_stress, out=self.gift)
        self.sums[name] += water
        if self.sheds and bool((self.x < self.dry).any()):
            caught = water * capture_share(self.x, self.dry, self.dry_capture)
            self.sums["shed_l"] += water - caught
            water = caught
        self.x += water
        np.subtract(self.x, self.full, out=self.scratch)
        np.maximum(self.scratch, 0.0, out=self.scratch)
        self.sums["drained_l"] += self.scratch
        self.x -= self.scratch
