"""The season followed day by day: the water of every guess, and what each reading says about the guesses."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, replace

import numpy as np

from brimful.domains.learning.belief import Belief, belief_of, weighted
from brimful.domains.learning.cloud import (
    DEMAND,
    FAULT_DEMAND,
    FAULT_METERED,
    FAULT_SUPPLY,
    HAND,
    SUPPLY,
    WATER,
    Cloud,
    after_night,
    first_cloud,
    mend,
    weighed,
)
from brimful.domains.learning.faults import rooms
from brimful.domains.learning.inputs import Days, FloatArray, IntArray, Reading, Settings, Site
from brimful.domains.learning.kinds import KINDS, Seen, require_readings
from brimful.domains.learning.siblings import sibling_weights
from brimful.domains.learning.step import after_draw, after_water
from brimful.records import record


@record
class Track:
    """A season as it was believed, day by day."""

    causes: FloatArray
    """(days, containers, causes): chance of each of CAUSES after the day's readings."""
    beliefs: tuple[Belief, ...]
    """In full, on the days asked for."""


def follow(
    site: Site,
    days: Days,
    readings: Iterable[Reading],
    *,
    seed: int,
    settings: Settings | None = None,
    report_days: Sequence[int] = (-1,),
) -> Track:
    """What is believed of every container through the season, by a particle filter over the daily balance.

    Formula: each day factors wander, water comes and goes as in the store; each reading weighs the guesses by how
    likely it would be if they were true; siblings share what they have learned of their row.

    Args:
        site: containers as designed
        days: weather, plants and schedule
        readings: in any order; days without any widen the belief
        seed: of the random numbers
        settings: what is believed before the first reading
        report_days: days to report in full; −1 is the last
    Returns: Track
    Valid: any number of readings, several a day too
    Raises: ValueError for readings of days, containers or kinds that are none
    Source: bootstrap particle filter, Gordon, Salmond and Smith 1993 (memory), one bank of particles for each cause
    """
    count = len(days.demand_l)
    run = _begun(site, days, tuple(readings), settings or Settings(), seed)
    wanted = {day % count for day in report_days}
    chances, beliefs = [], []
    for day in range(count):
        run.to_reading(day)
        weights = run.weights()
        chances.append(weights[: site.capacity_l.size].sum(axis=-1))
        if day in wanted:
            beliefs.append(belief_of(run.each(), weights, run.site, day, site.capacity_l.size))
        run.to_night(day)
    return Track(np.array(chances), tuple(beliefs))


def believed_on(
    day: int, site: Site, days: Days, readings: Iterable[Reading], *, seed: int, settings: Settings | None = None
) -> Belief:
    """What is believed on one day alone: what follow reports of it, in less time.

    Args: day: of the season, 0 the first; the others as for follow
    Returns: Belief
    Valid: day from 0 to the last of days
    Raises: ValueError as follow
    Source: follow
    """
    run = _begun(site, days, tuple(readings), settings or Settings(), seed)
    for past in range(day):
        run.to_reading(past)
        run.to_night(past)
    run.to_reading(day)
    return belief_of(run.each(), run.weights(), run.site, day, site.capacity_l.size)


def _begun(site: Site, days: Days, told: tuple[Reading, ...], settings: Settings, seed: int) -> "_Run":
    """The first morning, once everything told has been looked at."""
    require_readings(told, len(days.demand_l), site.empty_kg)
    if days.demand_l.shape[1] != site.capacity_l.size:
        raise ValueError(f"{days.demand_l.shape[1]} containers of demand, expected {site.capacity_l.size}")
    site, days = with_nobodys(site, days_as_told(days, told, site.zone))
    by_day: dict[int, list[Reading]] = defaultdict(list)
    for reading in told:
        by_day[reading.day].append(reading)
    weighs = any(KINDS[one.kind].likelihood or one.kind == "mended" for one in told)
    return (_Run if weighs else _Untold)(site, days, by_day, settings, np.random.default_rng(seed))


def days_as_told(days: Days, readings: Sequence[Reading], zone: IntArray) -> Days:
    """The days with rain and minutes as they were read in place of those expected."""
    rain, minutes = days.rain_mm.copy(), days.minutes.copy()
    for reading in readings:
        if reading.kind == "rain":
            rain[reading.day] = reading.value
        elif reading.kind == "ran":
            minutes[reading.day, zone == zone[reading.container]] = reading.value
    return replace(days, rain_mm=rain, minutes=minutes)


