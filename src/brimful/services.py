"""The use cases: the one place where plan, weather, catalogue and files meet."""

import json
import os
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from brimful.design.ledger import Working
from brimful.design.model import Design
from brimful.findings import Finding, Severity
from brimful.plan.read import Places, PlanFile, read_plan

if TYPE_CHECKING:
    from datetime import date

    from brimful.catalog import Catalog
    from brimful.design.care import CareDesk
    from brimful.design.care.model import Care
    from brimful.design.planting.model import PlantingWorked, SwapWorked
    from brimful.design.season.model import SeasonWorked
    from brimful.design.stages import Outcome
    from brimful.render.drawings.scene import Scene, Worked
    from brimful.weather.fetch import Opener


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
        return self.design is not None and not any(f.severity is Severity.ERROR for f in self.findings)


def work_out(path: Path, units: str | None = None) -> Answer:
    """Read a plan and work it out; `units` go before the plan's own, in figures and findings alike.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.catalog import load
    from brimful.checks import findings_of, worst_first
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return Answer(file, None, file.findings, {})
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None:
        return Answer(file, None, worst_first(outcome.findings), {})
    findings = worst_first((*outcome.findings, *findings_of(outcome.design, file.places)))
    return Answer(file, replace(outcome.design, findings=findings), findings, outcome.workings)


@dataclass(frozen=True, slots=True)
class SeasonAnswer:
    """What came of a plan's season."""

    season: "SeasonWorked | None"
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing was found that stops the season."""
        return self.season is not None and not any(f.severity is Severity.ERROR for f in self.findings)


def work_out_season(path: Path, units: str | None = None) -> SeasonAnswer:
    """Read a plan and work its season out.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from brimful.catalog import load
    from brimful.checks import findings_of, worst_first
    from brimful.checks.season import season_findings
    from brimful.design.season.whole import work_out_season as season_of
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return SeasonAnswer(None, file.findings)
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    season, notes = season_of(plan, outcome, catalog, places=file.places, folder=path.parent)
    found = [*outcome.findings, *notes.findings]
    if season is None or outcome.design is None:
        return SeasonAnswer(None, worst_first(found))
    found += [*findings_of(outcome.design, file.places), *season_findings(season, file.places)]
    findings = worst_first(found)
    return SeasonAnswer(replace(season, findings=findings), findings)


def write_season(answer: SeasonAnswer, folder: Path) -> list[Path]:
    """Write the files of a season into a folder, each whole or not at all; gives their paths."""
    from brimful.render.as_json import to_data
    from brimful.render.season import season_text

    if answer.season is None:
        return []
    folder.mkdir(parents=True, exist_ok=True)
    data = json.dumps(to_data(answer.season), indent=1, ensure_ascii=False) + "\n"
    files = {folder / "season.json": data, folder / "season.txt": season_text(answer.season, answer.findings)}
    for path, text in files.items():
        save_whole(path, text)
    return list(files)


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
        return self.care is not None and not any(f.severity is Severity.ERROR for f in self.findings)


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
    from datetime import date as day

    from brimful.catalog import load
    from brimful.checks import findings_of, worst_first
    from brimful.checks.care import care_findings
    from brimful.design.care import CareDesk, care_of, season_year
    from brimful.design.care.names import lasting_name
    from brimful.design.ledger import Ledger
    from brimful.design.settle.notes import Notes
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return CareAnswer(file, None, file.findings, {})
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None or outcome.settled is None:
        return CareAnswer(file, None, worst_first(outcome.findings), {})
    year = season_year(plan, outcome.settled.season.season_end, today or day.today())
    notes, ledger = Notes(file.places), Ledger()
    desk = CareDesk(plan, outcome.settled, outcome.design, catalog, notes, year, ledger)
    season = _season_for_feed(desk, outcome, file.places, path.parent) if "feed" in parts else None
    care = care_of(desk, folder=path.parent, parts=parts, plan_name=lasting_name(path), season=season)
    found = (*outcome.findings, *findings_of(outcome.design, file.places), *care.findings)
    findings = worst_first((*found, *care_findings(care, file.places)))
    return CareAnswer(file, replace(care, findings=findings), findings, {**outcome.workings, **ledger.entries})


def _season_for_feed(desk: "CareDesk", outcome: "Outcome", places: Places, folder: Path) -> "SeasonWorked | None":
    """The season's weeks of water, where there is weather; what is wrong with the weather the design has told."""
    site = desk.plan.site
    if site.weather is None and site.normals is None:
        return None
    from brimful.design.season.whole import work_out_season as season_of

    return season_of(desk.plan, outcome, desk.catalog, places=places, folder=folder, ledger=desk.ledger)[0]


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
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        save_whole(folder / name, content)
    return [folder / name for name in files]


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
        return self.planting is not None and not any(f.severity is Severity.ERROR for f in self.findings)


