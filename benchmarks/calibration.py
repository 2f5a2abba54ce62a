"""Learning where the truth is drawn as the filter believes it is: then its intervals must hold, and its means be right.

    python3 run.py bench calibration [--json] [--seasons N]

Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018, memory): factors, faults, weather's
noise, hands and readings are drawn day by day from the filter's own assumptions, and it is asked what it believes. What
still strays comes from few particles, or from what a case says of the truth that the filter does not believe.
"""

import os
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from benchmarks.invented import DAYS, WEEK
from benchmarks.telling import tell

from brimful.domains.learning import Days, Reading, Settings, Site, follow
from brimful.domains.learning.faults import CAUSES, chances_day, rooms
from brimful.domains.learning.kinds import finger_chances
from brimful.domains.learning.step import after_draw, after_water

CONTAINERS, CAPACITY_L = 100, 10.0
LITRES_PER_MM = 0.084 * CAPACITY_L
RAIN_CATCH = 0.12
MORNING, READ = 0.7, 0.2
ASKED = (60, 120, 179)
SEASONS = 12
PARTS = ("demand", "supply", "store")
DOUBTLESS = Settings(row_doubt=0.0)


@dataclass(frozen=True)
class Case:
    """What the truth is drawn from, and what the filter believes."""

    words: str
    believed: Settings = DOUBTLESS
    true: Settings = DOUBTLESS
    in_row: int = 1
    water: float = 1.33
    """Minutes over those that the plan's demand asks for."""


NARROW = replace(DOUBTLESS, row_demand=0.158, own_demand=0.147)
"""The spreads of the invented seasons of the study."""
CASES = (
    Case("as the filter believes, each container alone"),
    Case("the same, 1,024 guesses a cause in place of 128", replace(DOUBTLESS, particles=1024)),
    Case("the same, in rows of ten", in_row=10),
    Case("the same in rows of ten, with the doubt of a row as shipped", Settings(), in_row=10),
    Case("demand strays less than believed, rows of ten, a third too much water", Settings(), NARROW, in_row=10),
    Case("demand strays less than believed, rows of ten, a tenth too little", Settings(), NARROW, in_row=10, water=0.9),
)


class Season:
    """A season of containers alike, drawn as the filter believes seasons to be."""

    def __init__(self, seed: int, case: Case) -> None:
        self.draw, self.case, self.spread = np.random.default_rng(seed), case, case.true
        self.site = _site(case.in_row)
        self.days = _days(self.draw, self.site, case.water)
        rows = CONTAINERS // case.in_row
        # of a row and of each container: demand and supply; of each container: the hand
        self.sizes = [
            (case.true.row_demand, rows), (case.true.own_demand, CONTAINERS), (case.true.row_supply, rows),
            (case.true.own_supply, CONTAINERS), (case.true.errors.finger_hand, CONTAINERS),
        ]  # fmt: skip
        self.factors = [size * self.draw.standard_normal(count) for size, count in self.sizes]
        start = case.true.start_share + case.true.start_spread * self.draw.standard_normal(CONTAINERS)
        self.water_l = np.clip(start, 0.0, 1.0) * CAPACITY_L
        self.cause = np.zeros(CONTAINERS, dtype=np.int64)
        self.fault_demand, self.fault_supply = np.ones(CONTAINERS), np.ones(CONTAINERS)
        self.told: list[Reading] = []
        self.truth: dict[int, dict[str, Any]] = {}
        for day in range(DAYS):
            self._day(day)

    def _day(self, day: int) -> None:
        if day:
            self._night()
        row_demand, own_demand, row_supply, own_supply, hand = self.factors
        demand = np.exp(row_demand[self.site.row] + own_demand) * self.fault_demand
        supply = np.exp(row_supply[self.site.row] + own_supply) * self.fault_supply
        noise = np.maximum(1.0 + self.spread.day_noise * self.draw.standard_normal(CONTAINERS), 0.0)
        drawn_l = self.days.demand_l[day] * demand * noise
        given_l = self.site.flow_l_h * supply * self.days.minutes[day] / 60.0
        self._pour(MORNING * given_l)
        self.water_l = after_draw(self.water_l, READ * drawn_l, self.site.stress_l)
        if day in ASKED:
            share = self.water_l / CAPACITY_L
            self.truth[day] = {"demand": demand, "supply": supply, "store": share}
        self._feel(day, self.water_l / CAPACITY_L - hand)
        self._pour(self.days.rain_mm[day] * self.days.rain_litres_per_mm[day])
        self.water_l = after_draw(self.water_l, (1.0 - READ) * drawn_l, self.site.stress_l)
        self._pour((1.0 - MORNING) * given_l)

    def _night(self) -> None:
        """Factors wander back to the plan; faults set in and are mended."""
        hold = np.exp(-1.0 / self.spread.memory_days)
        step = np.sqrt(1.0 - hold * hold)
        self.factors = [
            hold * factor + step * size * self.draw.standard_normal(count)
            for factor, (size, count) in zip(self.factors, self.sizes, strict=True)
        ]
        arrive = np.cumsum(chances_day()[1:])
        even, mended = self.draw.random(CONTAINERS), self.draw.random(CONTAINERS) < self.spread.recovery_day
        struck = np.flatnonzero((self.cause == 0) & (even < arrive[-1]))
        well = np.flatnonzero((self.cause > 0) & mended)
        self.cause[well], self.fault_demand[well], self.fault_supply[well] = 0, 1.0, 1.0
        for one in struck.tolist():
            self.cause[one] = 1 + np.searchsorted(arrive, even[one])
            fault = CAUSES[self.cause[one]]
            self.fault_demand[one], self.fault_supply[one] = (
                self.draw.uniform(*ends) for ends in (fault.demand, fault.supply)
            )

    def _pour(self, litres: Any) -> None:
        room_l = CAPACITY_L * rooms()[self.cause]
        self.water_l = after_water(self.water_l, litres, room_l, self.site.dry_l, self.site.dry_capture)

    def _feel(self, day: int, share: Any) -> None:
        """A third of the containers, each by a finger."""
        dry, moist, _ = finger_chances(share, self.spread.errors)
        even = self.draw.random(CONTAINERS)
        felt = np.where(even < dry, 0.0, np.where(even < dry + moist, 1.0, 2.0))
        for one in np.flatnonzero(self.draw.random(CONTAINERS) < 1 / 3).tolist():
            self.told.append(Reading(day, one, "finger", float(felt[one])))


