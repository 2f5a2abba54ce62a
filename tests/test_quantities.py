"""Quantities: text to number with unit and back."""

import math
import string
from collections.abc import Iterator

import pint
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from brimful.errors import QuantityError
from brimful.quantities import (
    BucketTest,
    Dimension,
    System,
    in_unit,
    parse,
    parse_bucket_test,
    show,
    show_number,
    unit_of,
)
from brimful.quantities.table import UNITS
from brimful.quantities.units import AMBIGUOUS

LENGTH, VOLUME, FLOW, PRESSURE = Dimension.LENGTH, Dimension.VOLUME, Dimension.FLOW, Dimension.PRESSURE
INCH_M = 0.0254  # international inch, exact (memory)
PSI_M = 0.70307  # 1 psi in metres of water at 9.80665 m/s2 and 1000 kg/m3 (calculated: 6894.757 / 9806.65)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("31 in", 31),
        ('31"', 31),
        ("31″", 31),
        ("31 inches", 31),
        ("31 IN.", 31),
        ("2'", 24),
        ("2 ft 6 in", 30),
        ("2' 6\"", 30),
        ("2’6”", 30),
        ("2ft6in", 30),
        ("2 feet, 6 inches", 30),
        ("2 feet and 6 inches", 30),
        ("-2 ft 6 in", -30),
        ("30 1/2 in", 30.5),
        ("30½ in", 30.5),
        ("30 ½ in", 30.5),
        ("1-1/2 in", 1.5),
        ('1/4"', 0.25),
        ("¼ in", 0.25),
        (".5 in", 0.5),
        ("1e1 in", 10),
        ("2' 6 1/2\"", 30.5),
        ("1 yd", 36),
        ("−4 in", -4),
    ],
)
def test_lengths_as_people_write_them(text: str, inches: float) -> None:
    """Feet and inches in every common spelling."""
    assert parse(text, LENGTH) == pytest.approx(inches * INCH_M, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("1,200 L", 1200),
        ("1,200,000 L", 1_200_000),
        ("12,000.5 L", 12000.5),
        ("1 200 L", 1200),
        ("1\u202f200,5 L", 1200.5),
        ("1.200,5 L", 1200.5),
        ("1.200 L", 1.2),
        ("1,2 L", 1.2),
        ("1,25 L", 1.25),
        ("0,800 L", 0.8),
        ("1200,500 L", 1200.5),
    ],
)
def test_commas(text: str, litres: float) -> None:
    """Exactly three digits after a comma are thousands, unless the number starts with 0; anything else is a decimal."""
    assert parse(text, VOLUME) == pytest.approx(litres, rel=1e-15)


# NIST Handbook 44, Appendix C (memory): exact by definition.
@pytest.mark.parametrize(
    ("text", "dimension", "exact"),
    [
        ("1 gal", VOLUME, 3.785411784),
        ("1 qt", VOLUME, 0.946352946),
        ("1 dry qt", VOLUME, 1.101220942715),
        ("1 bushel", VOLUME, 35.23907016688),
        ("1 fl oz", VOLUME, 0.0295735295625),
        ("1 cu ft", VOLUME, 28.316846592),
        ("1 ft³", VOLUME, 28.316846592),
        ("1 cu. ft.", VOLUME, 28.316846592),
        ("1 yd3", VOLUME, 764.554857984),
        ("1 lb", Dimension.MASS, 0.45359237),
        ("16 oz", Dimension.MASS, 0.45359237),
        ("1 sq ft", Dimension.AREA, 0.09290304),
        ("1 acre", Dimension.AREA, 4046.8564224),
        ("1 gph", FLOW, 3.785411784),
        ("1 gpm", FLOW, 227.12470704),
        ("1 Gallon PER Minute", FLOW, 227.12470704),
        ("1 mph", Dimension.SPEED, 0.44704),
        ("1 ft of head", PRESSURE, 0.3048),
        ("10 m", PRESSURE, 10.0),
        ("10 mH2O", PRESSURE, 10.0),
        ("10 ft H2O", PRESSURE, 3.048),
        ("1 in", Dimension.DEPTH, 25.4),
        ("1 mm", Dimension.DEPTH, 1.0),
        ("32 °F", Dimension.TEMPERATURE, 0.0),
        ("-40 F", Dimension.TEMPERATURE, -40.0),
        ("212 degrees Fahrenheit", Dimension.TEMPERATURE, 100.0),
        ("-4,5 °C", Dimension.TEMPERATURE, -4.5),
        ("1000 langley", Dimension.RADIATION, 41.84),  # thermochemical calorie 4.184 J
        ("100 W/m²", Dimension.RADIATION, 8.64),  # FAO-56 table 3 (memory): 1 W/m2 = 0.0864 MJ/m2/day
        ("100 J/cm2", Dimension.RADIATION, 1.0),
        ("20 MJ m⁻² day⁻¹", Dimension.RADIATION, 20.0),
        ("1 h 30 min", Dimension.TIME, 5400.0),
        ("1 1/2 hours", Dimension.TIME, 5400.0),
        ("0.4 g/cm3", Dimension.DENSITY, 400.0),
        ("15 %", Dimension.SHARE, 0.15),
        ("0.15", Dimension.SHARE, 0.15),
        ("47°30'N", Dimension.ANGLE, 47.5),
        ("122.5 W", Dimension.ANGLE, -122.5),
        ("33.25° south", Dimension.ANGLE, -33.25),
        ("-12.5", Dimension.ANGLE, -12.5),
        ("1,200", Dimension.NUMBER, 1200.0),
        ("1/2", Dimension.NUMBER, 0.5),
    ],
)
def test_exact_constants(text: str, dimension: Dimension, exact: float) -> None:
    """Conversions that are exact by definition are exact to the last digits of a float."""
    assert parse(text, dimension) == pytest.approx(exact, rel=1e-14, abs=1e-13)


