"""The kinds of value a plan may hold: quantities, days of the year, counted plants; each says what is wrong."""

import re
from collections.abc import Callable
from datetime import date
from typing import Annotated, Any

from pydantic import BeforeValidator

from brimful.quantities import BucketTest, Dimension, System, parse, parse_bucket_test, show
from brimful.records import record

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
LEAP_YEAR = 2024
_POINTS = (("north", "n"), ("northeast", "ne"), ("east", "e"), ("southeast", "se"), ("south", "s"), ("southwest", "sw"))
COMPASS = {
    word: 45.0 * number for number, words in enumerate((*_POINTS, ("west", "w"), ("northwest", "nw"))) for word in words
}
"""Directions in degrees from north by way of east, by their words without spaces and hyphens."""


def given_words(given: object) -> str:
    """What was given, in few words: a hexadecimal number of any length, or a whole table, is not printed out.

    >>> given_words("31 in"), given_words(1 << 99999)
    ("'31 in'", 'a number too long to print')
    """
    if isinstance(given, int) and abs(given) >= 10**60:
        return "a number too long to print"
    try:
        words = repr(given)
    except ValueError:
        words = f"a {type(given).__name__} with a number too long to print"
    return words if len(words) <= 60 else f"{words[:57]}..."


def quantity(
    dimension: Dimension, *, above: float | None = None, at_least: float | None = None, at_most: float | None = None
) -> Any:
    """A field type that reads a quantity of `dimension` and holds it within limits in the dimension's own SI unit."""
    return Annotated[
        float, BeforeValidator(_reader(dimension, above=above, at_least=at_least, at_most=at_most)), dimension
    ]


def _reader(
    dimension: Dimension, *, above: float | None = None, at_least: float | None = None, at_most: float | None = None
) -> Callable[[object], float]:
    def read(given: object) -> float:
        value = parse(given, dimension)
        if above is not None and value <= above:
            raise ValueError(
                f"{given_words(given)} was given; more than {show(above, dimension, System.METRIC)} was expected"
            )
        if at_least is not None and value < at_least:
            raise ValueError(
                f"{given_words(given)} was given; at least {show(at_least, dimension, System.METRIC)} was expected"
            )
        if at_most is not None and value > at_most:
            raise ValueError(
                f"{given_words(given)} was given; at most {show(at_most, dimension, System.METRIC)} was expected"
            )
        return value

    return read


def bearing() -> Any:
    """A field type for a direction: degrees from north by way of east, or the word for it."""
    degrees = _reader(Dimension.ANGLE, at_least=0, at_most=360)

    def read(given: object) -> float:
        words = re.sub(r"[\s-]", "", given).lower() if isinstance(given, str) else ""
        if words in COMPASS:
            return COMPASS[words]
        if words.isalpha():
            raise ValueError(
                f'{given_words(given)} was given; a direction was expected, for example "north-east" or 45'
            )
        return degrees(given)

    return Annotated[float, BeforeValidator(read), Dimension.ANGLE]


def whole_number(least: int, most: int) -> Any:
    """A field type for a whole number within limits."""

    def read(given: object) -> int:
        if isinstance(given, bool) or not isinstance(given, int) or not least <= given <= most:
            raise ValueError(f"{given_words(given)} was given; a whole number from {least} to {most} was expected")
        return given

    return Annotated[int, BeforeValidator(read), range(least, most + 1)]


@record
class Choices:
    """The words among which a field chooses; a mark on its type for whoever describes the field."""

    words: tuple[str, ...]


def one_of(*words: str) -> Any:
    """A field type for one of a few words; the nearest is offered."""
    from brimful.findings import did_you_mean

    def read(given: object) -> str:
        if given not in words:
            hint = did_you_mean(given, words) if isinstance(given, str) else ""
            raise ValueError(f"{given_words(given)} was given; one of {', '.join(words)} was expected. {hint}".strip())
        return str(given)

    return Annotated[str, BeforeValidator(read), Choices(words)]


