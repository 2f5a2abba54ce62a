"""Keep: what is due, week by week, from the first start of the water to the shut-down."""

from brimful.design.care.model import FeedWorked, TaskWorked
from brimful.render.book.tasks import SHUT_DOWN
from brimful.render.drawings.scene import Scene
from brimful.web.bench import Sight
from brimful.web.chosen import Chosen, chosen_of
from brimful.web.clock import today
from brimful.web.due import Week, next_task, now_words, week_at, weeks_of
from brimful.web.leaf import Asked, Leaf, Mark, Page
from brimful.web.shown import charts_of

FIRST = 1


def look(sight: Sight, asked: Asked) -> Leaf:
    """Sentences, what is due at each container in the week spoken of, then the weeks, the feed, the shut-down."""
    scene = sight.scene
    assert scene is not None
    chosen, weeks, day = chosen_of(scene, asked), weeks_of(scene), today()
    now = week_at(weeks, day)
    tasks = scene.care.season.tasks if scene.care is not None and scene.care.season is not None else ()
    kinds = {task.key: task for task in tasks}
    inside = {
        "chosen": chosen, "weeks": weeks, "now": now, "feed": _feed(scene, chosen), "kinds": list(kinds.values()),
        "last": [task for task in tasks if task.key in SHUT_DOWN], "charts": charts_of(sight),
        "nitrogen_charts": _nitrogen_charts(scene, chosen),
    }  # fmt: skip
    return Leaf(tuple(_said(scene, chosen, weeks)), _marks(scene, now or _first_watered(weeks)), inside)


def _first_watered(weeks: tuple[Week, ...]) -> Week | None:
    """The first week whose timer is set."""
    return next((week for week in weeks if any(one.minutes_per_start for _, one in week.settings)), None)


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
        return "no water"
    return f"{minutes} min" if starts_count == 1 else f"{starts_count} × {minutes} min"


def _said(scene: Scene, chosen: Chosen, weeks: tuple[Week, ...]) -> list[str]:
    day = today()
    said = [*now_words(scene, day), next_task(scene, day)]
    care = scene.care
    if care is not None and care.season is not None:
        most = max(care.season.weeks, key=lambda week: week.hours, default=None)
        busiest = f", at most {most.hours:.1f} in a week" if most is not None else ""
        said.append(f"From planting to the frost the row takes {care.season.total_hours:.0f} hours{busiest}.")
    if not any(said):
        return ["What is due will stand here once build and care are worked out."]
    return [words for words in said if words]


def _feed(scene: Scene, chosen: Chosen) -> FeedWorked | None:
    return scene.care.feed if scene.care is not None else None


def _nitrogen_charts(scene: Scene, chosen: Chosen) -> list[str]:
    feed = _feed(scene, chosen)
    rows = feed.nitrogen if feed is not None else ()
    return [f"chart-nitrogen-{i}.svg" for i, one in enumerate(rows, 1) if one.row in chosen.row_names]


def is_shut_down(task: TaskWorked) -> bool:
    """Whether a task ends the season."""
    return task.key in SHUT_DOWN


PAGE = Page("keep", "Keep", "keep.html", look)