def with_nobodys(site: Site, days: Days) -> tuple[Site, Days]:
    """The site with one container more, like the first, in a row and zone of its own, that nobody reads."""
    first = {part.name: np.append(getattr(site, part.name), getattr(site, part.name)[0]) for part in fields(Site)}
    for name in ("row", "zone"):
        first[name][-1] = first[name].max() + 1
    demand, minutes, catch = (
        np.concatenate([part, part[:, :1]], axis=1) for part in (days.demand_l, days.minutes, days.rain_litres_per_mm)
    )
    return Site(**first), replace(days, demand_l=demand, minutes=minutes, rain_litres_per_mm=catch)


def held_untold_l(day: int, site: Site, days: Days, *, seed: int, settings: Settings | None = None) -> FloatArray:
    """The middle of what each container holds on a day where nobody tells anything, in less time than believed_on.

    Args: as for believed_on
    Returns: median store [L], (containers,)
    Valid: day from 0 to the last of days
    Source: follow; without readings all containers share one cloud of factors
    """
    run = _Untold(site, days, {}, settings or Settings(), np.random.default_rng(seed))
    for past in range(day):
        run.to_reading(past)
        run.to_night(past)
    run.to_reading(day)
    weights = sibling_weights(run.cloud, np.zeros(1, dtype=np.int64), run.settings)
    return weighted(run.water_l, np.broadcast_to(weights, run.water_l.shape)).middle


