"""What the timer can be set to, and what the gardener wants of it."""

from collections import Counter
from dataclasses import field

from brimful.domains.watering.run_time import TimerLimits
from brimful.domains.watering.season import FloatArray
from brimful.domains.watering.store import Pulse
from brimful.records import record


@record
class Wanted:
    """What the gardener wants, and when the zone may run."""

    reliability: float = 0.95
    """Share of weather-years in which no container of the zone falls below its refill level in the week."""
    drained_cap: float = 0.30
    """Most of the water that may drain from every container alike, mean of the years; beyond it more and shorter starts
    are tried. What drains from one because another needs the run is not counted."""
    start_hours: tuple[int, ...] = (4, 5, 6, 7, 18, 19, 20)
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4, 5, 6)
    first_weekday: int = 0
    """Weekday of the season's first day, 0 Monday."""
    timer: TimerLimits = field(default_factory=TimerLimits)

    def __post_init__(self) -> None:
        """Refuse wishes that mean nothing."""
        shares = 0.0 < self.reliability <= 1.0 and 0.0 <= self.drained_cap <= 1.0
        hours = bool(self.start_hours) and all(0 <= hour < 24 for hour in self.start_hours)
        days = bool(self.weekdays) and all(0 <= day < 7 for day in (*self.weekdays, self.first_weekday))
        if not (shares and hours and days):
            raise ValueError(
                f"{self} cannot be met: expected reliability above 0 up to 1, drained cap 0–1, "
                "at least one start hour 0–23 and one weekday 0–6"
            )


@record
class Setting:
    """Starts a day and minutes each."""

    starts: int
    minutes: int

    @property
    def minutes_per_day(self) -> int:
        """Minutes the zone runs on a watering day."""
        return self.starts * self.minutes


def pulses_of_week(
    setting: Setting, flow_l_h: FloatArray, *, first_day: int, days: int, wanted: Wanted
) -> list[list[Pulse]]:
    """The starts of some days under one setting: spread evenly over the permitted hours, on permitted weekdays.

    Args:
        setting: starts and minutes
        flow_l_h: flow of all emitters of each container [L/h], (containers,)
        first_day: day of the season the list begins with
        days: how many
        wanted: permitted hours and weekdays
    Returns: for each day its starts
    Valid: several starts fall in one hour where hours are few; a start longer than an hour runs on into the next
    Source: common practice, no source: starts spread over the permitted hours, the first at the first of them
    """
    hours = sorted(wanted.start_hours)
    starts = [hours[turn * len(hours) // setting.starts] for turn in range(setting.starts)]
    parts = [(hour, passed) for hour in starts for passed in range(0, setting.minutes, 60)]
    minutes_of = Counter[int]()
    for hour, passed in parts:
        minutes_of[min(hour + passed // 60, 23)] += min(setting.minutes - passed, 60)
    day_starts: list[Pulse] = [(hour, flow_l_h * (minutes / 60.0)) for hour, minutes in sorted(minutes_of.items())]
    permitted = [(wanted.first_weekday + first_day + day) % 7 in wanted.weekdays for day in range(days)]
    return [day_starts if runs else [] for runs in permitted]
