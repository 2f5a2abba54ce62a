"""Numbers as people write them: fractions, mixed numbers, thousands and decimal commas.

One rule for the comma: followed by exactly three digits (and led by 1 to 3 digits that do not start with 0) it parts
thousands, so "1,200" is one thousand two hundred; otherwise it is a decimal comma, so "0,8", "1,25" and "0,800" are
less than two. A lone point is always the decimal point. "1.200,5" and "1 200,5" are read as well.
"""

import re

_NUMBER = re.compile(
    r"""(?P<sign>[+-]\s*)?(?:
        (?:(?P<whole>[0-9]+)(?:\s*-\s*|\s+))?(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)
      | (?P<thousands>[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+|(?:\ [0-9]{3})+)(?:\.[0-9]+)?)
      | (?P<continental>[1-9][0-9]{0,2}(?:(?:\.[0-9]{3})+|(?:\ [0-9]{3})+),[0-9]+)
      | (?P<plain>(?:[0-9]+(?:\.[0-9]*|,[0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?)
    )(?![0-9.,/:])""",
    re.VERBOSE,
)


def read_number(text: str, start: int = 0) -> tuple[float, int] | None:
    """The number that starts at `start` and the index just past it, or None. May be infinite.

    >>> read_number("30 1/2 in")
    (30.5, 6)
    """
    match = _NUMBER.match(text, start)
    if match is None:
        return None
    size = _fraction(match) if match["over"] else _decimal(match)
    if size is None:
        return None
    sign = -1.0 if (match["sign"] or "").startswith("-") else 1.0
    return sign * size, match.end()


def _fraction(match: re.Match[str]) -> float | None:
    whole, over, under = int(match["whole"] or 0), int(match["over"]), int(match["under"])
    if under == 0 or (match["whole"] and over >= under):
        return None
    try:
        return whole + over / under
    except OverflowError:
        return float("inf")


def _decimal(match: re.Match[str]) -> float:
    if match["thousands"]:
        return float(match["thousands"].replace(",", "").replace(" ", ""))
    if match["continental"]:
        return float(match["continental"].replace(".", "").replace(" ", "").replace(",", "."))
    return float(match["plain"].replace(",", "."))