class _Run:
    """The cloud on its way through the days."""

    def __init__(
        self,
        site: Site,
        days: Days,
        by_day: Mapping[int, Sequence[Reading]],
        settings: Settings,
        random: np.random.Generator,
    ) -> None:
        self.site, self.days, self.by_day, self.settings, self.random = site, days, by_day, settings, random
        self.cloud = self._first()
        self.stress, self.dry, self.capture = (
            part[:, None, None] for part in (site.stress_l, site.dry_l, site.dry_capture)
        )
        self.capacity = site.capacity_l[:, None, None]
        self.noise = np.ones(self.cloud.state.shape[2:])
        self.room = self.capacity * rooms()[:, None]

    def _first(self) -> Cloud:
        return first_cloud(self.site, self.settings, self.random)

    @property
    def water_l(self) -> FloatArray:
        """What each guess says each container holds, (containers, causes, particles)."""
        result: FloatArray = self.cloud.state[WATER]
        return result

    def weights(self) -> FloatArray:
        """Of every guess, once siblings are heard."""
        return sibling_weights(self.each(), self.site.row, self.settings)

    def each(self) -> Cloud:
        """The cloud with every container in a place of its own."""
        return self.cloud

    def to_reading(self, day: int) -> None:
        """Morning water, the sun up to the hour of reading, the readings."""
        if day:
            self.cloud = after_night(self.cloud, self.settings, self.random)
        self.noise = np.maximum(1.0 + self.settings.day_noise * self.random.standard_normal(self.noise.shape), 0.0)
        self._water(day, self.days.morning_share)
        self._draw(day, self.days.read_share)
        self._read(day, self.by_day.get(day, ()))

    def to_night(self, day: int) -> None:
        """Rain, the rest of the sun, evening water."""
        rain = self.days.rain_mm[day] * self.days.rain_litres_per_mm[day]
        self._pour(rain[:, None, None])
        self._draw(day, 1.0 - self.days.read_share)
        self._water(day, 1.0 - self.days.morning_share)

    def _supply_l_h(self, factor: int = FAULT_SUPPLY) -> FloatArray:
        """What each guess's emitters give; or what the meter counts for them."""
        state = self.cloud.state
        result: FloatArray = self.site.flow_l_h[:, None, None] * np.exp(state[SUPPLY]) * state[factor]
        return result

    def _water(self, day: int, share: float) -> None:
        """The timer's minutes, a share of the day's."""
        hours = share * self.days.minutes[day] / 60.0
        if hours.any():
            self._pour(self._supply_l_h() * hours[:, None, None])

    def _pour(self, litres: FloatArray) -> None:
        """Water onto every guess."""
        if litres.any():
            self.water_l[:] = after_water(self.water_l, litres, self.room, self.dry, self.capture)

    def _draw(self, day: int, share: float) -> None:
        """Plants draw for a share of the day."""
        state = self.cloud.state
        demand = (
            share * self.days.demand_l[day][:, None, None] * np.exp(state[DEMAND]) * state[FAULT_DEMAND] * self.noise
        )
        self.water_l[:] = after_draw(self.water_l, demand, self.stress)

    def _read(self, day: int, readings: Sequence[Reading]) -> None:
        """Weigh the guesses by all readings of the day; a mend makes a container sound first."""
        for container in {one.container for one in readings if one.kind == "mended"}:
            mend(self.cloud, container, self.random)
        groups = [(key, [one for one in readings if one.kind == key]) for key in KINDS if KINDS[key].likelihood]
        likely = np.zeros(self.cloud.state.shape[1:])
        read = np.zeros(len(likely), dtype=bool)
        for key, group in groups:
            if group:
                index, log_likelihood = self._likelihood(day, key, group)
                for one, log in zip(index.tolist(), log_likelihood, strict=True):
                    likely[one] += log
                read[index] = True
        at: IntArray = np.flatnonzero(read)
        self.cloud = weighed(self.cloud, at, likely[at], self.random)

    def _likelihood(self, day: int, key: str, group: Sequence[Reading]) -> tuple[IntArray, FloatArray]:
        """Log-likelihood of readings of one kind, for the containers they speak of."""
        site, likelihood = self.site, KINDS[key].likelihood
        metered, mean, variance = self._metered(day)
        pairs = [(c, one) for one in group for c in self._spoken_of(key, one.container)]
        index: IntArray = np.array([c for c, _ in pairs], dtype=np.int64)
        totals = [
            np.array([part[site.zone == site.zone[c]].sum() - part[c] for c in index])[:, None, None]
            for part in (mean, variance)
        ]
        seen = Seen(
            water_l=self.water_l[index],
            capacity_l=self.capacity[index],
            hand=self.cloud.state[HAND][index],
            supply_l_h=self._supply_l_h()[index],
            metered_l=metered[index],
            empty_kg=site.empty_kg[index][:, None, None],
            value=np.array([one.value for _, one in pairs])[:, None, None],
            minutes=np.array([one.minutes for _, one in pairs])[:, None, None],
            others_mean_l=totals[0],
            others_variance_l2=totals[1],
        )
        assert likelihood is not None
        return index, likelihood(seen, self.settings.errors)

    def _spoken_of(self, key: str, container: int) -> Sequence[int]:
        """A meter speaks of all containers of its zone, everything else of one."""
        zone = self.site.zone
        return [int(c) for c in np.flatnonzero(zone == zone[container])] if key == "meter" else [container]

    def _metered(self, day: int) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Litres the meter counts for each guess this day, and their mean and variance for each container."""
        metered = self._supply_l_h(FAULT_METERED) * (self.days.minutes[day] / 60.0)[:, None, None]
        chance = self.cloud.chance
        mean = (chance * metered.mean(axis=-1)).sum(axis=1)
        square = (chance * (metered**2).mean(axis=-1)).sum(axis=1)
        return metered, mean, np.maximum(square - mean**2, 0.0)


class _Untold(_Run):
    """The same where no reading weighs the guesses: one cloud of factors, with the stores of all containers."""

    def _first(self) -> Cloud:
        one = Site(**{part.name: getattr(self.site, part.name)[:1] for part in fields(Site)})
        cloud = first_cloud(one, self.settings, self.random)
        stores = cloud.state[WATER] * (self.site.capacity_l / self.site.capacity_l[0])[:, None, None, None]
        return Cloud(np.concatenate([cloud.state[:WATER], stores]), cloud.chance)

    @property
    def water_l(self) -> FloatArray:
        result: FloatArray = self.cloud.state[WATER:, 0]
        return result

    def each(self) -> Cloud:
        """The factors once for each container."""
        count, (factors, stores) = len(self.water_l), np.split(self.cloud.state, [WATER])
        state = np.concatenate([np.repeat(factors, count, axis=1), stores.swapaxes(0, 1)])
        return Cloud(state, np.repeat(self.cloud.chance, count, axis=0))
