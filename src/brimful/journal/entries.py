"""One entry of the journal, and what is wrong with one that cannot be taken down."""

import math
import re
import uuid
from collections.abc import Iterator
from datetime import UTC, datetime

from brimful.findings import did_you_mean
from brimful.journal.kinds import KINDS, Kind
from brimful.quantities import System, show
from brimful.records import record

LONGEST_WORDS, LONGEST_NAME = 2000, 200
_ID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_UNSEEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")


@record
class Entry:
    """One thing seen or done, as it was written down.

    `id` is made where the entry is made, so that sending it twice writes it once. `made_at` is when it was seen or
    done; `received_at` when a journal first took it down, None before that. `place` is a container ("water side 3"), a
    row, a zone ("zone 1"), or "" for the whole place. `value` is in the canonical unit of its kind; `during_s` is how
    long a catch was caught for. `corrects` is the id of the entry that this one stands for.
    """

    id: str
    made_at: datetime
    kind: str
    place: str = ""
    by: str = ""
    value: float | None = None
    during_s: float | None = None
    words: str = ""
    corrects: str | None = None
    received_at: datetime | None = None


def new_id() -> str:
    """An id that nobody else has: a random UUID."""
    return str(uuid.uuid4())


def order(entry: Entry) -> tuple[datetime, str]:
    """What entries are sorted by: when they were made, and by their ids where that is the same."""
    return entry.made_at, entry.id


def problems(entry: Entry) -> tuple[str, ...]:
    """Everything that is wrong with an entry, a sentence each: what was given, what was expected, what to do."""
    return (*_wrong_ids(entry), *_wrong_times(entry), *_wrong_texts(entry), *_wrong_value(entry))


def _wrong_ids(entry: Entry) -> Iterator[str]:
    for name, one in (("id", entry.id), ("corrects", entry.corrects)):
        if one is None and name == "corrects":
            continue
        if not (isinstance(one, str) and _ID.fullmatch(one)):
            yield f"{name}: {_quoted(one)} was given; a UUID in small letters was expected"
    if entry.corrects is not None and entry.corrects == entry.id:
        yield "corrects: an entry cannot correct itself; give the id of another, and a new id to this one"


def _wrong_times(entry: Entry) -> Iterator[str]:
    for name, one in (("made_at", entry.made_at), ("received_at", entry.received_at)):
        if one is None and name == "received_at":
            continue
        if not isinstance(one, datetime) or one.tzinfo is None or not _has_utc(one):
            yield f"{name}: {_quoted(one)} was given; a date and time with its offset from UTC was expected"


def _has_utc(one: datetime) -> bool:
    try:
        one.astimezone(UTC)
    except OverflowError:
        return False
    return True


def _wrong_texts(entry: Entry) -> Iterator[str]:
    longest = {"place": LONGEST_NAME, "by": LONGEST_NAME, "words": LONGEST_WORDS}
    for name, most in longest.items():
        text = getattr(entry, name)
        if not isinstance(text, str):
            yield f"{name}: {_quoted(text)} was given; words were expected"
        elif len(text) > most:
            yield f"{name}: {len(text)} characters were given; at most {most} were expected; write two entries"
        elif _UNSEEN.search(text) or (name != "words" and "\n" in text):
            yield f"{name}: {_quoted(text)} was given; words without control characters were expected"


def _wrong_value(entry: Entry) -> Iterator[str]:
    kind = KINDS.get(entry.kind) if isinstance(entry.kind, str) else None
    if kind is None:
        hint = did_you_mean(entry.kind, tuple(KINDS)) if isinstance(entry.kind, str) else ""
        known = hint or f"One of {', '.join(KINDS)} was expected"
        yield f"kind: {_quoted(entry.kind)} is unknown. {known}"
        return
    if kind.needs_words and isinstance(entry.words, str) and not entry.words.strip():
        yield f'{kind.name}: no words were given; they were expected, for example "{kind.example}"'
    if kind.key == "withdrawn" and entry.corrects is None:
        yield "withdrawn: no entry was given; expected the id of the one that is withdrawn"
    yield from _wrong_number(entry, kind)
    yield from _wrong_time_span(entry, kind)


def _wrong_number(entry: Entry, kind: Kind) -> Iterator[str]:
    value = entry.value
    if not kind.takes_value:
        if value is not None:
            yield f"{kind.name}: the value {_quoted(value)} was given; none was expected. Say it in words"
    elif value is None or not _is_number(value):
        given = "nothing" if value is None else _quoted(value)
        yield f'{kind.name}: {given} was given; a value was expected, for example "{kind.example}"'
    elif kind.choices and value not in range(len(kind.choices)):
        yield f"{kind.name}: {value:g} was given; {_choices(kind)} was expected"
    elif not 0 <= value <= kind.most:
        yield f"{kind.name}: {_shown(value, kind)} was given; from 0 to {_shown(kind.most, kind)} was expected"


def _is_number(value: object) -> bool:
    """Whether it is a finite number that a float can hold."""
    if isinstance(value, int) and not isinstance(value, bool):
        return abs(value) < 10**300
    return isinstance(value, float) and math.isfinite(value)


def _wrong_time_span(entry: Entry, kind: Kind) -> Iterator[str]:
    during = entry.during_s
    if during is None:
        return
    number = _is_number(during)
    if not kind.timed:
        yield f"{kind.name}: a time that it took was given; none was expected. Say it in words"
    elif not number or not 0 < during <= 86_400:
        given = f"{during:g} s" if number else _quoted(during)
        yield f"{kind.name}: {given} was given; more than nothing and at most a day was expected"


def _choices(kind: Kind) -> str:
    return ", ".join(f"{at} for {word}" for at, word in enumerate(kind.choices))


def _shown(value: float, kind: Kind) -> str:
    return show(value, kind.dimension, System.METRIC) if kind.dimension else f"{value:g}"


def _quoted(value: object) -> str:
    """What was given, in few characters, and none of them unseen."""
    words = ascii(value) if isinstance(value, str) and _UNSEEN.search(value) else repr(str(value))
    return words if len(words) <= 60 else f"{words[:57]}..."
