"""Words that several pages share."""

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def zone_words(name: str) -> str:
    """A zone as a sentence names it: its name alone where that says what it is.

    >>> zone_words("zone 1"), zone_words("steps")
    ('zone 1', 'zone steps')
    """
    return name if name.lower().startswith("zone") else f"zone {name}"
