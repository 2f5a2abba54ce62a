"""What a row's containers tell about each other: the row's common factors, learned from all of its members.

Each container is followed by itself, from the wide prior of row and own spread together. What it has learned beyond
that prior is a message to its row; what the others of the row have said narrows its own belief. Messages are bells over
the logarithms of demand and supply factor, in units of the prior's spread.
"""

import numpy as np

from brimful.domains.learning.cloud import DEMAND, SUPPLY, Cloud, prior_spread
from brimful.domains.learning.inputs import FloatArray, IntArray, Settings

_SHARPEST = 1e6
_TINY = 1e-9


def sibling_weights(cloud: Cloud, row: IntArray, settings: Settings) -> FloatArray:
    """Weight of every particle once the siblings are heard; adds up to 1 for each container.

    Formula: N(x; m, V + A + B) / N(x; 0, 1) with m, V the row's factors as its other members tell them, A the own
    spread, B what a whole row may be misjudged by.

    Args:
        cloud: the belief of each container by itself; the last is nobody's and never read: it shows what the same
            random numbers make of the prior, so that chance is not taken for something learned
        row: row of each container, (containers,)
        settings: spreads of rows and containers
    Returns: (containers, causes, particles)
    Valid: any number of rows, rows of one container too
    Source: hierarchical normal model by message passing, own derivation
    """
    spread = np.maximum(prior_spread(settings), _TINY)
    x = cloud.state[DEMAND : SUPPLY + 1] / spread[:, None, None, None]
    weights = np.repeat(cloud.chance[..., None] / x.shape[-1], x.shape[-1], axis=-1)
    x = _beside_prior(x, weights[-1])
    own = np.clip((np.array([settings.own_demand, settings.own_supply]) / spread) ** 2, _TINY, 1.0 - _TINY)
    mean, covariance = _row_told(*_learned(x, weights), row, own)
    covariance += np.diag(np.minimum(settings.row_doubt / spread, 1.0 - own) ** 2)
    weights *= _ratio(x, mean, covariance)
    result: FloatArray = weights / weights.sum(axis=(1, 2), keepdims=True)
    return result


def _beside_prior(x: FloatArray, weights: FloatArray) -> FloatArray:
    """Factors moved and turned so that the container nobody reads has mean 0, spread 1 and no correlation."""
    prior = x[:, -1]
    mean = np.einsum("fkp,kp->f", prior, weights)
    away = prior - mean[:, None, None]
    value, axis = np.linalg.eigh(np.einsum("fkp,gkp,kp->fg", away, away, weights) + _TINY * np.eye(2))
    (a, b), (c, d) = (axis / np.sqrt(value)) @ axis.T
    demand, supply = x - mean[:, None, None, None]
    return np.stack([a * demand + b * supply, c * demand + d * supply])


def _learned(x: FloatArray, weights: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Precision (containers, 2, 2) and information (containers, 2) that each container adds to the prior."""
    mean = np.einsum("fckp,ckp->cf", x, weights)
    spread = np.einsum("fckp,gckp,ckp->cfg", x, x, weights, optimize=True) - mean[:, :, None] * mean[:, None, :]
    value, axis = np.linalg.eigh(spread + _TINY * np.eye(2))
    added = np.clip(1.0 / np.maximum(value, _TINY) - 1.0, 0.0, _SHARPEST)
    along = np.einsum("cfa,cf->ca", axis, mean) * np.where(added > 0.0, 1.0 + added, 0.0)
    return np.einsum("cfa,ca,cga->cfg", axis, added, axis), np.einsum("cfa,ca->cf", axis, along)


def _row_told(
    precision: FloatArray, information: FloatArray, row: IntArray, own: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Mean (containers, 2) and covariance (containers, 2, 2) of each container's factors as its siblings tell them."""
    unit, spread = np.eye(2), np.diag(own)
    through = np.linalg.inv(unit + precision @ spread)
    message, pull = through @ precision, np.einsum("cfg,cg->cf", through, information)
    rows, at = np.unique(row, return_inverse=True)
    messages, pulls = np.zeros((rows.size, 2, 2)), np.zeros((rows.size, 2))
    np.add.at(messages, at, message)
    np.add.at(pulls, at, pull)
    heard = messages[at] - message + np.diag(1.0 / (1.0 - own))
    covariance = np.linalg.inv(heard)
    mean = np.einsum("cfg,cg->cf", covariance, pulls[at] - pull)
    return mean, covariance + spread


def _ratio(x: FloatArray, mean: FloatArray, covariance: FloatArray) -> FloatArray:
    """How much likelier each particle is among its siblings than alone."""
    precision = np.linalg.inv(covariance)
    (demand, supply), (a, b, c) = (
        x - mean.T[:, :, None, None],
        (precision[:, i, j][:, None, None] for i, j in ((0, 0), (0, 1), (1, 1))),
    )
    log_ratio = 0.5 * (x[0] ** 2 + x[1] ** 2 - a * demand**2 - 2.0 * b * demand * supply - c * supply**2)
    result: FloatArray = np.exp(log_ratio - log_ratio.max(axis=(1, 2), keepdims=True))
    return result
