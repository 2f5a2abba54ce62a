"""Text to number: what a person wrote, to a float in the dimension's canonical unit."""

import math
import re
import unicodedata
from itertools import pairwise

from brimful.errors import QuantityError
from brimful.findings import did_you_mean
from brimful.quantities.dimensions import Dimension
from brimful.quantities.numbers import read_number
from brimful.quantities.table import UNITS, Unit
from brimful.quantities.units import AMBIGUOUS, dimension_of, find

LONGEST = 80  # characters; nobody writes a longer quantity, and a bound keeps hostile text cheap

_FRACTIONS = {ord(sign): f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')}" for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
_SIGNS = str.maketrans(
    {
        "″": '"',
        "“": '"',
        "”": '"',
        "′": "'",
        "’": "'",
        "‘": "'",
        "−": "-",
        "–": "-",
        "‑": "-",
        "⁄": "/",
        "º": "°",
        "˚": "°",
    }
    | {"℃": "°C", "℉": "°F", "²": "^2", "³": "^3", "¹": "^1", "⁻": "^-", "·": " ", "％": "%"}
)
_WORD = r"(?:°?[^\W\d_]+\.?(?:\^?-?[1-3](?![\w.,]))?)"
_UNIT = re.compile(rf"""\s*(?P<unit>''|["'%]|{_WORD}(?:(?:\s*/\s*|\s+){_WORD})*|°)""")
_GAP = re.compile(r"\s*,?\s*")
_COMPASS = re.compile(r"(?<![^\W\d_])\s*(?P<side>[NSEW]|north|south|east|west)$", re.IGNORECASE)
_COMPOUND = frozenset({Dimension.LENGTH, Dimension.TIME, Dimension.MASS, Dimension.VOLUME, Dimension.ANGLE})

Parts = list[tuple[float, str]]


def parse(text: object, dimension: Dimension) -> float:
    """The quantity that `text` says, in the canonical unit of `dimension` (LENGTH m, VOLUME L, PRESSURE m of water …).

    Reads "31 in", "2' 6\\"", "30 1/2 in", "1-1/2 in", "½ gal", "25 psi", "0,8 m", "1,200 gal", "-4 °C", "15 %".
    "1,200" means one thousand two hundred, because exactly three digits follow the comma; "1,2" and "0,800" have a
    decimal comma. Upper or lower case does not matter except where it would change the size ("mL", "MPa"). Parts may
    follow each other from large to small: "2 ft 6 in", "1 h 30 min", "2 lb 4 oz", "47° 30' N". A bare number is enough
    only for NUMBER, ANGLE ("47.5 N"; south and west are negative) and SHARE (0 to 1). A "qt" is liquid, a "gal" is the
    US gallon, "W/m2" is the mean of a day.

    Raises QuantityError, and nothing else, for anything that is not such a quantity.

    >>> parse("2 ft 6 in", Dimension.LENGTH)
    0.762
    """
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise QuantityError(f"{_quoted(text)} is not a quantity; {_expected(dimension)}.")
    given = _tidy(text if isinstance(text, str) else repr(text) if isinstance(text, float) else _digits(text))
    if len(given) > LONGEST:
        raise QuantityError(f"{_quoted(text)} is too long to be a quantity; {_expected(dimension)}.")
    value = _angle(given) if dimension is Dimension.ANGLE else _total(given, dimension)
    if not math.isfinite(value):
        raise QuantityError(f'"{given}" is too large; {_expected(dimension)}.')
    if dimension is Dimension.SHARE and not 0 <= value <= 1:
        raise QuantityError(f'"{given}" is not between 0 and 1; {_expected(dimension)} or "0.15".')
    return value + 0.0  # never -0.0


def _digits(number: int) -> str:
    """An int as text; Python itself refuses to print thousands of digits."""
    return str(number) if abs(number) < 10**LONGEST else "9" * (LONGEST + 1)


def _tidy(text: str) -> str:
    """The text with typographic signs made plain and space single. Long text is cut: it is refused anyway."""
    plain = text[: 2 * LONGEST].translate(_FRACTIONS).translate(_SIGNS)
    plain = re.sub(r"\band\b", " ", plain, flags=re.IGNORECASE).replace("^-^", "^-")
    plain = re.sub(r"\s*H2O\b", " water", plain, flags=re.IGNORECASE)
    return re.sub(r"° (?=[CcFf]\b)", "°", " ".join(plain.split()))


def _angle(given: str) -> float:
    match = _COMPASS.search(given)
    if match is None:
        return _total(given, Dimension.ANGLE)
    size = _total(given[: match.start()], Dimension.ANGLE)
    if size < 0:
        raise QuantityError(f'"{given}" has both a sign and a compass letter; write one of them, for example "47.5 N".')
    return -size if match["side"][0] in "SsWw" else size


def _total(given: str, dimension: Dimension) -> float:
    parts = _parts(given, dimension)
    units = [_unit(given, spelling, dimension) for _, spelling in parts]
    if len(parts) == 1:
        return units[0].to_canonical(parts[0][0])
    _check_compound(given, parts, units, dimension)
    sign = math.copysign(1.0, parts[0][0])
    return sign * sum(unit.to_canonical(abs(number)) for unit, (number, _) in zip(units, parts, strict=True))


def _parts(given: str, dimension: Dimension) -> Parts:
    """The (number, unit as spelled) pairs that make up the text; only a lone number may lack its unit."""
    parts: Parts = []
    at = 0
    while at < len(given) or not parts:
        number = read_number(given, at)
        if number is None:
            raise QuantityError(_unreadable(given, dimension))
        match = _UNIT.match(given, number[1])
        if match is None and (parts or number[1] < len(given)):
            raise QuantityError(_unreadable(given, dimension))
        parts.append((number[0], match["unit"] if match else ""))
        at = _after(given, match.end() if match else number[1])
    return parts


def _after(given: str, end: int) -> int:
    gap = _GAP.match(given, end)
    return gap.end() if gap and gap.end() < len(given) else max(end, len(given.rstrip()))


def _check_compound(given: str, parts: Parts, units: list[Unit], dimension: Dimension) -> None:
    falling = all(a.factor > b.factor for a, b in pairwise(units))
    signless = all(math.copysign(1.0, number) > 0 for number, _ in parts[1:])
    if dimension not in _COMPOUND or not falling or not signless:
        raise QuantityError(_unreadable(given, dimension))


def _unit(given: str, spelling: str, dimension: Dimension) -> Unit:
    name = _unit_name(spelling)
    if not name:
        return _no_unit(given, dimension)
    if advice := AMBIGUOUS.get((dimension, name)):
        raise QuantityError(f'"{given}" can be understood in two ways; {advice}.')
    unit = find(name, dimension)
    if unit is None:
        raise QuantityError(_wrong_unit(given, name, dimension))
    return unit


def _unit_name(spelling: str) -> str:
    plain = spelling.replace(".", "").replace("^", "")
    return re.sub(r"\s*/\s*|\s+per\s+", "/", plain, flags=re.IGNORECASE)


def _no_unit(given: str, dimension: Dimension) -> Unit:
    if dimension.needs_unit:
        raise QuantityError(f'"{given}" needs a unit; {_expected(dimension)}.')
    return Unit(1.0)


def _wrong_unit(given: str, name: str, dimension: Dimension) -> str:
    other = dimension_of(name)
    if dimension is Dimension.NUMBER:
        return f'"{given}" has a unit; {_expected(dimension)}.'
    if other is not None:
        return f'"{given}" is {other.words}; {_expected(dimension)}.'
    hint = did_you_mean(name.lower(), list(UNITS[dimension]))
    return f'"{given}" has the unknown unit "{name}"; {_expected(dimension)}. {hint}'.rstrip()


def _unreadable(given: str, dimension: Dimension) -> str:
    if dimension is Dimension.TIME and ":" in given:
        return f'"{given}" could be hours or minutes; write the units, for example "1 h 30 min" or "45 s".'
    return f"{_quoted(given)} cannot be read; {_expected(dimension)}."


def _expected(dimension: Dimension) -> str:
    return f'{dimension.words} was expected, for example "{dimension.example}"'


def _quoted(value: object) -> str:
    """What was given, short enough for a message."""
    if isinstance(value, int) and not isinstance(value, bool):
        value = _digits(value)
    if not isinstance(value, str):
        return f"a value of type {type(value).__name__}" if not isinstance(value, bool | float) else repr(value)
    return f'"{value[:40]}…"' if len(value) > 41 else f'"{value}"'
