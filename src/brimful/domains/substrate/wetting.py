"""Water that never gets in: a dry peat mix sheds part of it, and a pulse larger than the room left drains away."""

DRY_SHARE = 0.32
"""Below 30 to 35 % water by volume peat mixes begin to shed water (common practice, no source)."""
LEAST_CAPTURE = 0.65
"""Of the first pulse on a mix dried out, 20 to 50 % runs down the gap at the wall (common practice, no source)."""


def capture_share(
    water_share: float, *, dry_share: float = DRY_SHARE, driest_share: float, least: float = LEAST_CAPTURE
) -> float:
    """Share of a pulse that the mix takes up rather than sheds, by how dry it is.

    Formula: 1 down to the dry share, then in a straight line to `least` at the driest share.
    Args: water_share: water in the mix now [m³/m³]; dry_share: where shedding begins; driest_share: water that stays at
        wilting (θr); least: the share taken up there
    Returns: [1]
    Valid: driest < dry, least 0 to 1
    Source: common practice, no source (that peat turns water-repellent on drying: Durand et al. 2021, read)
    """
    if not (0 <= driest_share < dry_share <= 1 and 0 <= least <= 1):
        raise ValueError(
            f"driest {driest_share}, dry {dry_share}, least {least} were given; expected 0 ≤ driest < dry ≤ 1"
        )
    dryness = min(1.0, max(0.0, (dry_share - water_share) / (dry_share - driest_share)))
    return 1.0 - dryness * (1.0 - least)


def taken_up_l(pulse_l: float, room_l: float, capture: float = 1.0) -> tuple[float, float]:
    """What a pulse leaves in the container and what drains away, both in litres.

    Formula: taken up = min(room, capture × pulse); the rest drains.
    Args: pulse_l: water given [L]; room_l: what the drained container could still hold [L]; capture [1]
    Returns: (taken up, drained) [L]; together the pulse
    Valid: all at least 0, capture at most 1
    Source: conservation of water

    >>> taken_up_l(3.0, 2.0)
    (2.0, 1.0)
    """
    if not (pulse_l >= 0 and room_l >= 0 and 0 <= capture <= 1):
        raise ValueError(
            f"pulse {pulse_l} L, room {room_l} L, capture {capture} were given; expected 0 or more, capture 0 to 1"
        )
    taken = min(room_l, capture * pulse_l)
    return taken, pulse_l - taken
