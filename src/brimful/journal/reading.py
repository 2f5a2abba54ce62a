"""From what a person writes, "ran 12 min" or "300 mL in 5 min at the stake", to kind, value and words."""

import re
from collections.abc import Iterator
from difflib import get_close_matches

from brimful.errors import EntryRefused, QuantityError
from brimful.journal.kinds import KINDS, Kind
from brimful.quantities import Dimension, parse
from brimful.records import record

UNSAID = ("finger", "probe", "weight", "catch", "rain", "ran")
"""Kinds that are known by their value alone: "dry", "40 %", "61 lb", "300 mL in 5 min", "0.4 in", "12 min"."""
NEAR = 0.8
"""Letters shared, from which on a word looks like another misspelt."""
EXAMPLES = "for example dry, weight 61 lb, catch 300 mL in 5 min, ran 12 min, note the mulch has sunk"
_DURING = re.compile(r"(?P<volume>.+?)\s+in\s+(?P<time>.+)", re.IGNORECASE)


@record
class Said:
    """What was said: its kind, the value [canonical unit of the kind], how long it took [s], and the words left."""

    kind: str
    value: float | None = None
    during_s: float | None = None
    words: str = ""


def read_said(text: str) -> Said:
    """Kind, value and words of what a person wrote; free words are a note.

    Raises:
        EntryRefused: it cannot be understood; says what was given, what was expected and what to do.

    >>> read_said("caught 300 mL in 5 min, slow")
    Said(kind='catch', value=0.3, during_s=300.0, words='slow')
    >>> read_said("61 lb").kind, read_said("dry").value, read_said("leaves hang").kind
    ('weight', 0.0, 'note')
    """
    words = " ".join(text.split())
    if not words:
        raise EntryRefused(f"nothing was given; what was seen or done was expected, {EXAMPLES}")
    named = _named(words)
    if named is not None:
        return _of_kind(*named)
    for key in UNSAID:
        said = next(_readings(KINDS[key], words, needs_unit=True), None)
        if said is not None:
            return said
    _refuse_slips(words)
    return Said("note", words=words)


def _named(words: str) -> tuple[Kind, str] | None:
    """The kind whose name begins the text, the longest first, and what follows."""
    begins = ((begin, kind) for kind in KINDS.values() for begin in (*kind.begins, kind.key))
    for begin, kind in sorted(begins, key=lambda pair: -len(pair[0])):
        match = re.match(rf"{re.escape(begin)}(?![\w-])[\s:,]*", words, re.IGNORECASE)
        if match:
            return kind, words[match.end() :]
    return None


def _of_kind(kind: Kind, rest: str) -> Said:
    if not kind.takes_value:
        if kind.needs_words and not rest:
            raise EntryRefused(f'{kind.name}: no words were given; they were expected, for example "{kind.example}"')
        return Said(kind.key, words=rest)
    said = next(_readings(kind, rest), None)
    if said is not None:
        return said
    why = _why_not(kind, rest)
    raise EntryRefused(f"{kind.name}: {why}")


def _why_not(kind: Kind, rest: str) -> str:
    given = f'"{rest[:40]}"' if rest else "nothing"
    wanted = " or ".join(kind.choices) or f'a value, for example "{kind.example}",'
    said = f"{given} was given; {wanted} was expected"
    if kind.choices or kind.dimension is None or not rest or kind.timed:
        return said
    try:
        parse(rest, kind.dimension)
    except QuantityError as error:
        return str(error).rstrip(".")
    return said


def _readings(kind: Kind, words: str, *, needs_unit: bool = False) -> Iterator[Said]:
    """Readings of the text as a value and words that follow it, the longest value first.

    What follows a quantity may not begin with a figure: that would be a quantity misread.
    """
    parts = words.split(" ")
    for count in range(min(len(parts), 12), 0, -1):
        rest = " ".join(parts[count:])
        found = _value(kind, " ".join(parts[:count]).rstrip(",;:."), needs_unit=needs_unit)
        if found is not None and (kind.choices or not rest[:1].isdigit()):
            yield Said(kind.key, *found, rest.lstrip(",;: "))


def _value(kind: Kind, text: str, *, needs_unit: bool) -> tuple[float, float | None] | None:
    if kind.choices:
        return (float(kind.choices.index(text.lower())), None) if text.lower() in kind.choices else None
    during = _DURING.fullmatch(text) if kind.timed else None
    bare = needs_unit and not (text[-1:].isalpha() or text[-1:] in ("%", '"', "'"))
    if kind.dimension is None or bare or (needs_unit and kind.timed and during is None):
        return None
    try:
        if during is not None:
            return parse(during["volume"], kind.dimension), parse(during["time"], Dimension.TIME)
        return parse(text, kind.dimension), None
    except QuantityError:
        return None


def _refuse_slips(words: str) -> None:
    """What looks like a slip of the pen is not taken for a note."""
    first = words.split(" ", maxsplit=1)[0].lower().rstrip(",;:.")
    begins = {begin.split(" ")[0]: kind for kind in KINDS.values() for begin in (*kind.begins, *kind.choices)}
    near = get_close_matches(first, tuple(begins), n=1, cutoff=NEAR)
    if near and near[0] != first:
        hint = f'write "{near[0]}", or begin with "note" if these are words to keep'
        raise EntryRefused(f'"{first}" was given, which looks like "{near[0]}"; {hint}')
    if words[0].isdigit() or words[0] in "+-.½¼¾":
        said = f'"{words[:40]}" could be several things or none; say first what it is'
        raise EntryRefused(f"{said}, {EXAMPLES}")
