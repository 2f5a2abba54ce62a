"""The use cases: the one place where plan, weather, catalogue and files meet."""

import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Ledger, Working
from brimful.design.model import Design
from brimful.findings import Finding, Severity
from brimful.plan.read import PlanFile, read_plan

if TYPE_CHECKING:
    from datetime import date

    from brimful.catalog import Catalog
    from brimful.design.care import CareDesk
    from brimful.design.care.model import Care
    from brimful.design.planting.model import PlantingWorked, SwapWorked
    from brimful.design.planting.whole import PlantingDesk
    from brimful.design.season.model import SeasonWorked
    from brimful.design.settle import Settled
    from brimful.design.settle.notes import Notes
    from brimful.design.stages import Outcome
    from brimful.plan.schema import Plan
    from brimful.render.drawings.scene import Scene, Worked
    from brimful.weather.fetch import Opener


@dataclass(frozen=True, slots=True)
class Opened:
    """A plan read and designed, in the units wanted, ready for whatever else is asked of it."""

    file: PlanFile
    plan: "Plan"
    catalog: "Catalog"
    outcome: "Outcome"
    design: Design
    settled: "Settled"

    @property
    def folder(self) -> Path:
        """Where the plan stands, with its weather and its own tables."""
        return self.file.path.parent

    @property
    def checked(self) -> tuple[Finding, ...]:
        """What the checks of the design find; what was found on the way to it stands with the outcome."""
        from brimful.checks import findings_of

        return findings_of(self.design, self.file.places)


def open_plan(path: Path, units: str | None = None) -> tuple[PlanFile, Opened | None, tuple[Finding, ...]]:
    """Read a plan and design it: the file, the opened plan, or None and the findings that stand in its way.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.catalog import load
    from brimful.checks import worst_first
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return file, None, file.findings
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None or outcome.settled is None:
        return file, None, worst_first(outcome.findings)
    return file, Opened(file, plan, catalog, outcome, outcome.design, outcome.settled), ()


def is_sound(worked: object, findings: Sequence[Finding]) -> bool:
    """Whether something was worked out and nothing was found that stops it."""
    return worked is not None and not any(f.severity is Severity.ERROR for f in findings)


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of a plan: the design where there is one, every finding, and how each figure was worked out."""

    file: PlanFile
    design: Design | None
    findings: tuple[Finding, ...]
    workings: dict[str, Working]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the design."""
        return is_sound(self.design, self.findings)


def work_out(path: Path, units: str | None = None) -> Answer:
    """Read a plan and work it out; `units` go before the plan's own, in figures and findings alike.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return Answer(file, None, stopped, {})
    findings = worst_first((*opened.outcome.findings, *opened.checked))
    return Answer(file, replace(opened.design, findings=findings), findings, opened.outcome.workings)


@dataclass(frozen=True, slots=True)
class SeasonAnswer:
    """What came of a plan's season."""

    season: "SeasonWorked | None"
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the season."""
        return is_sound(self.season, self.findings)


def work_out_season(path: Path, units: str | None = None) -> SeasonAnswer:
    """Read a plan and work its season out.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.checks.season import season_findings

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return SeasonAnswer(None, stopped)
    season, notes = _season_of(opened)
    found = (*opened.outcome.findings, *notes.findings)
    if season is None:
        return SeasonAnswer(None, worst_first(found))
    findings = worst_first((*found, *opened.checked, *season_findings(season, file.places)))
    return SeasonAnswer(replace(season, findings=findings), findings)


def _season_of(opened: Opened, ledger: Ledger | None = None) -> "tuple[SeasonWorked | None, Notes]":
    """The season of an opened plan, and what there is to say of it."""
    from brimful.design.season.whole import work_out_season as season_of

    plan, places = opened.plan, opened.file.places
    return season_of(plan, opened.outcome, opened.catalog, places=places, folder=opened.folder, ledger=ledger)


def write_season(answer: SeasonAnswer, folder: Path) -> list[Path]:
    """Write the files of a season into a folder, each whole or not at all; gives their paths."""
    from brimful.render.as_json import to_data
    from brimful.render.season import season_text

    if answer.season is None:
        return []
    data = json.dumps(to_data(answer.season), indent=1, ensure_ascii=False) + "\n"
    return save_all(folder, {"season.json": data, "season.txt": season_text(answer.season, answer.findings)})


