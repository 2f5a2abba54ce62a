"""How far containers stray from their share: making of the emitters, plugging and pressure, by seeded trial."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from brimful.records import record

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from brimful.domains.hydraulics.arrays import Array

FAIR_SHARE = 0.8  # below this a container is starved: common practice, no source
HYDRAULICS, MAKING, PLUGGING = "pressure", "making of the emitters", "plugging"


@record
class Spread:
    """Chances that containers get too little, and which part drives it."""

    chance_any: float  # that at least one container gets less than the wanted part of its share
    chance: tuple[float, ...]  # of each container
    parts: dict[str, float]  # variance of flow over share, by cause
    driver: str  # the greatest of them; "" where nothing strays
    trials: int


def flow_spread(
    flow_l_h: Sequence[float],
    emitters: Sequence[int],
    *,
    cv: float,
    plugged: float = 0.0,
    seed: int,
    trials: int = 10_000,
) -> Spread:
    """Chance that a container gets less than 80 % of its share, by seeded Monte Carlo over making and plugging.

    Formula: flow = design flow · (a + Cv·√a·z)/n, a of n emitters not plugged (binomial), z normal; its share is the
    zone's mean flow an emitter times n.

    Args:
        flow_l_h: design flow of each container [L/h]; emitters: how many each has
        cv: making of the emitters, a fraction [-]; plugged: chance that an emitter is plugged [-]
        seed: of the random numbers; trials: how many zones are drawn
    Returns: chances, variance by cause, driver
    Valid: Cv below 0.3; pressures are taken not to move when a few emitters plug
    Source: sum of normal variations (Bralts' Vm²/n, from memory), own derivation for plugging
    """
    import numpy as np

    if len(flow_l_h) != len(emitters) or not flow_l_h or min(emitters) < 1 or not (0 <= cv < 0.3 and 0 <= plugged < 1):
        raise ValueError(f"{len(flow_l_h)} flows, {len(emitters)} counts, Cv {cv}, plugged {plugged}; see Valid")
    flow, n = np.array(flow_l_h, dtype=float), np.array(emitters)
    share = flow.sum() / n.sum() * n
    if share[0] == 0:
        return Spread(1.0, (1.0,) * len(n), {HYDRAULICS: 0.0, MAKING: 0.0, PLUGGING: 0.0}, HYDRAULICS, trials)
    random = np.random.default_rng(seed)
    alive = random.binomial(n, 1.0 - plugged, (trials, len(n)))
    drawn = flow * (alive + cv * np.sqrt(alive) * random.standard_normal((trials, len(n)))) / n
    short = drawn < FAIR_SHARE * share
    parts = _parts(flow / share, n, cv, plugged)
    driver = max(parts, key=lambda name: parts[name]) if max(parts.values()) > 1e-12 else ""
    return Spread(float(short.any(axis=1).mean()), tuple(short.mean(axis=0).tolist()), parts, driver, trials)


def _parts(ratio: "Array", n: "NDArray[np.int64]", cv: float, plugged: float) -> dict[str, float]:
    """Variance of flow over share: between containers from pressure, within from making and plugging."""
    return {
        HYDRAULICS: float(ratio.var()),
        MAKING: float((ratio**2 * cv**2 * (1.0 - plugged) / n).mean()),
        PLUGGING: float((ratio**2 * plugged * (1.0 - plugged) / n).mean()),
    }