def test_psi_as_head() -> None:
    """1 psi is 0.70307 m of water, within half its last digit."""
    assert parse("1 psi", PRESSURE) == pytest.approx(PSI_M, abs=5e-6)


PINT_UNITS = {
    LENGTH: ("meter", "in ft yd mi mm cm m km"),
    Dimension.AREA: ("meter**2", "ft2=foot**2 sq_in=inch**2 m2=meter**2 cm2=cm**2 acre=international_acre ha=hectare"),
    VOLUME: (
        "liter",
        "L mL cl hl gal=gallon imp_gal=imperial_gallon qt=quart pt=pint cup fl_oz=fluid_ounce tbsp=tablespoon"
        " tsp=teaspoon bu=bushel peck dry_qt=dry_quart dry_pt=dry_pint cu_ft=foot**3 yd3=yard**3 m3=meter**3 cc=cm**3",
    ),
    FLOW: (
        "liter/hour",
        "gph=gallon/hour gpm=gallon/minute gpd=gallon/day L/h=liter/hour lpm=liter/minute L/s=liter/second"
        " mL/min=milliliter/minute m3/h=meter**3/hour cfm=foot**3/minute cfs=foot**3/second cu_ft/day=foot**3/day",
    ),
    PRESSURE: ("meter_H2O", "psi kPa bar mbar=millibar Pa hPa MPa atm lb/in2=psi kg/cm2=kgf/cm**2"),
    Dimension.TIME: ("second", "s min h d=day wk=week"),
    Dimension.MASS: ("kilogram", "mg g kg t=tonne oz=ounce lb short_ton=short_ton"),
    Dimension.TEMPERATURE: ("degC", "°C=degC °F=degF K=kelvin"),
    Dimension.SPEED: ("meter/second", "m/s mph=mile/hour km/h=km/hour ft/s=foot/second kn=knot"),
    Dimension.DEPTH: ("millimeter", "in mm cm"),
    Dimension.ANGLE: ("degree", "deg=degree '=arcminute \"=arcsecond"),
    Dimension.DENSITY: ("kg/m**3", "kg/m3=kg/m**3 g/cm3=g/cm**3 lb/ft3=lb/foot**3 lb/cu_yd=lb/yard**3 g/L=g/liter"),
    Dimension.RADIATION: ("MJ/m**2/day", "W/m2=W/m**2 ly/day=langley/day kWh/m2/day=kWh/m**2/day J/cm2=J/cm**2/day"),
}


def _against_pint() -> Iterator[tuple[Dimension, str, str, str]]:
    for dimension, (canonical, row) in PINT_UNITS.items():
        for entry in row.split():
            ours, _, theirs = entry.partition("=")
            yield dimension, ours.replace("_", " "), theirs or ours, canonical


