"""Words that several pages share."""

from math import isinf

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def zone_words(name: str) -> str:
    """A zone as a sentence names it: its name alone where that says what it is.

    >>> zone_words("zone 1"), zone_words("steps")
    ('zone 1', 'zone steps')
    """
    return name if name.lower().startswith("zone") else f"zone {name}"


def supply_words(share: float | None) -> str:
    """What a zone takes of the supply, as a sentence says it.

    >>> supply_words(0.61), supply_words(None), supply_words(float("inf"))
    ('61 % of what the tap gives', 'supply untested', 'more than the tap gives at that pressure')
    """
    if share is None:
        return "supply untested"
    return "more than the tap gives at that pressure" if isinf(share) else f"{100 * share:.0f} % of what the tap gives"
