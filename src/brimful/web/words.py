"""Figures and sentences as the pages say them."""

from brimful.design.model import RunTimeWorked, ZoneWorked
from brimful.render.words import zone_words


def zone_answer(zone: ZoneWorked) -> str:
    """The sentence a person would say about a zone."""
    name = zone_words(zone.name)
    times = {time.occasion: time for time in zone.run_times}
    if "peak" not in times:
        return f"In {name} no water arrives: Doubts says what to mend."
    return (
        f"In {name} run {starts(times['planting_day'])} after planting, {starts(times['mid_season'])} at mid-season, "
        f"{starts(times['peak'])} on the hottest days."
    )


def starts(time: RunTimeWorked) -> str:
    """How often and how long in a day."""
    if time.starts_per_day_count == 1:
        return f"{time.minutes_per_start} minutes a day"
    return f"{time.starts_per_day_count} × {time.minutes_per_start} minutes a day"
