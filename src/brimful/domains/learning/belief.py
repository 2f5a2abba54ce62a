"""What is believed of every container: means and 90 % intervals of its store and factors, chances of the causes."""

import numpy as np

from brimful.domains.learning.cloud import DEMAND, FAULT_DEMAND, FAULT_SUPPLY, SUPPLY, WATER, Cloud
from brimful.domains.learning.inputs import FloatArray, Site
from brimful.records import record

INTERVAL = 0.90


@record
class Estimate:
    """Mean, the ends of the middle 90 %, and the middle itself, arrays of shape (containers,)."""

    mean: FloatArray
    low: FloatArray
    high: FloatArray
    middle: FloatArray
    """The median: as likely above it as below."""


@record
class Belief:
    """All containers on one day, after its readings and at the hour they are taken."""

    day: int
    store_share: Estimate
    """Water above wilting over what the drained mix holds; above 1 where a drain is blocked."""
    demand_factor: Estimate
    """Demand over the demand of the plan."""
    supply_factor: Estimate
    """Water that reaches the mix over the water of the design."""
    stress_chance: FloatArray
    """(containers,): chance that the plants draw less than they want."""
    causes: FloatArray
    """(containers, causes): chance of each of CAUSES; the first says that nothing has changed."""


def belief_of(cloud: Cloud, weights: FloatArray, site: Site, day: int, count: int) -> Belief:
    """Numbers a person can act on, from weighted particles.

    Args:
        cloud: the particles
        weights: of the particles, (containers, causes, particles), adding up to 1 for each container
        site: capacities and stress levels
        day: day of the season
        count: containers to report, the first of them
    Returns: Belief
    Valid: any weights of 0 or more
    Source: weighted mean and quantiles
    """
    state, weights = cloud.state[:, :count], weights[:count]
    water = state[WATER]
    short = (weights * (water < site.stress_l[:count, None, None])).sum(axis=(1, 2))
    return Belief(
        day,
        weighted(water / site.capacity_l[:count, None, None], weights),
        weighted(np.exp(state[DEMAND]) * state[FAULT_DEMAND], weights),
        weighted(np.exp(state[SUPPLY]) * state[FAULT_SUPPLY], weights),
        short,
        weights.sum(axis=-1),
    )


def weighted(values: FloatArray, weights: FloatArray) -> Estimate:
    """Weighted mean and quantiles over causes and particles."""
    flat, weight = values.reshape(len(values), -1), weights.reshape(len(values), -1)
    order = np.argsort(flat, axis=1)
    flat, weight = np.take_along_axis(flat, order, axis=1), np.take_along_axis(weight, order, axis=1)
    passed = np.cumsum(weight, axis=1)
    rows, tail = np.arange(len(flat)), (1.0 - INTERVAL) / 2.0
    low, high, middle = (
        flat[rows, np.minimum((passed < at).sum(axis=1), flat.shape[1] - 1)] for at in (tail, 1.0 - tail, 0.5)
    )
    return Estimate((flat * weight).sum(axis=1), low, high, middle)
