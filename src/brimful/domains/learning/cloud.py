"""The particles: for every container and every cause the same number, each a guess at the whole state.

Random numbers are drawn once for all containers. So two containers that are told the same answer the same, in
whatever order they stand, and a season costs little.
"""

import numpy as np

from brimful.domains.learning.faults import CAUSES, chances_day, drawn_factors
from brimful.domains.learning.inputs import FloatArray, IntArray, Settings, Site
from brimful.records import record

DEMAND, SUPPLY, HAND, FAULT_DEMAND, FAULT_SUPPLY, FAULT_METERED, WATER = range(7)
"""Rows of the state: logarithms of demand and supply factor, how much drier than most the hand that feels it calls a
mix (share of the store), what a fault multiplies demand, supply and metered water by, and the store [L]. Rows after
the last are the stores of further containers that share all the rest."""
_NEWBORN_SHARE = 4  # one newborn for so many particles, each day and cause


@record
class Cloud:
    """State (7, containers, causes, particles) and chance of each cause (containers, causes)."""

    state: FloatArray
    chance: FloatArray


def prior_spread(settings: Settings) -> FloatArray:
    """Standard deviation of the logarithms of demand and supply factor before any reading, (2,)."""
    return np.array(
        [np.hypot(settings.row_demand, settings.own_demand), np.hypot(settings.row_supply, settings.own_supply)]
    )


def first_cloud(site: Site, settings: Settings, random: np.random.Generator) -> Cloud:
    """The belief before the first day: nothing wrong anywhere, factors and store as the settings spread them."""
    containers, causes, particles = site.capacity_l.size, len(CAUSES), settings.particles
    state = np.ones((7, containers, causes, particles))
    start = settings.start_share + settings.start_spread * random.standard_normal((causes, particles))
    state[WATER] = np.clip(start, 0.0, max(1.0, settings.start_share)) * site.capacity_l[:, None, None]
    wander = _wander_spread(settings) * random.standard_normal((3, causes, particles))
    state[DEMAND : HAND + 1] = wander[:, None]
    state[FAULT_DEMAND:WATER] = np.stack(drawn_factors(random.random((3, causes, particles))))[:, None]
    chance = np.zeros((containers, causes))
    chance[:, 0] = 1.0
    return Cloud(state, chance)


def after_night(cloud: Cloud, settings: Settings, random: np.random.Generator) -> Cloud:
    """Factors wander, faults set in, a few are mended: one day's change of everything but the water (uses up cloud)."""
    state = cloud.state
    _wander(state, settings, random)
    arrive, keep = chances_day(), settings.recovery_day
    causes, particles = state.shape[2:]
    newborn = _newborn(state, random)
    n = newborn.shape[-1]
    sound, ill = cloud.chance[:, :1], cloud.chance[:, 1:]
    old = np.concatenate([sound * (1.0 - arrive.sum()), ill * (1.0 - keep)], axis=1)
    new = np.concatenate([keep * ill.sum(axis=1, keepdims=True), sound * arrive[1:]], axis=1)
    weights = np.concatenate(
        [
            np.broadcast_to(part[..., None] / count, (*part.shape, count))
            for part, count in ((old, particles), (new, n))
        ],
        axis=-1,
    )
    weights[:, 0, particles:] = keep * ill[:, np.arange(n) % (causes - 1)] * ((causes - 1) / n)
    return Cloud(
        resampled(np.concatenate([state, newborn], axis=-1), weights, random.random((causes, 1)), particles), old + new
    )


def _wander(state: FloatArray, settings: Settings, random: np.random.Generator) -> None:
    """Demand and supply factors a day on, in place: they wander and lean back to the plan."""
    hold = np.exp(-1.0 / settings.memory_days)
    step = _wander_spread(settings) * np.sqrt(1.0 - hold * hold)
    factors = state[DEMAND : HAND + 1]
    factors *= hold
    factors += (step * random.standard_normal((3, *state.shape[2:])))[:, None]