def text(given: object) -> str:
    """Words, not empty, on one line."""
    if not isinstance(given, str) or not given.strip() or "\n" in given or len(given) > 200:
        raise ValueError(f"{given_words(given)} was given; words on one line, in quotes, were expected")
    return given.strip()


def name(given: object) -> str:
    """The name of a zone: words without the stroke that sets off the parts of a figure's path."""
    words = text(given)
    if "/" in words:
        raise ValueError(f'{given_words(given)} was given; a name without "/" was expected')
    return words


def row_name(given: object) -> str:
    """The name of a row; "main" is kept for the main."""
    words = name(given)
    if words == "main":
        raise ValueError('"main" was given; another name was expected, since the main itself is called so')
    return words


def day_of_year(given: object) -> int:
    """A day of the year, 1 … 366 on the leap calendar, from "15 May", "May 15", "05-15" or a TOML date.

    >>> day_of_year("1 March"), day_of_year("Mar 1"), day_of_year("12-31")
    (61, 61, 366)
    """
    if isinstance(given, date):
        return date(LEAP_YEAR, given.month, given.day).timetuple().tm_yday
    words = re.findall(r"[a-z]+|\d+", str(given).lower()) if isinstance(given, str) else []
    numbers = [int(w) for w in words if w.isdigit()]
    months = [MONTHS.index(w[:3]) + 1 for w in words if w[:3] in MONTHS and len(w) >= 3]
    if len(words) == 3 and len(numbers) == 3 and numbers[0] > 1000:
        numbers = numbers[1:]
    try:
        if len(months) == 1 and len(numbers) == 1:
            return date(LEAP_YEAR, months[0], numbers[0]).timetuple().tm_yday
        if not months and len(numbers) == 2:
            return date(LEAP_YEAR, *numbers).timetuple().tm_yday
    except ValueError:
        pass
    raise ValueError(f'{given_words(given)} was given; a day was expected, for example "15 May" or 2027-05-15')


def bucket_test(given: object) -> BucketTest:
    """A bucket test: "5 gal in 45 s at 30 psi"."""
    return given if isinstance(given, BucketTest) else parse_bucket_test(given)


def counted(given: object) -> object:
    """A counted plant: "4 zonal geranium" becomes a table; a table stays as it is.

    >>> counted("4 zonal geranium")
    {'plant': 'zonal geranium', 'count': 4}
    """
    if not isinstance(given, str):
        return given
    match = re.fullmatch(r"\s*(\d{1,4})\s*[x×]?\s+(.+?)\s*", given)
    if not match:
        raise ValueError(
            f'{given_words(given)} was given; a count and a plant were expected, for example "4 zonal geranium"'
        )
    return {"plant": match[2], "count": int(match[1])}


def by_month(dimension: Dimension, *, at_least: float, at_most: float) -> Any:
    """A field type for twelve values, January first: "3 5 10 15 20 23 25 25 20 14 8 4 °C", or a list of twelve."""

    def read(given: object) -> tuple[float, ...]:
        parts = given
        if isinstance(given, str):
            words = given.replace(",", " ").split()
            parts = [f"{word} {' '.join(words[12:])}" for word in words[:12]] if len(words) > 12 else words
        if not isinstance(parts, list | tuple) or len(parts) != 12:
            raise ValueError(
                f"{given_words(given)} was given; twelve values were expected, January first, the unit at the end"
            )
        values = tuple(parse(part, dimension) for part in parts)
        if not all(at_least <= value <= at_most for value in values):
            low, high = show(at_least, dimension, System.METRIC), show(at_most, dimension, System.METRIC)
            raise ValueError(f"{given_words(given)} was given; values from {low} to {high} were expected")
        return values

    return Annotated[tuple[float, ...], BeforeValidator(read)]


