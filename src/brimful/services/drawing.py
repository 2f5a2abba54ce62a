"""A plan as drawings and as a book."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Working
from brimful.findings import Finding
from brimful.records import record
from brimful.services.care import care_desk
from brimful.services.opening import Opened, open_plan
from brimful.services.planting import planting_desk
from brimful.services.saving import save_all, save_whole
from brimful.services.season import season_of_opened

if TYPE_CHECKING:
    from datetime import date

    from brimful.render.drawings.scene import Scene, Worked


STEPS = ("the season's water", "build and care", "planting")
"""What is worked out beside the design, in order."""


@record
class SceneAnswer:
    """A plan with its season and its care, ready to be drawn; None where something stands in the way."""

    scene: "Scene | None"
    findings: tuple[Finding, ...]
    workings: Mapping[str, Working] = field(default_factory=dict)


@record
class Beside:
    """What was worked out beside a design, what was found on the way, and how its figures came about."""

    worked: "Worked"
    findings: tuple[Finding, ...]
    workings: Mapping[str, Working]


def see(path: Path, units: str | None = None, *, today: "date | None" = None) -> SceneAnswer:
    """Read a plan and work everything out that can be drawn or printed; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return SceneAnswer(None, stopped)
    return scene_with(opened, work_beside(opened, today))


def scene_with(opened: Opened, beside: Beside | None = None) -> SceneAnswer:
    """The scene of an opened plan with what has been worked out beside its design so far, and all findings."""
    from brimful.checks import worst_first
    from brimful.render.drawings.scene import Worked, scene_of

    beside = beside or Beside(Worked(), (), {})
    findings = worst_first(dict.fromkeys([*opened.outcome.findings, *opened.checked, *beside.findings]))
    design = replace(opened.design, findings=findings)
    scene = scene_of(opened.plan, design, opened.settled, opened.catalog, beside.worked)
    return SceneAnswer(scene, findings, {**opened.outcome.workings, **beside.workings})


def work_beside(opened: Opened, today: "date | None" = None, tell: Callable[[str], None] = lambda _: None) -> Beside:
    """Season, build and care, and planting of an opened plan.

    `tell` hears what comes next, before each of the `STEPS`; what it raises ends the work.
    """
    from brimful.checks.care import care_findings
    from brimful.checks.season import season_findings
    from brimful.design.care import care_of
    from brimful.design.care.names import lasting_name
    from brimful.design.planting.whole import planting_of
    from brimful.render.drawings.scene import Worked

    places, desk = opened.file.places, care_desk(opened, today)
    tell(STEPS[0])
    season, notes = season_of_opened(opened, desk.ledger)
    tell(STEPS[1])
    name = lasting_name(opened.file.path)
    care = care_of(desk, folder=opened.folder, parts=("shop", "work", "feed"), plan_name=name)
    tell(STEPS[2])
    bed = planting_desk(opened, desk, season)
    planting = planting_of(bed, opened.plan.title, opened.plan.units)
    found = [*notes.findings, *care.findings, *care_findings(care, places), *planting.findings]
    found += season_findings(season, places) if season is not None else ()
    return Beside(Worked(season, care, planting), tuple(found), {**desk.ledger.entries, **bed.ledger.entries})


@record
class BookWish:
    """How a book is wanted: paper, size of letters [pt], address of the plan's page; None and "" for the usual."""

    paper: str | None = None
    size_pt: float | None = None
    address: str = ""


def book_bytes(scene: "Scene", wish: BookWish | None = None) -> bytes:
    """The book of a scene as PDF."""
    from brimful.render.book.blocks import Style
    from brimful.render.book.make import book_pdf

    wish = wish or BookWish()
    usual = "a4" if scene.design.units == "metric" else "letter"
    return book_pdf(scene, Style(wish.paper or usual, wish.size_pt or 10.0, wish.address))


def write_book(scene: "Scene", path: Path, wish: BookWish | None = None) -> None:
    """Write the book of a scene, whole or not at all."""
    save_whole(path, book_bytes(scene, wish))


def drawing_files(scene: "Scene") -> Iterator[tuple[str, str]]:
    """Name and content of every drawing and chart of a scene, as SVG."""
    from brimful.render.charts.every import every_chart
    from brimful.render.charts.vega import printed
    from brimful.render.drawings.every import SIZE, WIDTH, every_drawing

    charts = ((f"chart-{name}.svg", printed(chart, WIDTH, SIZE)) for name, chart in every_chart(scene))
    for name, svg in (*every_drawing(scene), *charts):
        yield name, svg + "\n"


def write_drawings(scene: "Scene", folder: Path) -> list[Path]:
    """Write every drawing and chart of a scene into a folder; gives their paths."""
    return save_all(folder, dict(drawing_files(scene)))