@pytest.fixture(scope="module")
def registry() -> "pint.UnitRegistry[float]":
    """An independent table of units; a metre of water is defined as ours is, 1000 kg/m3 at standard gravity."""
    ureg: pint.UnitRegistry[float] = pint.UnitRegistry()
    ureg.define("meter_H2O = 9806.65 pascal")
    ureg.define("international_acre = 43560 * foot ** 2")
    return ureg


@pytest.mark.parametrize(("dimension", "unit", "theirs", "canonical"), list(_against_pint()))
def test_units_against_pint(
    registry: "pint.UnitRegistry[float]", dimension: Dimension, unit: str, theirs: str, canonical: str
) -> None:
    """Every unit has the size that an independent library gives it."""
    expected = registry.Quantity(12.5, registry.parse_units(theirs)).to(registry.parse_units(canonical)).magnitude
    # pint's calorie and arc units carry pi or measured constants: ten digits are asked for, not fifteen.
    assert parse(f"12.5 {unit}", dimension) == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize("text", ["31", 31, 31.0, "2 ft 6"])
def test_a_number_without_a_unit_is_refused(text: object) -> None:
    """A bare number says too little for a length."""
    with pytest.raises(QuantityError, match="a length was expected, for example"):
        parse(text, LENGTH)


@pytest.mark.parametrize(
    ("text", "dimension", "said"),
    [
        ("31 psi", LENGTH, '"31 psi" is a pressure; a length was expected, for example "31 in".'),
        ("5 gal", FLOW, '"5 gal" is a volume; a flow was expected'),
        ("5 m", Dimension.TIME, '"5 m" is a length; a time was expected, for example "45 min".'),
        ("31", LENGTH, '"31" needs a unit; a length was expected'),
        ("31 inchs", LENGTH, 'unknown unit "inchs"'),
        ("31 inchs", LENGTH, 'Did you mean "inches"'),
        ("5 galons", VOLUME, 'Did you mean "gallons"'),
        ("12 in", Dimension.NUMBER, "has a unit; a plain number was expected"),
        ("15", Dimension.SHARE, "not between 0 and 1"),
        ("5 oz", VOLUME, 'write "fl oz"'),
        ("5 ML", VOLUME, 'write "mL"'),
        ("5 mPa", PRESSURE, 'write "MPa"'),
        ("2 tons", Dimension.MASS, 'write "short ton"'),
        ("0:45", Dimension.TIME, "hours or minutes"),
        ("-5 N", Dimension.ANGLE, "a sign and a compass letter"),
        (None, LENGTH, "a value of type NoneType is not a quantity"),
        (True, Dimension.NUMBER, "True is not a quantity"),
        (["31 in"], LENGTH, "a value of type list is not a quantity"),
    ],
)
def test_messages_say_what_to_do(text: object, dimension: Dimension, said: str) -> None:
    """A refusal says what was given, what was expected, and what to write."""
    with pytest.raises(QuantityError) as caught:
        parse(text, dimension)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    "text",
    [
        "nan in",
        "inf in",
        "-inf in",
        "1e400 in",
        "1e308 km",
        "1/0 in",
        "30 5/2 in",
        "6 in 2 ft",
        "2 ft -6 in",
        "2-3 ft",
        "1,200,5 in",
        "1.2.3 in",
        "10² in",
        "10¹ in",
        "٣ in",
        "",
        " ",
        "in",
        "1/2/3 in",
        "5 in 5 in",
        "25 ps",
        "1 ft 2 in 3",
        "3 x 4 in",
        "~5 in",
        "5 in high",
        "5–6 in",
        "1,20,000 in",
        "2 in/h",
    ],
)
def test_what_is_no_length_is_refused(text: str) -> None:
    """Non-finite, garbled, ambiguous and half-finished texts are refused rather than guessed at."""
    with pytest.raises(QuantityError):
        parse(text, LENGTH)


@pytest.mark.parametrize("value", [math.nan, math.inf, 10**5000, -(10**400)], ids=["nan", "inf", "huge", "negative"])
def test_hostile_numbers_are_refused(value: float) -> None:
    """Numbers that are no numbers, or too large to be one, are refused."""
    with pytest.raises(QuantityError):
        parse(value, Dimension.NUMBER)