@dataclass(frozen=True, slots=True)
class CareAnswer:
    """What came of a plan's build and care: the report where there is one, every finding, and the workings."""

    file: PlanFile
    care: "Care | None"
    findings: tuple[Finding, ...]
    workings: dict[str, Working]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the work."""
        return is_sound(self.care, self.findings)


def work_out_care(
    path: Path,
    units: str | None = None,
    *,
    parts: Sequence[str] = ("shop", "work", "feed"),
    today: "date | None" = None,
) -> CareAnswer:
    """Read a plan and work out its build and care, as far as `parts` asks; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.checks.care import care_findings
    from brimful.design.care import care_of
    from brimful.design.care.names import lasting_name

    file, opened, stopped = open_plan(path, units)
    if opened is None:
        return CareAnswer(file, None, stopped, {})
    desk = _care_desk(opened, today)
    site = opened.plan.site
    weathered = site.weather is not None or site.normals is not None
    # what is wrong with the weather the design has told, so the season's own notes are left
    season = _season_of(opened, desk.ledger)[0] if "feed" in parts and weathered else None
    care = care_of(desk, folder=opened.folder, parts=parts, plan_name=lasting_name(path), season=season)
    found = (*opened.outcome.findings, *opened.checked, *care.findings, *care_findings(care, file.places))
    findings = worst_first(found)
    workings = {**opened.outcome.workings, **desk.ledger.entries}
    return CareAnswer(file, replace(care, findings=findings), findings, workings)


def _care_desk(opened: Opened, today: "date | None") -> "CareDesk":
    """What lies ready for build and care of an opened plan, in the season's year; `today` is the clock."""
    from datetime import date as day

    from brimful.design.care import CareDesk, season_year
    from brimful.design.settle.notes import Notes

    plan, settled, notes = opened.plan, opened.settled, Notes(opened.file.places)
    year = season_year(plan, settled.season.season_end, today or day.today())
    return CareDesk(plan, settled, opened.design, opened.catalog, notes, year, Ledger())


def write_care(answer: CareAnswer, folder: Path, part: str) -> list[Path]:
    """Write the files of one part of build and care into a folder, each whole or not at all; gives their paths."""
    from brimful.render.as_json import to_data
    from brimful.render.care.pages import part_text
    from brimful.render.exports.files import files_of

    care = answer.care
    if care is None:
        return []
    changed = datetime.fromtimestamp(answer.file.path.stat().st_mtime, UTC)
    data = json.dumps(to_data(care), indent=1, ensure_ascii=False) + "\n"
    files: dict[str, str | bytes] = {f"{part}.json": data, f"{part}.txt": part_text(care, answer.findings, part)}
    files.update(files_of(care, part, changed))
    return save_all(folder, files)


def fetch_weather(path: Path, out: Path, days: "tuple[date, date] | None", *, opener: "Opener | None" = None) -> None:
    """Fetch daily weather for a plan's place and save it whole; `opener` is the network.

    Raises:
        BrimfulError: the plan cannot be read or names no place; no answer; `out` cannot be written
    """
    from brimful.errors import WeatherError
    from brimful.weather.fetch import Asked, address_of, fetch

    plan = read_plan(path).plan
    if plan is None:
        raise WeatherError(f"{path}: the plan has errors; `brimful check {path}` lists them")
    if plan.site.latitude is None or plan.site.longitude is None:
        raise WeatherError(f"{path}: no place was given; expected latitude and longitude under [site]")
    first, last = days or (None, None)
    try:
        asked = Asked(plan.site.latitude, plan.site.longitude, first, last)
        text = fetch(address_of(asked), opener=opener, wait=None if opener is None else lambda _: None)
        save_whole(out, text)
    except ValueError as error:
        raise WeatherError(str(error)) from error
    except OSError as error:
        raise WeatherError(f"{out} cannot be written: {error.strerror}") from error


@dataclass(frozen=True, slots=True)
class PlantingAnswer:
    """What came of a plan's planting, or of a search for what can stand in for one of its plants."""

    planting: "PlantingWorked | None"
    findings: tuple[Finding, ...]
    swaps: "tuple[SwapWorked, ...]" = ()

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
    from brimful.checks import worst_first
    from brimful.design.planting.whole import planting_of, swaps_of

    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return PlantingAnswer(None, stopped)
    site = opened.plan.site
    sunlit = opened.plan.shade and (site.weather is not None or site.normals is not None)
    desk = _planting_desk(opened, _care_desk(opened, today), _season_of(opened)[0] if sunlit else None)
    if swap is not None:
        swaps = swaps_of(desk, swap)
        return PlantingAnswer(None, worst_first(desk.notes.findings), swaps)
    planting = planting_of(desk, opened.plan.title, opened.plan.units)
    found = (*opened.outcome.findings, *opened.checked, *desk.notes.findings)
    return PlantingAnswer(replace(planting, findings=worst_first(found)), worst_first(found))


def _planting_desk(opened: Opened, days: "CareDesk", season: "SeasonWorked | None") -> "PlantingDesk":
    """What lies ready for the planting of an opened plan: its days, and hours of sun where a season tells them."""
    from brimful.design.planting.whole import PlantingDesk
    from brimful.design.settle.notes import Notes

    sun_h = {one.row: one.season_hours for one in season.sun} if season is not None else {}
    notes = Notes(opened.file.places)
    return PlantingDesk(opened.settled, opened.catalog, notes, days.planted, days.frost, sun_h)


@dataclass(frozen=True, slots=True)
class SceneAnswer:
    """A plan with its season and its care, ready to be drawn; None where something stands in the way."""

    scene: "Scene | None"
    findings: tuple[Finding, ...]


