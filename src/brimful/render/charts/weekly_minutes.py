"""Minutes of the timer week by week."""

from brimful.design.season.model import ZoneSeason
from brimful.render.charts.vega import Spec, axis, spec, weeks_axis
from brimful.render.drawings.svg import WATER
from brimful.render.words import short_day


def weekly_minutes(zone: ZoneSeason) -> Spec:
    """A step for each week: starts × minutes a day."""
    rows = [
        {"week": short_day(week.from_day), "minutes": week.starts_per_day_count * week.minutes_per_start}
        for week in zone.weeks
    ]
    worst = max(zone.weeks, key=lambda week: week.starts_per_day_count * week.minutes_per_start)
    most = worst.starts_per_day_count * worst.minutes_per_start
    x = weeks_axis([short_day(week.from_day) for week in zone.weeks])
    return spec(
        f"The timer runs longest in the week of {worst.from_day}: {most} min a day",
        f"minutes a day of {zone.zone}, all starts together",
        rows,
        height=100,
        mark={"type": "bar", "color": WATER},
        encoding={"x": x, "y": axis("minutes", "min a day")},
    )