pieces = st.sampled_from(
    (
        *"10,./-+½²'\"°%e:hN3٣ \u202f\x00\ud800",
        *["12", "1e999", "in", "ft", "gal", "per", "of", "at", "cu", "psi", "nan", "and", "MJ/m2/day", "L/h", " in "],
    )
)
hostile = st.text(max_size=200) | st.lists(pieces, max_size=12).map("".join) | st.text(string.printable, max_size=100)


@given(hostile, st.sampled_from(Dimension))
@example("9" * 100_000, LENGTH)
@example("1" + " ft" * 26, LENGTH)
@example("1/" * 40, LENGTH)
def test_hostile_text_raises_only_quantity_errors(text: str, dimension: Dimension) -> None:
    """Any text is either a finite quantity or a QuantityError with a message that prints."""
    try:
        value = parse(text, dimension)
    except QuantityError as error:
        assert "expected" in str(error) or "write" in str(error)
        assert len(str(error)) < 500
    else:
        assert math.isfinite(value)


@given(hostile)
@example("5 gal in 1e-320 s")
@example("a in " * 50)
def test_hostile_bucket_tests_raise_only_quantity_errors(text: str) -> None:
    """Any text is either a bucket test with a finite flow or a QuantityError."""
    try:
        test = parse_bucket_test(text)
    except QuantityError:
        return
    assert 0 <= test.flow_l_h < math.inf


@given(st.integers(0, 5000), st.integers(0, 15), st.sampled_from([" ", "-", " - "]))
def test_mixed_numbers(whole: int, sixteenths: int, gap: str) -> None:
    """A whole number and sixteenths of an inch add up."""
    expected = (whole + sixteenths / 16) * INCH_M
    assert parse(f"{whole}{gap}{sixteenths}/16 in", LENGTH) == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize("dimension", [d for d in Dimension if UNITS[d] and d is not Dimension.SHARE])
@given(number=st.floats(-1e12, 1e12))
@settings(max_examples=20)
def test_any_number_with_each_unit(dimension: Dimension, number: float) -> None:
    """Python's own way of writing a number is read to the same number with every unit that the table knows."""
    for name, unit in UNITS[dimension].items():
        expected = pytest.approx(unit.to_canonical(number), rel=1e-12, abs=1e-300)
        for spelling in {name, name.upper()} - {doubtful for _, doubtful in AMBIGUOUS}:
            assert parse(f"{number!r}{spelling}", dimension) == expected


@given(st.integers(-(10**9), 10**9))
def test_thousands_round_trip(number: int) -> None:
    """A number parted in thousands is read as that number."""
    assert parse(f"{number:,}", Dimension.NUMBER) == number


# Half the last digit that show writes in a rung, in canonical units: what may be lost on the way to text and back.
SLACK = {
    LENGTH: (0.051 * 0.3048, 0.0051),
    Dimension.AREA: (0.051 * 0.0929, 0.0051),
    VOLUME: (0.051 * 3.7854, 0.051),
    PRESSURE: (0.051 * 0.70307, 0.0051 * 10.2),
    Dimension.TIME: (0.051 * 3600, 0.051 * 3600),
    Dimension.MASS: (0.051 * 0.4536, 0.051),
    Dimension.TEMPERATURE: (0.51 * 5 / 9, 0.051),
    Dimension.SPEED: (0.051 * 0.44704, 0.051),
    Dimension.DEPTH: (0.0051 * 25.4, 0.051),
    Dimension.ANGLE: (0.0051, 0.0051),
    Dimension.DENSITY: (0.051 * 16.0185, 0.51),
    Dimension.RADIATION: (0.51 * 0.04184, 0.051),
    Dimension.NUMBER: (0.0051, 0.0051),
    Dimension.SHARE: (0.00051, 0.00051),
}


@given(st.floats(0, 1e5), st.sampled_from(Dimension), st.sampled_from(System), st.booleans())
def test_show_and_parse_round_trip(value: float, dimension: Dimension, system: System, small: bool) -> None:
    """What is shown is read back as the same value within half its last digit."""
    if dimension is Dimension.SHARE:
        value /= 1e5
    back = parse(show(value, dimension, system, small=small), dimension)
    if dimension is FLOW:
        assert back == pytest.approx(value, rel=0.0051, abs=4e-6)
    else:
        assert back == pytest.approx(value, abs=SLACK[dimension][system is System.METRIC])


