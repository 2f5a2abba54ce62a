"""Plans to start from."""

from collections.abc import Iterator, Mapping
from math import ceil, pi
from pathlib import Path
from typing import TYPE_CHECKING, Any

from brimful.findings import Finding, Severity
from brimful.records import record

if TYPE_CHECKING:
    from brimful.catalog import Catalog
    from brimful.plan.answers import Answers
    from brimful.plan.starters import Stretch

HERE = Path("plan.toml")
BETWEEN_M = 2.0  # where nobody says how far apart: common practice, no source
MAIN_M = 3.0
MOST_ON_ONE, LONGEST_LINE_M = 30, 80.0  # of one valve in a first plan: common practice, no source


def write_starter(path: Path, text: str | None = None) -> None:
    """Write a commented starter plan, or the `text` of one; a file that is there already stays as it is.

    Raises:
        FileExistsError: something stands at `path`.
        OSError: the file cannot be written.
    """
    from brimful.plan.starters import STARTER

    with path.open("x", encoding="utf-8") as file:
        file.write(STARTER if text is None else text)


def example(name: str) -> Path:
    """The path of an example plan that comes with Brimful."""
    return Path(__file__).parent.parent / "examples" / f"{name}.toml"


@record
class Started:
    """A plan made from answers: its text, or None and what is wrong, question by question."""

    text: str | None
    findings: tuple[Finding, ...]


def plan_from_answers(given: Mapping[str, str]) -> Started:
    """A commented plan from the answers to a few questions (plan.answers.QUESTIONS), that designs with no error.

    The containers stand in one line. Where one valve does not carry all, they are divided among as few as do.
    """
    from brimful.catalog import load
    from brimful.plan.answers import read_answers

    answers, findings = read_answers(given)
    if findings:
        return Started(None, findings)
    catalog = load()
    stopped: tuple[Finding, ...] = ()
    for valves in _numbers_of_valves(answers.read["count"], _least_valves(answers)):
        text = _text(answers, catalog, valves)
        stopped = _errors(text, catalog)
        if not stopped:
            return Started(text, ())
    return Started(None, stopped)


def _least_valves(answers: "Answers") -> int:
    """No more than so many containers, and so long a line, are tried on one valve."""
    count, apart = answers.read["count"], answers.read.get("apart", BETWEEN_M)
    least: int = max(ceil(count / MOST_ON_ONE), min(count, ceil(count * apart / LONGEST_LINE_M)))
    return least


def _numbers_of_valves(count: int, least: int) -> Iterator[int]:
    """From the least on, half as many more each time, up to a valve for each container."""
    valves = least
    while valves < count:
        yield valves
        valves = max(valves + 1, valves * 3 // 2)
    yield count


def _text(answers: "Answers", catalog: "Catalog", valves: int) -> str:
    from brimful.plan.starters import plan_text
    from brimful.services.choosing import chosen_plants

    read = answers.read
    area = pi / 4 * read["top"] ** 2 if read.get("shape") != "square" else read["top"] ** 2
    chosen = chosen_plants(
        catalog,
        sun=read.get("sun", "full-sun"),
        colours=read.get("colours", "any"),
        look=read.get("look", "all-round"),
        mouth_m2=0.8 * area,
        height_m=read["height"],
    )
    return plan_text(answers.written, _stretches(answers, valves), chosen.plants, chosen.why)


def _stretches(answers: "Answers", valves: int) -> "list[Stretch]":
    """The line of containers divided evenly; the main of each runs to its first container."""
    from brimful.plan.starters import Stretch

    read, said = answers.read, answers.written
    count, apart = read["count"], read.get("apart", BETWEEN_M)
    metric = read.get("units") == "metric"
    to_first = read.get("from_tap", MAIN_M)
    if valves == 1:
        return [Stretch("containers", count, said.get("from_tap", _length(to_first, metric=metric)))]
    each, before = ceil(count / valves), 0
    stretches: list[Stretch] = []
    while before < count:
        number = len(stretches) + 1
        main = _length(to_first + before * apart, metric=metric)
        stretches.append(Stretch(f"stretch {number}", min(each, count - before), main, f"valve {number}"))
        before += each
    return stretches


def _length(length_m: float, *, metric: bool) -> str:
    return f"{length_m:.1f} m" if metric else f"{length_m / 0.3048:.1f} ft"


def _errors(text: str, catalog: "Catalog") -> tuple[Finding, ...]:
    """What would stop the design of a text."""
    return tuple(one for one in _found(text, catalog) if one.severity is Severity.ERROR)


def _found(text: str, catalog: "Catalog") -> tuple[Any, ...]:
    from brimful.checks import findings_of
    from brimful.design.stages import work_out
    from brimful.plan.read import read_text

    file = read_text(text, HERE)
    if file.plan is None:
        return file.findings
    outcome = work_out(file.plan, catalog, file.places, folder=HERE.parent)
    checked = findings_of(outcome.design, file.places) if outcome.design is not None else ()
    return (*outcome.findings, *checked)
