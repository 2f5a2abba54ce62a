"""Words that several pages share."""

from datetime import date
from math import isinf

from brimful.plan.names import tube_words, zone_words

__all__ = ["MONTHS", "capital", "long_day", "short_day", "supply_words", "tube_words", "zone_words"]
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def supply_words(share: float | None) -> str:
    """How much of the supply a zone draws.

    >>> supply_words(0.42), supply_words(None), supply_words(float("inf"))
    ('42 % of what the tap gives', 'supply untested', 'more than the tap gives at that pressure')
    """
    if share is None:
        return "supply untested"
    return "more than the tap gives at that pressure" if isinf(share) else f"{100 * share:.0f} % of what the tap gives"


def short_day(day: str) -> str:
    """A day of the season with its month cut short, for axes and narrow columns.

    >>> short_day("12 June"), short_day("4 September")
    ('12 Jun', '4 Sep')
    """
    number, _, month = day.partition(" ")
    return f"{number} {month[:3]}"


def long_day(day: date) -> str:
    """A day with its year, for what is looked back on.

    >>> long_day(date(2027, 5, 20))
    '20 May 2027'
    """
    return f"{day.day} {day:%B} {day.year}"


def capital(words: str) -> str:
    """The first letter large, the others as they are.

    >>> capital("zone 1"), capital("")
    ('Zone 1', '')
    """
    return words[:1].upper() + words[1:]