def see(path: Path, units: str | None = None, *, today: "date | None" = None) -> SceneAnswer:
    """Read a plan and work everything out that can be drawn or printed; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.checks import worst_first
    from brimful.render.drawings.scene import scene_of

    _, opened, stopped = open_plan(path, units)
    if opened is None:
        return SceneAnswer(None, stopped)
    worked, beside = _beside(opened, today)
    findings = worst_first(dict.fromkeys([*opened.outcome.findings, *opened.checked, *beside]))
    design = replace(opened.design, findings=findings)
    return SceneAnswer(scene_of(opened.plan, design, opened.settled, opened.catalog, worked), findings)


def _beside(opened: Opened, today: "date | None") -> "tuple[Worked, list[Finding]]":
    """Season, build and care, and planting of an opened plan, with what was found on the way."""
    from brimful.checks.care import care_findings
    from brimful.checks.season import season_findings
    from brimful.design.care import care_of
    from brimful.design.care.names import lasting_name
    from brimful.design.planting.whole import planting_of
    from brimful.render.drawings.scene import Worked

    places = opened.file.places
    season, notes = _season_of(opened)
    desk = _care_desk(opened, today)
    name = lasting_name(opened.file.path)
    care = care_of(desk, folder=opened.folder, parts=("shop", "work", "feed"), plan_name=name)
    planting = planting_of(_planting_desk(opened, desk, season), opened.plan.title, opened.plan.units)
    found = [*notes.findings, *care.findings, *care_findings(care, places), *planting.findings]
    found += season_findings(season, places) if season is not None else ()
    return Worked(season, care, planting), found


@dataclass(frozen=True, slots=True)
class BookWish:
    """How a book is wanted: paper, size of letters [pt], address of the plan's page; None and "" for the usual."""

    paper: str | None = None
    size_pt: float | None = None
    address: str = ""


def write_book(scene: "Scene", path: Path, wish: BookWish | None = None) -> None:
    """Write the book of a scene as PDF, whole or not at all."""
    from brimful.render.book.blocks import Style
    from brimful.render.book.make import book_pdf

    wish = wish or BookWish()
    usual = "a4" if scene.design.units == "metric" else "letter"
    save_whole(path, book_pdf(scene, Style(wish.paper or usual, wish.size_pt or 10.0, wish.address)))


def write_drawings(scene: "Scene", folder: Path) -> list[Path]:
    """Write every drawing and chart of a scene as SVG into a folder; gives their paths."""
    from brimful.render.charts.every import every_chart
    from brimful.render.charts.vega import printed
    from brimful.render.drawings.every import SIZE, WIDTH, every_drawing

    folder.mkdir(parents=True, exist_ok=True)
    written = []
    charts = ((f"chart-{name}.svg", printed(chart, WIDTH, SIZE)) for name, chart in every_chart(scene))
    for name, svg in (*every_drawing(scene), *charts):
        save_whole(folder / name, svg + "\n")
        written.append(folder / name)
    return written


def write_starter(path: Path) -> None:
    """Write a commented starter plan; a file that is there already stays as it is.

    Raises:
        FileExistsError: something stands at `path`.
        OSError: the file cannot be written.
    """
    from brimful.plan.starters import STARTER

    with path.open("x", encoding="utf-8") as file:
        file.write(STARTER)


def write_design(answer: Answer, folder: Path) -> list[Path]:
    """Write the files of a design into a folder, each whole or not at all; gives their paths."""
    from brimful.render.as_json import to_data
    from brimful.render.summary import summary_text

    if answer.design is None:
        return []
    data = json.dumps(to_data(answer.design), indent=1, ensure_ascii=False) + "\n"
    return save_all(folder, {"design.json": data, "summary.txt": summary_text(answer.design, answer.findings)})


def save_all(folder: Path, files: Mapping[str, str | bytes]) -> list[Path]:
    """Write files by name into a folder, made where it is missing, each whole or not at all; gives their paths."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        save_whole(folder / name, content)
    return [folder / name for name in files]


def save_whole(path: Path, content: str | bytes) -> None:
    """Replace a file in one step, so that it is never half written."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content if isinstance(content, bytes) else content.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).chmod(0o644)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def example(name: str) -> Path:
    """The path of an example plan that comes with Brimful."""
    return Path(__file__).parent / "examples" / f"{name}.toml"


def figures_like(workings: dict[str, Working], wanted: str) -> tuple[list[Working], list[str]]:
    """The workings whose path is, or ends with, what was asked for; and the nearest paths where none is."""
    from brimful.findings import nearest

    if wanted in workings:
        return [workings[wanted]], []
    found = [one for path, one in workings.items() if path.endswith(f"/{wanted}") or path.startswith(f"{wanted}/")]
    last_words = tuple(dict.fromkeys(path.rsplit("/", 1)[-1] for path in workings))
    return found, [] if found else nearest(wanted, tuple(workings)) or nearest(wanted, last_words)
