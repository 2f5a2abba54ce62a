"""Figures and sentences as the pages say them."""

from collections.abc import Sequence
from datetime import date

from brimful.design.model import RunTimeWorked, ZoneWorked
from brimful.quantities import Dimension, System, show
from brimful.render.drawings.scene import RowSeen
from brimful.render.words import zone_words

MOST_ZONES = 3
"""So many zones are told one by one; of more, the page's tables tell."""


def zones_answer(zones: Sequence[ZoneWorked]) -> list[str]:
    """What a person would say of the zones, those that run alike together: each of a few, the first of many."""
    alike: dict[str, list[str]] = {}
    for zone in zones:
        alike.setdefault(zone_answer(zone), []).append(zone_words(zone.name))
    said = [f"In {joined(names, MOST_ZONES)} {words}" for words, names in alike.items()]
    left = len(said) - MOST_ZONES
    return [*said[:MOST_ZONES], f"How long the others run stands on Water ({left} more)."] if left > 0 else said


def zone_answer(zone: ZoneWorked) -> str:
    """What a person would say about a zone."""
    times = {time.occasion: time for time in zone.run_times}
    if "peak" not in times:
        return "no water arrives: Doubts says what to mend."
    return (
        f"run {starts(times['planting_day'])} after planting, {starts(times['mid_season'])} at mid-season, "
        f"{starts(times['peak'])} on the hottest days."
    )


def starts(time: RunTimeWorked) -> str:
    """How often and how long in a day."""
    return setting(time.starts_per_day_count, time.minutes_per_start)


def setting(starts_count: int, minutes: int) -> str:
    """A timer's setting in words.

    >>> setting(1, 12), setting(2, 7), setting(0, 0)
    ('12 minutes a day', '2 × 7 minutes a day', 'not at all')
    """
    if starts_count == 0:
        return "not at all"
    each = f"{minutes} minute{'' if minutes == 1 else 's'} a day"
    return each if starts_count == 1 else f"{starts_count} × {each}"


def surplus(share: float) -> str:
    """What is got against what should be got, as people say it.

    >>> surplus(1.28), surplus(0.9), surplus(1.004)
    ('28 % more than it should', '10 % less than it should', 'just what it should')
    """
    off = round(100 * (share - 1))
    if off == 0:
        return "just what it should"
    return f"{abs(off)} % {'more' if off > 0 else 'less'} than it should"


def joined(words: Sequence[str], most: int = 4) -> str:
    """Words as a list in a sentence.

    >>> joined(["a", "b", "c"]), joined(["a", "b", "c"], 2)
    ('a, b and c', 'a, b and 1 more')
    """
    if len(words) > most:
        return f"{', '.join(words[:most])} and {len(words) - most} more"
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""


def month_name(month: int) -> str:
    """A month in full.

    >>> month_name(5)
    'May'
    """
    return f"{date(2000, month, 1):%B}"


def flow(value_l_h: float, system: System) -> str:
    """A flow in the small unit of the system."""
    return show(value_l_h, Dimension.FLOW, system, small=True)


def volume(value_l: float, system: System) -> str:
    """A volume of water."""
    return show(value_l, Dimension.VOLUME, system)


def planted(row: RowSeen) -> str:
    """What stands in each container of a row; "" where nothing does."""
    return joined([f"{one.count} {one.name}" for one in row.worked.plants], most=8)
