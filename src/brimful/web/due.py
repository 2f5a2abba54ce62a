"""What the calendar asks: which week of the season it is, how the timer stands in it, what comes next."""

from datetime import date, timedelta

from brimful.design.care.model import TaskWorked
from brimful.design.season.model import WeekWorked
from brimful.quantities import System
from brimful.records import record
from brimful.render.drawings.scene import Scene
from brimful.render.words import zone_words
from brimful.web.amounts import day as day_words
from brimful.web.dated import Dated
from brimful.web.words import MOST_ZONES, joined, setting


@record
class Week:
    """A week of the season, counted from planting as 1: its days, the timer of each zone, and what is to be done."""

    number: int
    first: date
    settings: tuple[tuple[str, WeekWorked], ...]
    tasks: tuple[TaskWorked, ...]

    @property
    def last(self) -> date:
        """Its seventh day."""
        return self.first + timedelta(days=6)


def weeks_of(scene: Scene) -> tuple[Week, ...]:
    """Every week in which water or work falls due, from the first task to the last."""
    tasks = scene.care.season if scene.care is not None else None
    if tasks is None:
        return ()
    zones = scene.season.zones if scene.season is not None else ()
    watered = max((len(zone.weeks) for zone in zones), default=0)
    numbers = [(task.day - tasks.planted).days // 7 + 1 for task in tasks.tasks]
    first, last = min([1, *numbers]), max([1, watered, *numbers])
    return tuple(
        Week(
            number,
            tasks.planted + timedelta(weeks=number - 1),
            tuple((zone.zone, week) for zone in zones for week in zone.weeks if week.number == number),
            tuple(task for task, its in zip(tasks.tasks, numbers, strict=True) if its == number),
        )
        for number in range(first, last + 1)
    )


def in_short(week: Week) -> list[tuple[str, date | None]]:
    """What is to be done in a week, each with its day where that is not the first; the trims of a day told together."""
    told: dict[tuple[str, date | None], list[str]] = {}
    for task in week.tasks:
        day = None if task.day == week.first else task.day
        verb, _, what = task.name.partition(" ") if task.name.startswith("Trim ") else (task.name, "", "")
        told.setdefault((verb, day), []).append(what)
    said = [(" ".join(filter(None, (verb, joined(what, len(what))))), day) for (verb, day), what in told.items()]
    return [(words if i == 0 else f"{words[:1].lower()}{words[1:]}", day) for i, (words, day) in enumerate(said)]


def week_at(weeks: tuple[Week, ...], day: date) -> Week | None:
    """The week a day falls in."""
    return next((week for week in weeks if week.first <= day <= week.last), None)


def now_words(scene: Scene, day: date, zones: tuple[str, ...]) -> list[str]:
    """How the timer stands today, zone by zone; when the season begins, before it."""
    weeks = weeks_of(scene)
    now = week_at(weeks, day)
    if now is not None and now.settings:
        told = [
            f"This week, in {zone_words(zone)}, run {setting(week.starts_per_day_count, week.minutes_per_start)}."
            for zone, week in now.settings
            if zone in zones
        ]
        return told[:MOST_ZONES]
    planted = scene.care.season.planted if scene.care is not None and scene.care.season is not None else None
    if planted is None or day > planted:
        return []
    left = (planted - day).days
    return [f"Planting day is {day_words(planted)}, {'tomorrow' if left == 1 else f'in {left} days'}."]


def today_words(dated: Dated | None) -> list[str]:
    """What to run, look at and do today, as the journal tells it; nothing outside the season."""
    from brimful.render.today import zone_sentence

    worked = dated.today if dated is not None else None
    if worked is None or worked.state != "growing" or not worked.zones:
        return []
    system = System.METRIC if worked.units == "metric" else System.US
    said = [f"Today, in {_lowered(zone_sentence(zone, system))}" for zone in worked.zones[:MOST_ZONES]]
    if len(worked.zones) > MOST_ZONES:
        said.append(f"{len(worked.zones) - MOST_ZONES} more zones: `brimful today` lists all.")
    if worked.look:
        said.append(f"Look at {worked.look[0].container or 'the whole place'} first.")
    count = len(worked.due)
    if count:
        said.append(f"{'One thing is' if count == 1 else f'{count} things are'} due: Keep tells.")
    return said


def _lowered(words: str) -> str:
    """A sentence of a zone as it goes on after "in": "Zone 1: run …" becomes "zone 1 run …"."""
    return f"{words[:1].lower()}{words[1:]}".replace(": ", " ", 1)


def next_task(scene: Scene, day: date) -> str:
    """What is to be done next, and when; "" where nothing is."""
    tasks = scene.care.season.tasks if scene.care is not None and scene.care.season is not None else ()
    coming = min((task for task in tasks if task.day >= day), key=lambda task: task.day, default=None)
    if coming is None:
        return ""
    when = "today" if coming.day == day else f"on {day_words(coming.day)}"
    return f"Next, {when}: {coming.name[:1].lower()}{coming.name[1:]}."
