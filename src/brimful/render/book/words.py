"""Words that several pages of the book share."""

from collections.abc import Sequence

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