def work_out_planting(
    path: Path, units: str | None = None, *, swap: str | None = None, today: "date | None" = None
) -> PlantingAnswer:
    """Read a plan and work its planting out, or what can stand in for the plant `swap`; `today` is the clock.

    Raises:
        BrimfulError: a file that cannot be read at all.
    """
    from datetime import date as day

    from brimful.catalog import load
    from brimful.checks import findings_of, worst_first
    from brimful.design.care import CareDesk, season_year
    from brimful.design.planting.whole import PlantingDesk, planting_of, swaps_of
    from brimful.design.settle.notes import Notes
    from brimful.design.stages import work_out as design_of

    file = read_plan(path)
    if file.plan is None:
        return PlantingAnswer(None, file.findings)
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None or outcome.settled is None:
        return PlantingAnswer(None, worst_first(outcome.findings))
    settled, sun_h, notes = outcome.settled, {}, Notes(file.places)
    if plan.shade and (plan.site.weather is not None or plan.site.normals is not None):
        from brimful.design.season.whole import work_out_season as season_of

        season, _ = season_of(plan, outcome, catalog, places=file.places, folder=path.parent)
        sun_h = {one.row: one.season_hours for one in season.sun} if season is not None else {}
    year = season_year(plan, settled.season.season_end, today or day.today())
    days = CareDesk(plan, settled, outcome.design, catalog, notes, year)
    desk = PlantingDesk(settled, catalog, notes, days.planted, days.frost, sun_h)
    if swap is not None:
        swaps = swaps_of(desk, swap)
        return PlantingAnswer(None, worst_first(notes.findings), swaps)
    planting = planting_of(desk, plan.title, plan.units)
    found = (*outcome.findings, *findings_of(outcome.design, file.places), *notes.findings)
    return PlantingAnswer(replace(planting, findings=worst_first(found)), worst_first(found))


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
    from brimful.catalog import load
    from brimful.checks import findings_of, worst_first
    from brimful.design.stages import work_out as design_of
    from brimful.render.drawings.scene import scene_of

    file = read_plan(path)
    if file.plan is None:
        return SceneAnswer(None, file.findings)
    plan = file.plan if units is None else file.plan.model_copy(update={"units": units})
    catalog = load(path.parent)
    outcome = design_of(plan, catalog, file.places, folder=path.parent)
    if outcome.design is None or outcome.settled is None:
        return SceneAnswer(None, worst_first(outcome.findings))
    worked, found = _beside(replace(file, plan=plan), outcome, catalog, today)
    found = [*outcome.findings, *findings_of(outcome.design, file.places), *found]
    findings = worst_first(dict.fromkeys(found))
    design = replace(outcome.design, findings=findings)
    return SceneAnswer(scene_of(plan, design, outcome.settled, catalog, worked), findings)


def _beside(
    file: PlanFile, outcome: "Outcome", catalog: "Catalog", today: "date | None"
) -> "tuple[Worked, list[Finding]]":
    """Season, build and care, and planting of a worked plan, with what was found on the way."""
    from datetime import date as day

    from brimful.checks.care import care_findings
    from brimful.checks.season import season_findings
    from brimful.design.care import CareDesk, care_of, season_year
    from brimful.design.care.names import lasting_name
    from brimful.design.planting.whole import PlantingDesk, planting_of
    from brimful.design.season.whole import work_out_season as season_of
    from brimful.design.settle.notes import Notes
    from brimful.render.drawings.scene import Worked

    assert file.plan is not None and outcome.design is not None and outcome.settled is not None
    plan, settled, folder, places = file.plan, outcome.settled, file.path.parent, file.places
    season, notes = season_of(plan, outcome, catalog, places=places, folder=folder)
    year = season_year(plan, settled.season.season_end, today or day.today())
    desk = CareDesk(plan, settled, outcome.design, catalog, Notes(places), year)
    care = care_of(desk, folder=folder, parts=("shop", "work", "feed"), plan_name=lasting_name(file.path))
    sun_h = {one.row: one.season_hours for one in season.sun} if season is not None else {}
    beds = PlantingDesk(settled, catalog, Notes(places), desk.planted, desk.frost, sun_h)
    planting = planting_of(beds, plan.title, plan.units)
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
    folder.mkdir(parents=True, exist_ok=True)
    data = json.dumps(to_data(answer.design), indent=1, ensure_ascii=False)
    files = {folder / "design.json": data + "\n", folder / "summary.txt": summary_text(answer.design, answer.findings)}
    for path, text in files.items():
        save_whole(path, text)
    return list(files)


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
