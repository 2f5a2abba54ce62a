"""Today: the plan, its season, the journal, the weather so far and the clock brought together."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.findings import Finding
from brimful.records import record
from brimful.services.care import care_desk
from brimful.services.opening import Opened, is_sound, open_plan, why_stopped

if TYPE_CHECKING:
    from brimful.design.care.model import SeasonTasks
    from brimful.design.settle.notes import Notes
    from brimful.design.today import TodayWorked, Told
    from brimful.design.today.whole import TodayDesk
    from brimful.weather import DailyWeather


AFTERWARDS = timedelta(days=45)
"""So long after its end a season is spoken of as over, before the next one is looked ahead to."""


@record
class TodayAnswer:
    """What came of asking for one day."""

    today: "TodayWorked | None"
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops it."""
        return is_sound(self.today, self.findings)


def work_out_today(path: Path, units: str | None = None, *, on: date | None = None) -> TodayAnswer:
    """One day of a plan's season, from its journal and the weather so far; `on` is today where left out.

    Raises:
        BrimfulError: a plan or journal that cannot be read at all.
    """
    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return TodayAnswer(None, stopped)
    return today_of_opened(opened, told_of(path), on or date.today())


def told_of(path: Path) -> "tuple[Told, ...]":
    """What a plan's journal tells, by the clock of this place.

    Raises:
        BrimfulError: the journal cannot be read.
    """
    from brimful.design.today import Told
    from brimful.services.journal import entries_of

    return tuple(
        Told(one.made_at.astimezone(), one.kind, one.place, one.value, one.during_s, one.words, one.by)
        for one in entries_of(path)
    )


def today_of_opened(opened: Opened, told: "Sequence[Told]", on: date) -> TodayAnswer:
    """One day of an opened plan's season, from what was told."""
    from brimful.checks import worst_first
    from brimful.design.today import today_of

    desk, found = desk_of(opened, told, on)
    if desk is None:
        return TodayAnswer(None, why_stopped(found))
    return TodayAnswer(replace(today_of(desk, on), findings=worst_first(found)), worst_first(found))


def desk_of(opened: Opened, told: "Sequence[Told]", on: date) -> "tuple[TodayDesk | None, tuple[Finding, ...]]":
    """What a day of an opened plan's season is worked out from; None and why where its weather will not do."""
    from brimful.design.season.frosts import frosts_of
    from brimful.design.season.whole import lay_out
    from brimful.design.season.zones import weeks_of
    from brimful.design.settle.notes import Notes
    from brimful.design.today.whole import TodayDesk

    plan, outcome, notes = opened.plan, opened.outcome, Notes(opened.file.places)
    laid = lay_out(plan, outcome, opened.catalog, notes, folder=opened.folder)
    if laid is None:
        return None, (*outcome.findings, *notes.findings)
    rows = {row.name: (row, spec) for row, spec in zip(opened.design.rows, opened.settled.rows, strict=True)}
    frosts_of(laid.weather, plan.site, opened.settled.season, opened.folder, notes)  # tells what is wrong with its file
    care, recent = care_desk(opened, on - AFTERWARDS), _recent(opened, notes)
    desk = TodayDesk(
        plan, opened.design, opened.settled, laid, weeks_of(opened.design.zones, rows, laid.inputs),
        (*opened.design.assumptions, *notes.assumptions.values()), care.planted, care.frost, _tasks(opened, on),
        recent, tuple(told),
    )  # fmt: skip
    return desk, tuple(notes.findings)


def _tasks(opened: Opened, on: date) -> "SeasonTasks | None":
    """The season's tasks alone; the build they follow is not scheduled for it."""
    from brimful.design.care.feeding import feed_of
    from brimful.design.care.names import lasting_name
    from brimful.design.care.tasks import tasks_of

    desk = care_desk(opened, on - AFTERWARDS)
    return tasks_of(desk, feed_of(desk, opened.folder, None), lasting_name(opened.file.path))


def _recent(opened: Opened, notes: "Notes") -> "DailyWeather | None":
    """The season's own weather so far; where its file will not do, a finding says so and the years' mean stands in."""
    from brimful.design.climate import read_weather_of
    from brimful.design.settle.notes import Notes

    site = opened.plan.site
    if site.recent_weather is None:
        return None
    own = Notes(opened.file.places)
    recent = read_weather_of(site.model_copy(update={"weather": site.recent_weather}), opened.folder, own)
    if recent is None:
        said = "; ".join(finding.message for finding in own.findings)
        remedy = "The mean of the years stands in. `brimful weather` fetches days anew."
        notes.warn("recent-weather", ("site", "recent_weather"), said, remedy)
    return recent