@given(st.floats(0.001, 0.999), st.sampled_from(System))
def test_table_numbers_are_in_the_header_unit(share: float, system: System) -> None:
    """A table's number and its header's unit together read back as the value, for either choice of unit."""
    for dimension in (d for d in Dimension if d not in (Dimension.NUMBER, FLOW)):
        for small in (False, True):
            cell = f"{show_number(share, dimension, system, small=small)} {unit_of(dimension, system, small=small)}"
            assert parse(cell, dimension) == pytest.approx(share, abs=SLACK[dimension][system is System.METRIC])


@given(st.floats(-1e6, 1e6), st.sampled_from(Dimension), st.sampled_from(System), st.booleans())
def test_in_unit_is_the_inverse_of_parse(value: float, dimension: Dimension, system: System, small: bool) -> None:
    """The unrounded float in the header's unit is the same quantity."""
    assume(dimension is not Dimension.SHARE)
    written = f"{in_unit(value, dimension, system, small=small)!r} {unit_of(dimension, system, small=small)}"
    assert parse(written, dimension) == pytest.approx(value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("value", "dimension", "us", "metric"),
    [
        (30.5 * INCH_M, LENGTH, "30 1/2 in", "0.77 m"),
        (0.25 * INCH_M, LENGTH, "0.25 in", "6.3 mm"),
        (-0.001, LENGTH, "-0.04 in", "-1 mm"),
        (12.192, LENGTH, "40 ft", "12.19 m"),
        (5 * 3.785411784, VOLUME, "5 gal", "18.9 L"),
        (1234 * 3.785411784, VOLUME, "1,234 gal", "4\u202f671.2 L"),
        (2.0, FLOW, "0.528 gph", "2 L/h"),
        (4 * 227.12470704, FLOW, "4 gpm", "908 L/h"),
        (30 * 0.7030696, PRESSURE, "30 psi", "2.07 bar"),
        (45.0, Dimension.TIME, "45 s", "45 s"),
        (1500.0, Dimension.TIME, "25 min", "25 min"),
        (36000.0, Dimension.TIME, "10 h", "10 h"),
        (-2.2222, Dimension.TEMPERATURE, "28 °F", "-2.2 °C"),
        (0.155, Dimension.SHARE, "15.5 %", "15.5 %"),
        (-0.0001, Dimension.NUMBER, "0", "0"),
    ],
)
def test_shown_as_a_person_would_say_it(value: float, dimension: Dimension, us: str, metric: str) -> None:
    """Tape quarters, tenths of a gallon, whole seconds; no trailing zeros and no minus nought."""
    assert (show(value, dimension, System.US), show(value, dimension, System.METRIC)) == (us, metric)


def test_an_infinite_value_is_not_shown() -> None:
    """Showing what is no number is the caller's mistake."""
    with pytest.raises(ValueError, match="finite"):
        show(math.inf, LENGTH, System.US)


@pytest.mark.parametrize(
    ("text", "volume_l", "time_s", "psi"),
    [
        ("5 gal in 45 s", 18.92705892, 45, None),
        ("5 gal in 45 s at 30 psi", 18.92705892, 45, 30),
        ("5 gal in 45s @30psi", 18.92705892, 45, 30),
        ("19 L in 0:45", 19, 45, None),
        ("19 L  in 1:02:03.5", 19, 3723.5, None),
        ("1,5 gal in 1 min 5 sec AT 2 bar", 5.678117676, 65, 2e5 / 6894.757293168),
    ],
)
def test_bucket_tests(text: str, volume_l: float, time_s: float, psi: float | None) -> None:
    """A volume, a time and maybe a pressure; the flow is their quotient."""
    test = parse_bucket_test(text)
    pressure_m = None if psi is None else pytest.approx(psi * PSI_M, rel=1e-5)
    assert test == BucketTest(pytest.approx(volume_l), pytest.approx(time_s), pressure_m)  # type: ignore[arg-type]
    assert test.flow_l_h * time_s / 3600 == pytest.approx(volume_l)


@pytest.mark.parametrize(
    "text", ["5 gal", "5 gal in 0 s", "-5 gal in 45 s", "5 gal in 45 s at -3 psi", "5 in in 45 s", 7]
)
def test_what_is_no_bucket_test_is_refused(text: object) -> None:
    """Without a volume, a time, or with nothing in them there is no flow."""
    with pytest.raises(QuantityError, match=r"expected|needs"):
        parse_bucket_test(text)
