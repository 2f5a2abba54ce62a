"""Values of a plan: what people write becomes a number in SI, and anything else a sentence on what was given."""

import math
from datetime import date
from typing import Annotated, Any, get_origin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from brimful.plan import values
from brimful.plan.values import Bearing, bucket_test, counted, day_of_year, given_words, name, row_name, text
from brimful.quantities import BucketTest

FIELDS = [key for key, one in vars(values).items() if get_origin(one) is Annotated]
ADAPTERS = {field: TypeAdapter[Any](getattr(values, field)) for field in FIELDS}
PARTS = st.sampled_from(
    ["1", "2.5", "-3", "0", "1/2", " ", "in", "ft", "'", '"', "m", "psi", "°", "N", "May", "gal in 45 s", "round", "\n"]
)
SCALARS = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=30)
    | st.lists(PARTS, max_size=6).map("".join)
    | st.dates()
    | st.integers(0, 99_999).map(lambda bits: 1 << bits)
)
ANYTHING = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3)
)


@pytest.mark.parametrize("field", FIELDS)
@given(given_value=ANYTHING)
def test_anything_becomes_a_value_or_one_sentence(field: str, given_value: Any) -> None:
    """Whatever stands in the file, a field gives a finite value, or a complaint of readable length that names it."""
    try:
        value = ADAPTERS[field].validate_python(given_value)
    except ValidationError as error:
        said = [str(one["ctx"]["error"]) for one in error.errors()]
        assert len(said) == 1
        assert len(said[0]) < 400
        assert "expected" in said[0] or "more than nothing" in said[0]
    else:
        parts = value if isinstance(value, tuple) else (value,)
        assert all(isinstance(part, str | int | float | tuple | BucketTest) for part in parts)
        assert all(math.isfinite(part) for part in parts if isinstance(part, float))


@given(
    st.integers(1, 366),
    st.sampled_from(["{day} {month}", "{month} {day}", "{number:02}-{day:02}", "2027-{number}-{day}"]),
)
def test_every_day_of_the_year_is_read(day: int, form: str) -> None:
    """Each day of the leap calendar is read back from each way to write it."""
    when = date.fromordinal(date(2024, 1, 1).toordinal() + day - 1)
    month = values.MONTHS[when.month - 1].title()
    assert day_of_year(form.format(day=when.day, month=month, number=when.month)) == day
    assert day_of_year(when) == day


@pytest.mark.parametrize("wrong", ["30 February", "32 May", "May", "15", "15 Mai 3", "0-0", "", 15, None, "13-01"])
def test_no_such_day(wrong: object) -> None:
    """A day that is not in the calendar, or only half said, is refused with an example."""
    with pytest.raises(ValueError, match=r'was given; a day was expected, for example "15 May"'):
        day_of_year(wrong)


@pytest.mark.parametrize(
    ("field", "given_value", "expected"),
    [
        ("Length", "0 m", "more than"),
        ("Length", "2001 m", "at most"),
        ("Length", "31 psi", "a pressure; a length was expected"),
        ("Size", "-1 in", "more than"),
        ("Size", 31, "needs a unit"),
        ("Distance", "-1 in", "at least"),
        ("Pressure", "25 in", "a length; a pressure was expected"),
        ("Rise", "-101 m", "at least"),
        ("Share", "150 %", "not between 0 and 1"),
        ("Latitude", "91", "at most 90"),
        ("WaterTemperature", "150 °F", "at most"),
        ("Emitted", 2.5, "a whole number from 1 to 200"),
        ("Emitted", True, "a whole number"),
        ("PlantCount", 0, "a whole number from 1 to 500"),
        ("Form", "rund", 'Did you mean "round"'),
        ("Units", "us", "one of US, metric"),
        ("Text", "two\nlines", "words on one line"),
        ("Text", 7, "in quotes"),
        ("Name", "a/b", 'without "/"'),
        ("RowName", "main", "another name"),
        ("Hours", "9:00 to 4:00", "hours within one day"),
        ("Weekday", "T", "a day of the week"),
        ("Label", "90-10-20", "at most 100 %"),
        ("Label", "0-10-20", "more than 0 % of nitrogen"),
        ("Injector", "1:0", "a ratio was expected"),
        ("Counts", {"shovels": -1}, "shovels: -1 was given; a whole number"),
        ("OnHand", {"170": "40 ft"}, "stands in quotes"),
        ("OnHand", True, "an amount was expected"),
        ("Temperatures", "1 2 3 °C", "twelve values"),
        ("Rains", "1 2 3 4 5 6 7 8 9 10 11 -12 mm", "values from 0"),
    ],
)
def test_what_is_out_of_bounds_is_said(field: str, given_value: object, expected: str) -> None:
    """Limits and dimensions speak in the words of the person who wrote the plan."""
    with pytest.raises(ValidationError, match=expected):
        ADAPTERS[field].validate_python(given_value)


