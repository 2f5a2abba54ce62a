"""What can befall one container: a row for each cause, with what it does to demand, supply and drain."""

import numpy as np

from brimful.domains.learning.inputs import FloatArray
from brimful.records import record

NOTHING = "reading wrong"
"""Nothing has changed: readings that look odd were wrong, or chance."""
Range = tuple[float, float]
_SAME: Range = (1.0, 1.0)


@record
class Cause:
    """One hypothesis: factors drawn evenly from a range when it sets in."""

    key: str
    chance_day: float
    """Chance a day that it sets in at one container (common practice, no source)."""
    demand: Range = _SAME
    """Times the demand."""
    supply: Range = _SAME
    """Times the water that reaches the mix."""
    metered: Range | None = None
    """Times the water the meter counts for this container; as the supply if None."""
    room: float = 1.0
    """Times what the mix can hold: above 1 where water cannot drain."""


CAUSES: tuple[Cause, ...] = (
    Cause(NOTHING, 0.0),
    Cause("plugged emitters", 1.2e-4, supply=(0.1, 0.75)),
    Cause("leak or burst", 3e-5, supply=(0.0, 0.7), metered=(1.3, 4.0)),
    Cause("closed valve or kinked feeder", 6e-5, supply=(0.0, 0.05)),
    Cause("more sun", 3e-5, demand=(1.25, 1.6)),
    Cause("more shade", 3e-5, demand=(0.4, 0.75)),
    Cause("larger canopy", 1.2e-4, demand=(1.25, 2.2)),
    Cause("drain blocked", 3e-5, room=1.3),
)
"""The first is that nothing is wrong. Ranges and chances: common practice, no source."""
CAUSE_KEYS = tuple(cause.key for cause in CAUSES)


def chances_day() -> FloatArray:
    """Chance a day that each cause sets in, (causes,)."""
    return np.array([cause.chance_day for cause in CAUSES])


def rooms() -> FloatArray:
    """Times what the mix can hold under each cause, (causes,)."""
    return np.array([cause.room for cause in CAUSES])


def drawn_factors(draw: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Factors of demand, supply and metered water from even numbers of 0 to 1, each of shape (causes, n).

    Args:
        draw: even random numbers, (3, causes, n)
    Returns: demand, supply, metered factors [-]
    Valid: numbers of 0 to 1
    Source: ranges of CAUSES
    """
    demand = _between([cause.demand for cause in CAUSES], draw[0])
    supply = _between([cause.supply for cause in CAUSES], draw[1])
    metered = _between([cause.metered or _SAME for cause in CAUSES], draw[2])
    own = np.array([cause.metered is not None for cause in CAUSES])[:, None]
    return demand, supply, np.where(own, metered, supply)


def _between(ranges: list[Range], draw: FloatArray) -> FloatArray:
    """Even draws from each row's range."""
    low, high = np.array(ranges).T[:, :, None]
    result: FloatArray = low + (high - low) * draw
    return result