def hours_of_day(given: object) -> tuple[float, float]:
    """A stretch of the day in hours: "4:00 to 9:00".

    >>> hours_of_day("4:30 to 9:00")
    (4.5, 9.0)
    """
    stretch = re.compile(r"\s*(\d{1,2})(?::(\d\d))?\s*(?:to|-|–)\s*(\d{1,2})(?::(\d\d))?\s*")
    match = stretch.fullmatch(given) if isinstance(given, str) else None
    if match:
        begin, end = (int(match[i]) + int(match[i + 1] or 0) / 60 for i in (1, 3))
        if 0 <= begin < end <= 24:
            return begin, end
    raise ValueError(f'{given_words(given)} was given; hours within one day were expected, for example "4:00 to 9:00"')


def weekday(given: object) -> int:
    """A day of the week, Monday 0 … Sunday 6, by its name or its first letters.

    >>> weekday("Wednesday"), weekday("sun")
    (2, 6)
    """
    if isinstance(given, int) and not isinstance(given, bool) and 0 <= given <= 6:
        return given
    names = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    word = given.strip().lower() if isinstance(given, str) else ""
    found = [i for i, name in enumerate(names) if len(word) >= 2 and name.startswith(word)]
    if len(found) != 1:
        raise ValueError(f'{given_words(given)} was given; a day of the week was expected, for example "Monday"')
    return found[0]


def label(given: object) -> tuple[float, float, float]:
    """The three numbers on a bag of feed: "20-10-20" is nitrogen, phosphate and potash in percent.

    >>> label("20-10-20")
    (20.0, 10.0, 20.0)
    """
    bag = re.compile(r"(\d{1,3}(?:\.\d{1,3})?)" + r"\s*-\s*(\d{1,3}(?:\.\d{1,3})?)" * 2)
    match = bag.fullmatch(given.strip()) if isinstance(given, str) else None
    if match is None:
        raise ValueError(f'{given_words(given)} was given; a label was expected, for example "20-10-20"')
    nitrogen, phosphate, potash = (float(part) for part in match.groups())
    if nitrogen + phosphate + potash > 100 or nitrogen <= 0:
        said = "more than 0 % of nitrogen, and at most 100 % altogether, were expected"
        raise ValueError(f"{given_words(given)} was given; {said}")
    return nitrogen, phosphate, potash


def injector(given: object) -> float:
    """The R of an injector's 1:R, from "1:100" or a number.

    >>> injector("1:128")
    128.0
    """
    ratio = re.compile(r"1\s*:\s*(\d{1,4}(?:\.\d{1,3})?)")
    match = ratio.fullmatch(given.strip()) if isinstance(given, str) else None
    value = float(match[1]) if match else given if isinstance(given, int | float) else 0.0
    if isinstance(value, bool) or not 1 <= value <= 5000:
        raise ValueError(f'{given_words(given)} was given; a ratio was expected, for example "1:100"')
    return float(value)


def named_counts(given: object) -> object:
    """A table of counts as pairs; whole numbers from 0 to 1000."""
    pairs = tuple(given.items()) if isinstance(given, dict) else None
    if pairs is None:
        raise ValueError(f"{given_words(given)} was given; a table of counts was expected")
    for name, count in pairs:
        if isinstance(count, bool) or not isinstance(count, int) or not 0 <= count <= 1000:
            raise ValueError(f"{name[:60]}: {given_words(count)} was given; a whole number from 0 to 1000 was expected")
    return pairs


def on_hand(given: object) -> int | float | str:
    """An amount that is on hand, read later in the unit of its thing; a table stems from a key that wants quotes."""
    if isinstance(given, str):
        return text(given)
    if isinstance(given, int | float) and not isinstance(given, bool) and -1e9 <= given <= 1e9:
        return given
    hint = " A key with a dot in it stands in quotes." if isinstance(given, dict) else ""
    raise ValueError(f'{given_words(given)} was given; an amount was expected, for example 4 or "40 ft".{hint}')


