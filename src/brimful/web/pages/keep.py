"""Keep: what is due, week by week, from the first start of the water to the shut-down."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise

from brimful.design.care.model import FeedWorked, TankWorked
from brimful.render.book.tasks import SHUT_DOWN
from brimful.render.drawings.scene import Scene
from brimful.render.words import zone_words
from brimful.web.amounts import day as day_words
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, chosen_of
from brimful.web.clock import today
from brimful.web.dated import day_of, mark
from brimful.web.due import Week, in_short, next_task, now_words, week_at, weeks_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.shown import charts_of
from brimful.web.words import joined

_CAUTION = re.compile(r"Mind \(([^)]+)\): (.*?) Decides: (.*?)\.(?=\s|$)")


def look(sight: Sight, asked: Asked) -> Leaf:
    """Sentences, what is due at each container in the week spoken of, then the weeks, the feed, the shut-down."""
    scene = sight.scene
    assert scene is not None
    chosen, weeks, day = chosen_of(scene, asked), weeks_of(scene), today()
    now = week_at(weeks, day)
    tasks = scene.care.season.tasks if scene.care is not None and scene.care.season is not None else ()
    kinds = {task.key: task for task in tasks}
    inside = {
        "chosen": chosen, "weeks": weeks, "now": now, "feed": _feed(scene), "kinds": list(kinds.values()),
        "last": [task for task in tasks if task.key in SHUT_DOWN], "charts": charts_of(sight),
        "parted": parted, "in_short": in_short,
        "nitrogen_charts": _nitrogen_charts(scene, chosen),
        "tanks": _tanks(scene, chosen),
        "off": any(not s.starts_per_day_count for w in weeks for zone, s in w.settings if zone in chosen.zone_names),
        "dated": day_of(sight), "day_mark": mark(sight),
    }  # fmt: skip
    week = now or _first_watered(weeks)
    told = f"Minutes a day in the week of {day_words(week.first)}" if week else "Minutes a day at mid-season"
    return Leaf(tuple(_said(scene, chosen)), _marks(scene, week), inside, told)


def _first_watered(weeks: tuple[Week, ...]) -> Week | None:
    """The first week in which every zone runs."""
    return next((w for w in weeks if w.settings and all(one.minutes_per_start for _, one in w.settings)), None)


def _marks(scene: Scene, week: Week | None) -> dict[str, Mark]:
    """Minutes of the timer in a week, and whether the container is fed in it; by the design where no week is known."""
    settings = {zone: (one.starts_per_day_count, one.minutes_per_start) for zone, one in week.settings} if week else {}
    for _, zone in scene.zones:
        middle = next((time for time in zone.run_times if time.occasion == "mid_season"), None)
        if zone.name not in settings and middle is not None:
            settings[zone.name] = (middle.starts_per_day_count, middle.minutes_per_start)
    fed = "\nfeed" if week is not None and any(task.key == "feed" for task in week.tasks) else ""
    return {
        name: Mark(_minutes(*settings.get(row.worked.zone, (0, 0))) + fed)
        for row in scene.rows
        for name in row.spec.ids
    }


def _minutes(starts_count: int, minutes: int) -> str:
    if not starts_count:
        return "timer\noff"
    return f"{minutes} min" if starts_count == 1 else f"{starts_count} × {minutes}"


def _said(scene: Scene, chosen: Chosen) -> list[str]:
    day = today()
    said = [f"{chosen.one} runs with {zone_words(chosen.zone_names[0])}."] if chosen.one else []
    said += [*now_words(scene, day, chosen.zone_names), next_task(scene, day)]
    care = scene.care
    if care is not None and care.season is not None:
        most = max(care.season.weeks, key=lambda week: week.hours, default=None)
        busiest = f", at most {most.hours:.1f} in a week" if most is not None else ""
        said.append(f"From planting to the frost the row takes {care.season.total_hours:.0f} hours{busiest}.")
    if not any(said):
        return ["What is due will stand here once build and care are worked out."]
    return [words for words in said if words]


def parted(text: str) -> tuple[str, list[tuple[str, str, str]]]:
    """What a task is, and its cautions apart: topic, words, who decides.

    >>> parted("About 5 minutes. Mind (heat): Drink. Decides: you.")
    ('About 5 minutes.', [('heat', 'Drink.', 'you')])
    """
    first = text.find("Mind (")
    lead = text if first < 0 else text[:first]
    return lead.strip(), _CAUTION.findall(text)


def _feed(scene: Scene) -> FeedWorked | None:
    return scene.care.feed if scene.care is not None else None


def _tanks(scene: Scene, chosen: Chosen) -> list[tuple[str, TankWorked]]:
    """Each filling of the tank once, with the days on which it is the same."""
    feed, days = _feed(scene), dict[TankWorked, list[date]]()
    for one in feed.tanks if feed is not None else ():
        if one.zone in chosen.zone_names:
            days.setdefault(replace(one, day=date.min), []).append(one.day)
    return [(days_words(on), one) for one, on in days.items()]


def days_words(on: Sequence[date]) -> str:
    """Days as people say them: one by one where they are few or uneven, else from, to, and how far apart.

    >>> days_words([date(2026, 5, 29), date(2026, 6, 5)])
    '29 May and 5 Jun'
    >>> days_words([date(2026, 5, 29), date(2026, 6, 5), date(2026, 6, 12)])
    '29 May to 12 Jun, every 7 days'
    """
    apart = {(after - before).days for before, after in pairwise(on)}
    if len(on) > 2 and len(apart) == 1:
        return f"{day_words(on[0])} to {day_words(on[-1])}, every {apart.pop()} days"
    return joined([day_words(day) for day in on], most=len(on))


def _nitrogen_charts(scene: Scene, chosen: Chosen) -> list[str]:
    feed = _feed(scene)
    rows = feed.nitrogen if feed is not None else ()
    return [f"chart-nitrogen-{i}.svg" for i, one in enumerate(rows, 1) if one.row in chosen.row_names]


PAGE = Page("keep", "Keep", "keep.html", look)
