"""Who does what when: the build's schedule, place by place."""

from collections.abc import Iterator

from brimful.design.care.model import BuildWorked
from brimful.render.charts.vega import Spec, axis, spec
from brimful.render.drawings.svg import GROUND

FOLLOWS_ON_H = 0.02
LANE = 7


def finish_words(build: BuildWorked) -> str:
    """Who finishes when, and what else than hands holds them up."""
    hands = "1 person finishes" if build.people_count == 1 else f"{build.people_count} people finish"
    held = "" if build.held_up_by == "people" else f"; {build.held_up_by} holds them up"
    return f"{hands} on day {build.finish_days_count}{held}"


def crew(build: BuildWorked) -> Spec | None:
    """A lane for each place, in it a bar for each step and person along the working hours; None where nothing is to
    do."""
    rows = list(_stretches(build))
    if not rows:
        return None
    places = dict.fromkeys(row["place"] for row in rows)
    person = axis("person", None, "nominal", sort=None)
    return spec(
        finish_words(build),
        f"who works where, in working hours from the start, {build.day_hours:g} a day",
        rows,
        height=(LANE * build.people_count + 6) * len(places),
        mark={"type": "bar", "stroke": GROUND, "strokeWidth": 0.4},
        encoding={
            "y": axis("place", None, "nominal", sort=None),
            "yOffset": person,
            "x": axis("from", "working hours", axis={"tickMinStep": 1}),
            "x2": {"field": "to"},
            "color": person,
        },
    )


def _stretches(build: BuildWorked) -> Iterator[dict[str, object]]:
    """Each person's work in working hours from the start, what follows on at the same row told as one."""
    row_of = {container: card.place for card in build.cards for container in card.containers}
    for person in range(1, build.people_count + 1):
        begun: tuple[str, float, float] | None = None
        for slot in sorted(build.slots, key=lambda one: (one.day_count, one.start_min)):
            if person not in slot.people:
                continue
            before = (slot.day_count - 1) * build.day_hours
            start, end = before + slot.start_min / 60, before + min(slot.end_min / 60, build.day_hours)
            place = row_of.get(slot.place, slot.place)
            if begun is not None and begun[0] == place and start - begun[2] < FOLLOWS_ON_H:
                begun = (place, begun[1], end)
                continue
            if begun is not None:
                yield _stretch(person, *begun)
            begun = (place, start, end)
        if begun is not None:
            yield _stretch(person, *begun)


def _stretch(person: int, place: str, start_h: float, end_h: float) -> dict[str, object]:
    return {"person": f"person {person}", "place": place, "from": start_h, "to": end_h}
