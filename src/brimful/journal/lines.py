"""The journal as JSON lines, one entry a line: to keep, to hand on, to bring into another journal."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import fields
from datetime import UTC, datetime
from typing import Any

from brimful.journal.entries import Entry, problems
from brimful.records import record

LONGEST_LINE = 100_000
MOST_DIGITS = 300
_KEYS = tuple(field.name for field in fields(Entry))
_NEEDED = ("id", "made_at", "kind")
_TIMES = ("made_at", "received_at")


@record
class Lines:
    """What a file of lines held: the sound entries, and a sentence for each line that is none, by its number."""

    entries: tuple[Entry, ...]
    problems: tuple[str, ...]


def to_line(entry: Entry) -> str:
    """An entry as one line of JSON, without the line's end; its form stands in docs/journal-schema.json."""
    data = {key: getattr(entry, key) for key in _KEYS}
    times = {key: moment and moment.astimezone(UTC).isoformat() for key in _TIMES if (moment := data[key]) or True}
    return json.dumps({**data, **times}, ensure_ascii=False, allow_nan=False)


def to_lines(entries: Iterable[Entry]) -> str:
    """Entries as JSON lines."""
    return "".join(f"{to_line(entry)}\n" for entry in entries)


def read_lines(data: bytes) -> Lines:
    """Entries out of JSON lines; every line that is none is told, and the others are read all the same."""
    entries: list[Entry] = []
    wrong: list[str] = []
    for number, line in enumerate(data.removeprefix(b"\xef\xbb\xbf").split(b"\n"), 1):
        if line.strip():
            try:
                entries.append(_entry(line))
            except ValueError as error:
                wrong.append(f"line {number}: {error}")
    return Lines(tuple(entries), tuple(wrong))


def entry_of(data: object) -> Entry:
    """An entry out of the data of one line, checked whole.

    Raises:
        ValueError: everything that is wrong with it.
    """
    if not isinstance(data, dict):
        raise ValueError("one entry in { } was expected")  # noqa: TRY004  (what a person wrote, not a caller's slip)
    wrong = list(_wrong_keys(data))
    if wrong:
        raise ValueError("; ".join(wrong))
    entry = Entry(**{key: _plain(key, value) for key, value in data.items()})
    if found := problems(entry):
        raise ValueError("; ".join(found))
    return entry


def _entry(line: bytes) -> Entry:
    if len(line) > LONGEST_LINE:
        raise ValueError(f"{len(line)} bytes were given; at most {LONGEST_LINE} were expected")
    try:
        text = line.decode("utf-8")
    except UnicodeDecodeError:
        raise ValueError("not text in UTF-8") from None
    try:
        return entry_of(json.loads(text, object_pairs_hook=_once, parse_int=_whole))
    except json.JSONDecodeError as error:
        raise ValueError(f"not JSON: {error.msg.lower()}, at character {error.colno}") from None
    except RecursionError:
        raise ValueError("not an entry: nested too deep") from None


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    data = dict(pairs)
    if len(data) < len(pairs):
        raise ValueError("a key stands twice; each was expected once")
    return data


def _whole(digits: str) -> int:
    if len(digits) > MOST_DIGITS:
        raise ValueError(f"a number of {len(digits)} digits was given; at most {MOST_DIGITS} were expected")
    return int(digits)


def _wrong_keys(data: dict[object, object]) -> Iterator[str]:
    unknown = [str(key)[:40] for key in data if key not in _KEYS]
    missing = [key for key in _NEEDED if key not in data]
    if unknown:
        yield f"unknown: {', '.join(unknown)}; known are {', '.join(_KEYS)}. A newer Brimful may have written it"
    if missing:
        yield f"missing: {', '.join(missing)}"


def _plain(key: object, value: object) -> Any:
    """A value of a line as an entry holds it; what does not fit is left for the check to tell."""
    if key in _TIMES and isinstance(value, str):
        try:
            return datetime.fromisoformat(value)
        except ValueError:
            return value
    is_whole = isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**300
    return float(value) if is_whole and key in ("value", "during_s") else value  # type: ignore[arg-type]
