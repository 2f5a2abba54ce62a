"""The planting of a plan."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.findings import Finding
from brimful.records import record
from brimful.services.care import care_desk
from brimful.services.opening import Opened, is_sound, open_plan
from brimful.services.season import season_of_opened

if TYPE_CHECKING:
    from datetime import date

    from brimful.design.care import CareDesk
    from brimful.design.planting.desk import PlantingDesk
    from brimful.design.planting.model import PlantingWorked, SwapWorked
    from brimful.design.season.model import SeasonWorked


@record
class PlantingAnswer:
    """What came of a plan's planting, or of a search for what can stand in for one of its plants."""

    planting: "PlantingWorked | None"
    findings: tuple[Finding, ...]
    swaps: "tuple[SwapWorked, ...]" = ()
    units: str = "US"

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the planting."""
        return is_sound(self.planting, self.findings)


def work_out_planting(
    path: Path, units: str | None = None, *, swap: str | None = None, today: "date | None" = None
) -> PlantingAnswer:
    """Read a plan and work its planting out, or what can stand in for the plant `swap`; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from datetime import date as day

    from brimful.checks import worst_first
    from brimful.design.planting.swaps import swaps_of
    from brimful.design.planting.whole import planting_of

    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return PlantingAnswer(None, stopped)
    site = opened.plan.site
    sunlit = opened.plan.shade and (site.weather is not None or site.normals is not None)
    season = season_of_opened(opened)[0] if sunlit else None
    desk = planting_desk(opened, care_desk(opened, today), season, today or day.today())
    if swap is not None:
        swaps = swaps_of(desk, swap)
        return PlantingAnswer(None, worst_first(desk.notes.findings), swaps, opened.plan.units)
    planting = planting_of(desk, opened.plan.title, opened.plan.units)
    found = (*opened.outcome.findings, *opened.checked, *desk.notes.findings)
    return PlantingAnswer(replace(planting, findings=worst_first(found)), worst_first(found))


def swaps_for(opened: Opened, word: str, season: "SeasonWorked | None" = None) -> "tuple[SwapWorked, ...]":
    """What can stand in for a plant of an opened plan in each row that has it; nothing where none has."""
    from brimful.design.planting.swaps import swaps_of

    return swaps_of(planting_desk(opened, care_desk(opened, None), season), word)


def planting_desk(
    opened: Opened, days: "CareDesk", season: "SeasonWorked | None", today: "date | None" = None
) -> "PlantingDesk":
    """What lies ready for the planting of an opened plan: its days, plants on hand, and hours of sun where a season
    tells them; where `today` is given, it is told what is late."""
    from brimful.design.care.order import plants_on_hand
    from brimful.design.planting.days import days_of
    from brimful.design.planting.desk import PlantingDesk
    from brimful.design.settle.notes import Notes

    outcome, plan = opened.outcome, opened.plan
    assert outcome.climate is not None
    return PlantingDesk(
        plan,
        opened.settled,
        outcome.grown,
        outcome.climate,
        opened.catalog,
        Notes(opened.file.places),
        days_of(plan.site, opened.folder, days.planted, days.frost),
        {one.row: one.container_season_hours for one in season.sun} if season is not None else {},
        plants_on_hand(days),
        today,
        {row.name: row.tube for row in opened.design.rows if row.tube is not None},
    )
