"""A few questions from which a first plan is made, and what may be answered to each."""

from collections.abc import Mapping
from typing import Any

from pydantic import TypeAdapter, ValidationError

from brimful.findings import Finding, Place, Severity
from brimful.plan.values import Bucket, Latitude, Longitude, Text, given_words, one_of, quantity, whole_number
from brimful.quantities import Dimension
from brimful.records import record

LEAST_STATIC_M = 20.0
LEAST_BUCKET_L_H = 250.0
"""A tap that gives less than about 1 gallon a minute is no tap to hang containers on (common practice, no source)."""

LONGEST_LINE_M = 200.0


@record
class Question:
    """A question: its key, its words, why it is asked, an example, and the answers among which one chooses, if so."""

    key: str
    asks: str
    why: str
    example: str
    reads: Any
    choices: Mapping[str, str] | None = None
    needed: bool = False


def _choice(key: str, asks: str, why: str, choices: Mapping[str, str]) -> Question:
    return Question(key, asks, why, next(iter(choices)), one_of(*choices), choices)


def _size(least: float, most: float) -> Any:
    return quantity(Dimension.LENGTH, at_least=least, at_most=most)


SHAPES = {"round": "round", "square": "square", "bowl": "a bowl"}
SUN = {
    "full-sun": "sun all day, 6 hours or more",
    "part-sun": "sun for 4 to 6 hours",
    "part-shade": "sun for 2 to 4 hours",
    "shade": "less than 2 hours",
}
LOOKS = {"all-round": "from all sides", "one-side": "from one side, with their backs to something"}
COLOURS = {
    "warm": "red, orange, yellow",
    "cool": "blue, violet, pink",
    "white": "white and cream",
    "any": "whatever flowers longest",
}
QUESTIONS: tuple[Question, ...] = (
    _choice("units", "Which units do you measure in?", "Answers are shown in them; you may write either.", {
        "US": "feet, inches, gallons", "metric": "metres, litres"}),
    Question("title", "What is the plan called?", "It stands on every page.", "Market square", Text),
    Question("count", "How many containers?", "Each gets the same water.", "6", whole_number(1, 60), needed=True),
    _choice("shape", "Which shape are they?", "It tells how much mix they hold.", SHAPES),
    Question("top", "How wide are they at the rim?", "Measure outside, from edge to edge.", "24 in", _size(0.25, 1.5),
        needed=True),
    Question("height", "How high are they?", "Measure outside, from the ground to the rim.", "20 in", _size(0.2, 1.5),
        needed=True),
    Question("apart", "How far apart do they stand?", "From middle to middle; the tube runs along.", "7 ft",
        _size(0.2, 30.0)),
    Question("from_tap", "How far is the first one from the tap?", "So long is the main.", "30 ft", _size(0.3, 150.0)),
    Question("pressure", "What does a gauge on the tap show with everything shut?", "Water must reach the last one.",
        "50 psi", quantity(Dimension.PRESSURE, at_least=LEAST_STATIC_M, at_most=90.0)),
    Question("bucket_test", "How long does it take to fill a bucket?",
        "It tells how many containers one valve can water. Throttle until the gauge shows about half, then time it.",
        "5 gal in 45 s at 30 psi", Bucket),
    Question("place", "Where do they stand?", "Words for the first page.", "Market square, north side", Text),
    Question("latitude", "On which latitude?", "Sun and season follow from it; south is negative.", "45.0", Latitude),
    Question("longitude", "On which longitude?", "West is negative; nothing needs it yet.", "-122.5", Longitude),
    _choice("sun", "How much sun do they get in summer?", "Plants are chosen by it.", SUN),
    _choice("look", "From where are they seen?", "The tall plant stands in the middle, or at the back.", LOOKS),
    _choice("colours", "Which colours?", "Plants are chosen by them.", COLOURS),
)  # fmt: skip


@record
class Answers:
    """The answers by question: as written, and as read in SI; what was left open is in neither."""

    written: Mapping[str, str]
    read: Mapping[str, Any]


def read_answers(given: Mapping[str, str]) -> tuple[Answers, tuple[Finding, ...]]:
    """Answers as read, and what is wrong with any of them, question by question; an empty answer leaves it open."""
    written = {key: " ".join(str(words).split()) for key, words in given.items() if str(words).strip()}
    read: dict[str, Any] = {}
    findings = [_finding(key, f'"{key[:60]}" is no question') for key in given if key not in _KEYS]
    for question in QUESTIONS:
        if question.key not in written:
            if question.needed:
                findings.append(
                    _finding(question.key, f'nothing was given; for example "{question.example}" was expected')
                )
            continue
        try:
            read[question.key] = _read(question, written[question.key])
        except ValueError as error:
            findings.append(_finding(question.key, str(error)))
    findings += [_finding(key, said) for key, said in _together(read)]
    return Answers({key: words for key, words in written.items() if key in read}, read), tuple(findings)


_KEYS = frozenset(question.key for question in QUESTIONS)


def _read(question: Question, words: str) -> Any:
    """An answer as the plan's own fields read it; digits alone are a number where a number is meant."""
    value: Any = (
        int(words) if question.key == "count" and words.isascii() and words.isdigit() and len(words) < 9 else words
    )
    try:
        return TypeAdapter(question.reads).validate_python(value)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        reason = first.get("ctx", {}).get("error")
        raise ValueError(str(reason) if reason else f"{given_words(words)} was given; {first['msg']}") from None


def _together(read: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What is wrong with answers taken together."""
    found = []
    test, pressure = read.get("bucket_test"), read.get("pressure")
    if test is not None and test.flow_l_h < LEAST_BUCKET_L_H:
        said = f"{test.flow_l_h:.0f} L/h was given; at least {LEAST_BUCKET_L_H:.0f} L/h (1.1 gpm) was expected"
        found.append(("bucket_test", f"{said}. Check for a shut valve or a blocked screen, or take another tap"))
    if test is not None and test.flow_l_h > 20_000:
        found.append(("bucket_test", f"{test.flow_l_h:.0f} L/h was given; at most 20000 L/h was expected"))
    if test is not None and pressure is not None and (test.pressure_m or 0.0) > 0.8 * pressure:
        said = "the pressure while the bucket fills is near that with everything shut; at most 0.8 of it was expected"
        found.append(("bucket_test", f"{said}. Open the tap further, then time it"))
    if test is not None and pressure is None and 0.0 < (test.pressure_m or 0.0) < LEAST_STATIC_M:
        said = "beside a bucket test at less than 2 bar (28 psi) the pressure with everything shut was expected"
        found.append(("pressure", f"{said}. Shut everything, then read the gauge"))
    line = (read.get("count", 1) - 1) * read.get("apart", 0.0)
    if line > LONGEST_LINE_M:
        said = f"the line would be {line:.0f} m long; at most {LONGEST_LINE_M:.0f} m was expected"
        found.append(("apart", f"{said}. Make a plan for each place"))
    if "top" in read and "apart" in read and read["apart"] < read["top"]:
        found.append(("apart", "containers stand in each other; at least their width was expected, middle to middle"))
    return found


def _finding(key: str, said: str) -> Finding:
    return Finding("bad-answer", Severity.ERROR, said, "", Place(field=key))