def _site(in_row: int) -> Site:
    capacity = np.full(CONTAINERS, CAPACITY_L)
    row, zone = np.arange(CONTAINERS) // in_row, np.arange(CONTAINERS)
    return Site(
        capacity, 0.4 * capacity, 0.8 * capacity, row, zone, 1.2 * capacity, 0.3 * capacity, np.full(CONTAINERS, 0.6)
    )


def _days(draw: Any, site: Site, water: float) -> Days:
    """A summer, minutes set each week to so many times the demand, rain now and then."""
    et0 = 3.2 + 2.3 * np.sin(np.pi * (np.arange(DAYS) + 10.0) / 200.0)
    rain = np.where(draw.random(DAYS) < 0.2, draw.gamma(0.8, 6.0, DAYS), 0.0)
    weeks = np.arange(DAYS) // WEEK
    mean = np.array([et0[weeks == week].mean() for week in weeks])
    minutes = np.ceil(water * 60.0 * LITRES_PER_MM * mean[:, None] / site.flow_l_h)
    demand = np.broadcast_to(LITRES_PER_MM * et0[:, None], minutes.shape).copy()
    return Days(demand, minutes, rain, np.full(minutes.shape, RAIN_CATCH), morning_share=MORNING, read_share=READ)


def strays(job: tuple[int, Case]) -> dict[str, tuple[float, float]]:
    """Of one season: for each part the mean of estimate less truth, and the share of truths within the 90 %."""
    seed, case = job
    season = Season(seed, case)
    track = follow(season.site, season.days, season.told, seed=seed, settings=case.believed, report_days=ASKED)
    found = {}
    for part, name in zip(PARTS, ("demand_factor", "supply_factor", "store_share"), strict=True):
        pairs = [(season.truth[belief.day][part], getattr(belief, name)) for belief in track.beliefs]
        off = [float((told.mean - true).mean()) for true, told in pairs]
        inside = [float(((true >= told.low) & (true <= told.high)).mean()) for true, told in pairs]
        found[part] = float(np.mean(off)), float(np.mean(inside))
    return found


def rows(seasons: int, first: int = 0) -> list[dict[str, Any]]:
    """One row for each case."""
    found = []
    with ProcessPoolExecutor(2) as pool:
        for case in CASES:
            told = list(pool.map(strays, [(first + seed, case) for seed in range(seasons)]))
            off = np.array([[one[part][0] for part in PARTS] for one in told])
            inside = np.array([[one[part][1] for part in PARTS] for one in told]).mean(axis=0)
            wide = off.std(axis=0, ddof=1) / np.sqrt(seasons)
            strayed = [f"{o:+.3f} ± {w:.3f}" for o, w in zip(off.mean(axis=0), wide, strict=True)]
            held = [round(float(share), 3) for share in inside]
            found.append(
                {"case": case.words}
                | dict(zip((f"{part}_off" for part in PARTS), strayed, strict=True))
                | dict(zip((f"{part}_inside" for part in PARTS), held, strict=True))
            )
    return found


def main() -> None:
    """Measure and print."""
    seasons = int(sys.argv[sys.argv.index("--seasons") + 1]) if "--seasons" in sys.argv else SEASONS
    off = {f"{part} off by": f"{{{part}_off:}}" for part in PARTS}
    inside = {f"{part} inside": f"{{{part}_inside:.3f}}" for part in PARTS}
    tell(rows(seasons), {"truth": "{case}"} | off | inside)


if __name__ == "__main__":
    main()
