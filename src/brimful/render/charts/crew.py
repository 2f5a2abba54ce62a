"""Who does what when: the build's schedule by person."""

from brimful.design.care.model import BuildWorked
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import GROUND


def crew(build: BuildWorked) -> Spec | None:
    """A bar for each step and person along the working hours of the days; None where nothing is to do."""
    longest = 60 * build.day_hours
    rows = [
        {
            "person": f"person {person}",
            "from": (slot.day_count - 1) * build.day_hours + slot.start_min / 60,
            "to": (slot.day_count - 1) * build.day_hours + min(slot.end_min, longest) / 60,
            "place": slot.place,
        }
        for slot in build.slots
        for person in slot.people
    ]
    if not rows:
        return None
    days = build.finish_days_count
    return spec(
        f"{build.people_count} people finish in {days} {'day' if days == 1 else 'days'}; held up by {build.held_up_by}",
        f"working hours from the start, {build.day_hours:g} a day",
        rows,
        height=26 * build.people_count,
        mark={"type": "bar", "stroke": GROUND, "strokeWidth": 0.4, "height": 14},
        encoding={
            "y": axis("person", None, "nominal"),
            "x": axis("from", "working hours", axis={"tickMinStep": 1}),
            "x2": {"field": "to"},
            "color": axis("place", None, "nominal", sort=None),
        },
    )
