"""Mix to buy, for the whole job at once."""

import math
from collections.abc import Iterable

SETTLING_SHARE = 0.15
"""Extra mix for firming and the first watering: 15 to 20 % more dry bagged mix than the volume to fill (read, an
extension page); 10 to 15 % for a peat mix already moist is common practice, no source."""

ROOT_BALL_SHARE = 0.90
"""Volume of a root ball once planted, as a share of its pot: 0.85 to 0.95, settled (common practice, no source)."""


def root_ball_l(pot_volume_l: float, settled_share: float = ROOT_BALL_SHARE) -> float:
    """Volume that one root ball takes of the mix's room, in litres.

    Formula: volume of the nursery pot × settled share.
    Args: pot_volume_l [L]; settled_share [1]
    Returns: [L]
    Valid: volume at least 0, share 0 to 1
    Source: common practice, no source
    """
    if not (pot_volume_l >= 0 and 0 <= settled_share <= 1):
        raise ValueError(f"{pot_volume_l} L and a share of {settled_share} were given; expected 0 L or more, 0 to 1")
    return pot_volume_l * settled_share


def mix_to_buy_l(
    fill_volumes_l: Iterable[float], root_balls_l: float = 0.0, settling_share: float = SETTLING_SHARE
) -> float:
    """Loose mix to buy for all containers together, in litres; round it to bags once, not container by container.

    Formula: Σ fill volume × (1 + settling) − root balls planted.
    Args: fill_volumes_l: the room for mix of each container [L]; root_balls_l: of all plants [L]; settling_share [1]
    Returns: [L], never below 0
    Valid: volumes at least 0, settling 0 to 1
    Source: arithmetic; settling from an extension page (read)

    >>> round(mix_to_buy_l([5.879]), 2)
    6.76
    """
    volumes = list(fill_volumes_l)
    if not (all(v >= 0 for v in volumes) and root_balls_l >= 0 and 0 <= settling_share <= 1):
        raise ValueError(
            f"{volumes} L, {root_balls_l} L, {settling_share} were given; expected 0 or more, settling 0 to 1"
        )
    return max(0.0, math.fsum(volumes) * (1 + settling_share) - root_balls_l)


def bags(volume_l: float, bag_l: float) -> int:
    """Whole bags that hold at least so much loose mix.

    Formula: volume / bag, rounded up.
    Args: volume_l [L]; bag_l: what one bag holds loose [L]
    Returns: a whole number
    Valid: volume at least 0, bag above 0
    Source: arithmetic

    >>> bags(6.76, 2.0)
    4
    """
    if not (volume_l >= 0 and bag_l > 0):
        raise ValueError(f"{volume_l} L in bags of {bag_l} L was given; expected 0 L or more, a bag above 0 L")
    return math.ceil(volume_l / bag_l * (1 - 1e-12))