def keyed(key: str) -> Callable[[object], object]:
    """Let a lone word stand for a table with one key: weather = "file.csv" for weather = {file = "file.csv"}."""

    def read(given: object) -> object:
        return {key: given} if isinstance(given, str) else given

    return read


Name = Annotated[str, BeforeValidator(name)]
RowName = Annotated[str, BeforeValidator(row_name)]
Text = Annotated[str, BeforeValidator(text)]
Day = Annotated[int, BeforeValidator(day_of_year)]
Bucket = Annotated[BucketTest, BeforeValidator(bucket_test)]
Length = quantity(Dimension.LENGTH, above=0, at_most=2000)
Piece = quantity(Dimension.LENGTH, above=0, at_most=100)
Distance = quantity(Dimension.LENGTH, at_least=0, at_most=2000)
Rise = quantity(Dimension.LENGTH, at_least=-100, at_most=100)
Size = quantity(Dimension.LENGTH, above=0, at_most=20)
Elevation = quantity(Dimension.LENGTH, at_least=-450, at_most=5000)
Pressure = quantity(Dimension.PRESSURE, above=0, at_most=150)
Duration = quantity(Dimension.TIME, above=0, at_most=86400)
WorkDay = quantity(Dimension.TIME, at_least=1800, at_most=86400)
Share = quantity(Dimension.SHARE, above=0, at_most=1)
Leaching = quantity(Dimension.SHARE, at_least=0, at_most=0.5)
Latitude = quantity(Dimension.ANGLE, at_least=-90, at_most=90)
Longitude = quantity(Dimension.ANGLE, at_least=-180, at_most=180)
WaterTemperature = quantity(Dimension.TEMPERATURE, at_least=0, at_most=60)
Weight = quantity(Dimension.MASS, above=0, at_most=20000)
Starts = whole_number(1, 24)
Loops = whole_number(1, 6)
Emitted = whole_number(1, 200)
PlantCount = whole_number(1, 500)
RowCount = whole_number(1, 5000)
Label = Annotated[tuple[float, float, float], BeforeValidator(label)]
Injector = Annotated[float, BeforeValidator(injector)]
Area = quantity(Dimension.AREA, above=0, at_most=1e6)
Gust = quantity(Dimension.SPEED, above=0, at_most=90)
Turn = quantity(Dimension.ANGLE, at_least=0, at_most=90)
Litres = quantity(Dimension.VOLUME, above=0, at_most=10000)
Rate = quantity(Dimension.DENSITY, above=0, at_most=50)
Slope = quantity(Dimension.NUMBER, at_least=-20, at_most=20)
Conductivity = quantity(Dimension.NUMBER, at_least=0, at_most=20)
Strength = quantity(Dimension.NUMBER, above=0, at_most=2000)
People = whole_number(1, 100)
Days = whole_number(1, 365)
Year = whole_number(1900, 2200)
Counts = Annotated[tuple[tuple[str, int], ...], BeforeValidator(named_counts)]
OnHand = Annotated[int | float | str, BeforeValidator(on_hand)]
Form = one_of("round", "square", "rectangular", "bowl", "deep-bowl", "urn")
Units = one_of("US", "metric")
Hours = Annotated[tuple[float, float], BeforeValidator(hours_of_day)]
Weekday = Annotated[int, BeforeValidator(weekday)]
Coordinate = quantity(Dimension.LENGTH, at_least=-5000, at_most=5000)
Height = quantity(Dimension.LENGTH, above=0, at_most=200)
Bearing = bearing()
Amount = quantity(Dimension.VOLUME, above=0, at_most=1e9)
Kind = one_of("wall", "fence", "building", "hedge", "tree")
Temperatures = by_month(Dimension.TEMPERATURE, at_least=-60, at_most=60)
Rains = by_month(Dimension.DEPTH, at_least=0, at_most=3000)