@pytest.mark.parametrize(
    ("field", "given_value", "expected"),
    [
        ("Length", "31 in", 31 * 0.0254),
        ("Size", "2' 6\"", 30 * 0.0254),
        ("Size", "30 1/2 in", 30.5 * 0.0254),
        ("Rise", "-3 ft", -3 * 0.3048),
        ("Share", "15 %", 0.15),
        ("Latitude", "33.9 S", -33.9),
        ("Duration", "1 h 30 min", 5400.0),
        ("WaterTemperature", "50 °F", 10.0),
        ("Weight", "10 lb", 4.5359237),
    ],
)
def test_quantities_are_kept_in_si(field: str, given_value: object, expected: float) -> None:
    """What is written in either system is kept in SI (exact definitions of the inch, foot, pound and °F)."""
    assert ADAPTERS[field].validate_python(given_value) == pytest.approx(expected, rel=1e-12)


@given(
    st.integers(0, 9999),
    st.sampled_from(["zonal geranium", "canna-dwarf", "3 sisters"]),
    st.sampled_from([" ", " x ", "×  "]),
)
def test_counted_plants(count: int, plant: str, between: str) -> None:
    """A count and a plant come apart, whatever sign stands between them; a table passes as it is."""
    assert counted(f" {count}{between}{plant} ") == {"plant": plant, "count": count}
    assert counted({"plant": plant}) == {"plant": plant}


@pytest.mark.parametrize("wrong", ["geranium", "4", "4geranium", "-4 geranium", "4.5 geranium", "12345 geranium", ""])
def test_no_count_or_no_plant(wrong: str) -> None:
    """Without a count, or without a plant, nothing is guessed."""
    with pytest.raises(ValueError, match="a count and a plant were expected"):
        counted(wrong)


def test_a_bucket_test_passes_twice() -> None:
    """A bucket test that is one already stays the same."""
    test = bucket_test("5 gal in 45 s at 30 psi")
    assert bucket_test(test) is test


def test_names() -> None:
    """Names lose the blanks around them; only a row may not be called as the main is."""
    assert (text("  a b "), name(" main "), row_name("a-b")) == ("a b", "main", "a-b")


@given(ANYTHING)
def test_given_words_are_few(given_value: object) -> None:
    """What was given is shown in at most sixty signs, whatever it is."""
    assert 0 < len(given_words(given_value)) <= 60


@pytest.mark.parametrize(
    ("given", "degrees"),
    [
        ("north", 0.0), ("NE", 45.0), ("east", 90.0), ("South-East", 135.0), ("s", 180.0), ("south west", 225.0),
        ("W", 270.0), ("north-west", 315.0), (90, 90.0), ("45", 45.0), ("45 deg", 45.0), ("90 E", 90.0), (360, 360.0),
    ],
)  # fmt: skip
def test_a_direction_is_a_word_or_degrees(given: object, degrees: float) -> None:
    """Compass points by their words, clockwise from north."""
    assert TypeAdapter(Bearing).validate_python(given) == degrees


@pytest.mark.parametrize("wrong", ["upwards", "", "northnorth", 361, -1, True, "90 ft", None])
def test_what_is_no_direction_is_refused(wrong: object) -> None:
    """With what was given, and an example of what was expected."""
    with pytest.raises(ValidationError) as said:
        TypeAdapter(Bearing).validate_python(wrong)
    assert "expected" in str(said.value)
