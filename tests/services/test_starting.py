"""Plans made from the answers to a few questions."""

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from brimful.catalog import load
from brimful.findings import Severity
from brimful.plan.answers import COLOURS, LOOKS, QUESTIONS, SHAPES, SUN, read_answers
from brimful.services import open_plan
from brimful.services.choosing import chosen_plants
from brimful.services.starting import plan_from_answers

PLAIN = {"count": "6", "top": "24 in", "height": "20 in"}


def _in(least: float, most: float, unit: str) -> st.SearchStrategy[str]:
    return st.floats(least, most).map(lambda number: f"{number:.2f} {unit}")


ANSWERS = st.fixed_dictionaries(
    {"count": st.integers(1, 60).map(str), "top": _in(25.01, 150, "cm"), "height": _in(8, 59, "in")},
    optional={
        "units": st.sampled_from(["US", "metric"]),
        "title": st.text(st.characters(exclude_categories=("Cs", "Cc", "Z")), min_size=1, max_size=20),
        "shape": st.sampled_from(sorted(SHAPES)),
        "apart": _in(1, 98, "ft"),
        "from_tap": _in(0.3, 150, "m"),
        "pressure": _in(29, 127, "psi"),
        "bucket_test": st.one_of(
            st.floats(5, 300).map(lambda seconds: f"20 L in {seconds:.0f} s"),
            st.tuples(st.floats(5, 60), st.floats(5, 60)).map(lambda at: f"5 gal in {at[0]:.0f} s at {at[1]:.0f} psi"),
        ),
        "place": st.text(st.characters(exclude_categories=("Cs", "Cc", "Z")), min_size=1, max_size=20),
        "latitude": st.floats(-66, 66).map(lambda degrees: f"{degrees:.3f}"),
        "longitude": st.floats(-180, 180).map(lambda degrees: f"{degrees:.3f}"),
        "sun": st.sampled_from(sorted(SUN)),
        "look": st.sampled_from(sorted(LOOKS)),
        "colours": st.sampled_from(sorted(COLOURS)),
    },
)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), phases=[Phase.generate])
@given(ANSWERS)
def test_any_valid_answers_make_a_plan_that_designs(answers: dict[str, str]) -> None:
    """Whatever is answered within what is asked, the plan reads, designs, and nothing stops it."""
    assume(not read_answers(answers)[1])
    started = plan_from_answers(answers)
    assert started.findings == ()
    assert started.text is not None
    with TemporaryDirectory() as folder:
        path = Path(folder) / "plan.toml"
        path.write_text(started.text)
        _, opened, stopped = open_plan(path)
    assert stopped == ()
    assert opened is not None
    assert [one for one in (*opened.outcome.findings, *opened.checked) if one.severity is Severity.ERROR] == []
    assert sum(row.count for row in opened.plan.containers) == int(answers["count"])
    assert opened.plan.units == answers.get("units", "US")
    assert opened.design.title == answers.get("title", "My containers")


@pytest.mark.parametrize(
    ("answers", "key", "words"),
    [
        ({"count": "0"}, "count", "a whole number from 1 to 60 was expected"),
        ({"count": ""}, "count", "nothing was given"),
        ({"top": "3 psi"}, "top", "3 psi"),
        ({"height": "9 m"}, "height", "at most"),
        ({"apart": "1 ft"}, "apart", "stand in each other"),
        ({"count": "60", "apart": "20 m"}, "apart", "at most 200 m"),
        ({"pressure": "2 psi"}, "pressure", "at least"),
        ({"bucket_test": "1 gal in 5 min"}, "bucket_test", "at least 250 L/h"),
        ({"bucket_test": "5 gal in 30 s at 12 psi"}, "pressure", "with everything shut"),
        ({"pressure": "50 psi", "bucket_test": "5 gal in 30 s at 49 psi"}, "bucket_test", "Open the tap further"),
        ({"latitude": "100"}, "latitude", "at most"),
        ({"colours": "wram"}, "colours", 'Did you mean "warm"?'),
        ({"size": "1"}, "size", "is no question"),
    ],
)
def test_a_wrong_answer_is_told_by_its_question(answers: dict[str, str], key: str, words: str) -> None:
    """What was given and what was expected stand with the question; no plan is made."""
    started = plan_from_answers(PLAIN | answers)
    assert started.text is None
    assert [one.where.field for one in started.findings] == [key]
    assert words in started.findings[0].message


def test_all_wrong_answers_are_told_at_once() -> None:
    """Each question that is not answered, or wrongly, has its own finding."""
    fields = [one.where.field for one in plan_from_answers({"apart": "x", "sun": "x"}).findings]
    assert fields == ["count", "top", "height", "apart", "sun"]


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_a_question_takes_its_own_example(question: Any) -> None:
    """The example beside a question is an answer to it; a question has words and a reason."""
    assert read_answers(PLAIN | {question.key: question.example})[1] == ()
    assert question.asks.endswith("?")
    assert question.why.endswith(".")


@pytest.mark.parametrize("sun", sorted(SUN))
@pytest.mark.parametrize("colours", sorted(COLOURS))
def test_plants_bear_the_light_and_agree_in_thirst(sun: str, colours: str) -> None:
    """Each plant chosen stands in the light that it is for; none is dry beside thirsty ones."""
    catalog = load()
    chosen = chosen_plants(catalog, sun=sun, colours=colours, look="all-round", mouth_m2=0.25, height_m=0.5)
    plants = [catalog.plants[one.split()[1]] for one in chosen.plants]
    assert plants
    assert all(sun in plant.light for plant in plants)
    assert all(plant.water_use != "low" for plant in plants)


def test_a_larger_container_takes_more_plants() -> None:
    """Counts grow with the area of the mouth."""
    catalog = load()

    def total(mouth_m2: float) -> int:
        chosen = chosen_plants(
            catalog, sun="full-sun", colours="warm", look="all-round", mouth_m2=mouth_m2, height_m=0.5
        )
        return sum(int(one.split()[0]) for one in chosen.plants)

    totals = [total(mouth_m2) for mouth_m2 in (0.05, 0.2, 0.5, 1.0)]
    assert totals == sorted(totals)
    assert totals[0] < totals[-1]