def _wander_spread(settings: Settings) -> FloatArray:
    """Standard deviations of the rows that wander, (3, 1, 1)."""
    return np.append(prior_spread(settings), settings.errors.finger_hand)[:, None, None]


def _newborn(state: FloatArray, random: np.random.Generator) -> FloatArray:
    """Particles that change their cause today: from sound to each cause, and from each cause to sound."""
    causes, particles = state.shape[2:]
    n = max(particles // _NEWBORN_SHARE, causes - 1)
    picked = random.integers(particles, size=(causes, n))
    born: FloatArray = state[:, :, 0][:, :, picked]
    born[:, :, 0] = state[:, :, 1 + np.arange(n) % (causes - 1), picked[0]]
    born[FAULT_DEMAND:WATER] = np.stack(drawn_factors(random.random((3, causes, n))))[:, None]
    return born


def resampled(state: FloatArray, weights: FloatArray, start: FloatArray, particles: int) -> FloatArray:
    """As many particles as wanted, drawn in proportion to their weights (systematic resampling).

    Args:
        state: (7, containers, causes, candidates)
        weights: (containers, causes, candidates), need not add up to 1; a row of zeros counts as even
        start: where the comb begins, one even number for each cause, (causes, 1)
        particles: wanted for each container and cause
    Returns: (7, containers, causes, particles), in the order of the candidates
    Valid: weights 0 or more
    Source: systematic resampling, Kitagawa 1996 (memory)
    """
    total = np.cumsum(weights, axis=-1)
    flat = total[..., -1:] <= 0.0
    if bool(flat.any()):
        total = np.where(flat, np.arange(1.0, weights.shape[-1] + 1.0), total)
    teeth = np.floor(total * (particles / total[..., -1:]) + (1.0 - start)).astype(np.int64)
    teeth[..., -1] = particles
    counts = teeth.copy()
    counts[..., 1:] -= teeth[..., :-1]
    index: IntArray = np.repeat(np.arange(counts.size), counts.ravel())
    picked: FloatArray = np.take(state.reshape(state.shape[0], -1), index, axis=1, mode="clip")
    return picked.reshape(*state.shape[:-1], particles)


def weighed(cloud: Cloud, read: IntArray, log_likelihood: FloatArray, random: np.random.Generator) -> Cloud:
    """The belief after readings at some containers (uses up cloud).

    Args:
        cloud: before
        read: containers that were read, (read,), each once
        log_likelihood: of each particle, (read, causes, particles)
        random: for the resampling
    Returns: cloud after
    Valid: finite
    Source: Bayes' rule
    """
    if not read.size:
        return cloud
    causes, particles = log_likelihood.shape[1:]
    top = log_likelihood.max(axis=(1, 2), keepdims=True)
    likely = np.exp(log_likelihood - top)
    after = cloud.chance[read] * likely.mean(axis=-1)
    cloud.chance[read] = after / after.sum(axis=1, keepdims=True)
    comb = random.random((causes, 1))
    if read.size == len(cloud.chance):
        return Cloud(resampled(cloud.state, likely, comb, particles), cloud.chance)
    cloud.state[:, read] = resampled(cloud.state[:, read], likely, comb, particles)
    return cloud


def mend(cloud: Cloud, container: int, random: np.random.Generator) -> None:
    """Make a container sound, in place: its water stays as it is believed, its faults go."""
    state, chance = cloud.state[:, container], cloud.chance[container]
    causes, particles = state.shape[1:]
    weights = np.repeat(chance / particles, particles)[None, None]
    sound = resampled(state.reshape(len(state), 1, 1, -1), weights, random.random((1, 1)), particles)[:, 0, 0]
    lasting = [DEMAND, SUPPLY, HAND, WATER]
    state[lasting] = sound[lasting, None]
    chance[:] = np.eye(1, causes)[0]
