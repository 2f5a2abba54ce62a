"""Stage: the season's tasks by rule from planting to frost, by the taxa that are planted and the feed plan."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import FeedWorked, SeasonTasks, TaskWorked, WeekHours
from brimful.design.settle.planting import taxon_of
from brimful.domains.handling.cautions import cautions_at
from brimful.domains.planting.bloom import TRIM_MIN, trim_days, upkeep_hours
from brimful.domains.work.events import day_events
from brimful.domains.work.season import RULES, Anchor, SeasonRule, SeasonTask, hours_by_week, season_tasks
from brimful.quantities import Dimension, System, show

TRIM_REASONS = {
    "hard": "Cut back by a third to a half: it flowers again in two to three weeks. Feed and water after.",
    "light": "Shorten long shoots by a few inches so that it stays dense.",
}
CAUTION_STEPS = {"winterise": "winterise", "feed": "feed", "groom": "deadhead", "strip": "strip", "timer": "timer"}


def tasks_of(desk: CareDesk, feed: FeedWorked | None, stamp: str) -> SeasonTasks | None:
    """Every task of the season with its day, minutes and lasting identifier; None where the season is too short."""
    planted, frost = desk.planted, desk.frost
    rules = tuple(rules_of(desk, feed))
    tasks = desk.ledger.at("care", "season").work(
        "tasks", season_tasks, rules=rules, planted=planted, frost=frost, containers=desk.containers_count
    )
    events = {event.uid: event for event in day_events(tasks, plan_id=f"{stamp}/{desk.year}")}
    shown = tuple(
        TaskWorked(uid, task.key, task.name, task.day, task.minutes, _text(desk, task, feed))
        for uid, task in zip(events, sorted(tasks, key=lambda task: task.day), strict=True)
    )
    hours = hours_by_week(tasks)
    weeks = tuple(WeekHours(monday, one) for monday, one in hours.items())
    return SeasonTasks(planted, frost, shown, weeks, sum(hours.values()))


def rules_of(desk: CareDesk, feed: FeedWorked | None) -> Iterator[SeasonRule]:
    """The usual rules, with grooming by what is planted, feeding as planned, and trims by taxon."""
    for rule in RULES:
        if rule.key == "groom":
            yield replace(rule, each_min=groom_min(desk))
        elif rule.key == "feed":
            if feed is not None and feed.tanks:
                yield replace(rule, every_days=desk.plan.feed.every or rule.every_days)
        else:
            yield rule
    yield from _trims(desk)
    yield from _refeeds(desk, feed)


def groom_min(desk: CareDesk) -> float:
    """Minutes a container and week for looking over and deadheading, as `brimful plants` has them, mean of all [min].

    Formula: hours of all rows in all weeks over weeks and containers.
    Source: common practice, no source
    """
    weeks = [desk.planted + timedelta(weeks=n) for n in range((desk.frost - desk.planted).days // 7 + 1)]
    hours = 0.0
    for row in desk.settled.rows:
        taxa = [(taxon_of(spec), spec.count) for spec in row.plants]
        upkeep = upkeep_hours(taxa, row.count, row.vessel.inside.mouth_area_m2, weeks)
        hours += sum(week.visit_h + week.deadhead_h for week in upkeep)
    return 60.0 * hours / len(weeks) / desk.containers_count


def _trims(desk: CareDesk) -> Iterator[SeasonRule]:
    """Cutting back by taxon, on the days its growth is shown with: light trims every four weeks, hard ones twice."""
    counts: dict[str, int] = {}
    plants = {}
    for row in desk.settled.rows:
        for spec in row.plants:
            plants[spec.plant.key] = spec.plant
            counts[spec.plant.key] = counts.get(spec.plant.key, 0) + row.count * spec.count
    southern, stand = (desk.plan.site.latitude or 0.0) < 0, (desk.frost - desk.planted).days
    for key, plant in plants.items():
        for number, day in enumerate(trim_days(plant.trim, desk.planted, stand, southern=southern), start=1):
            named = f"trim-{key}" if number == 1 else f"trim-{key}-{number}"
            fixed = TRIM_MIN[plant.trim] * counts[key]
            name = f"Trim {plant.common_name}"
            yield SeasonRule(named, name, (Anchor.PLANTED, day), fixed_min=fixed, reason=TRIM_REASONS[plant.trim])


def _refeeds(desk: CareDesk, feed: FeedWorked | None) -> Iterator[SeasonRule]:
    days = [one.refeed_day for one in feed.coated if one.refeed_day is not None] if feed is not None else []
    if days:
        after = (min(days) - desk.planted).days
        reason = "Seven tenths of the coated feed are out: let the weekly feed carry more, or top-dress."
        yield SeasonRule("coated", "Coated feed runs low", (Anchor.PLANTED, after), each_min=1.0, reason=reason)


def _text(desk: CareDesk, task: SeasonTask, feed: FeedWorked | None) -> str:
    """What to do and why, what goes in the tank on a feeding, and what to mind."""
    system = System.METRIC if desk.plan.units == "metric" else System.US
    said = [f"About {task.minutes:.0f} minutes.", task.reason]
    if task.key == "feed" and feed is not None:
        for tank in (one for one in feed.tanks if one.day == task.day):
            weigh = show(tank.feed_g / 1000, Dimension.MASS, system)
            stock, all_ = (show(v, Dimension.VOLUME, system) for v in (tank.stock_l, tank.solution_l))
            said.append(f"{tank.zone}: {weigh} of feed in {stock} of stock, for {all_} of solution.")
    for caution in cautions_at(CAUTION_STEPS.get(task.key, "")):
        said.append(f"Mind ({caution.topic}): {caution.text} Decides: {caution.decides}.")
    return " ".join(part for part in said if part)
