"""Words that several pages of the book share."""

import re
from collections.abc import Mapping, Sequence

from brimful.design.model import Occasion, RunTimeWorked
from brimful.quantities import System

CUBIC_FOOT_L = 28.316846592
_OCCASIONS: dict[Occasion, str] = {
    "planting_day": "after planting",
    "mid_season": "at mid-season",
    "peak": "on the hottest days",
}


def occasion_words(occasion: Occasion) -> str:
    """When, in words."""
    return _OCCASIONS[occasion]


def starts_words(time: RunTimeWorked) -> str:
    """A timer's setting in words: "12 min a day", "2 × 7 min a day"."""
    many = time.starts_per_day_count
    return f"{time.minutes_per_start} min a day" if many == 1 else f"{many} × {time.minutes_per_start} min a day"


def loose(volume_l: float, system: System) -> str:
    """Mix is sold by the cubic foot, or by the litre."""
    return f"{volume_l / CUBIC_FOOT_L:.2f} cu ft" if system is System.US else f"{volume_l:.0f} L"


def percent(share: float) -> str:
    """A share as whole percent."""
    return f"{100 * share:.0f} %"


def some_of(names: Sequence[str]) -> str:
    """Names in a heading: all of up to three, else the first two and how many more.

    >>> some_of(["a", "b", "c"]), some_of(["a", "b", "c", "d"])
    ('a, b, c', 'a, b and 2 more')
    """
    return ", ".join(names) if len(names) <= 3 else f"{names[0]}, {names[1]} and {len(names) - 2} more"


def by_name(words: str, names: Mapping[str, str]) -> str:
    """Words in which each key of the plant table gives way to the plant's common name.

    >>> by_name("Set 4 geranium-zonal", {"geranium-zonal": "zonal geranium"})
    'Set 4 zonal geranium'
    """
    if not names:
        return words
    keys = "|".join(re.escape(key) for key in sorted(names, key=len, reverse=True))
    return re.sub(rf"(?<![\w-])(?:{keys})(?![\w-])", lambda found: names[found[0]], words)
