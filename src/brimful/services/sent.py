"""Entries written down on phones and sent later: each taken once, each answered by itself."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from brimful.errors import EntryRefused
from brimful.records import record
from brimful.services.journal import journal_of, spots
from brimful.services.places import Spot, spot_named

if TYPE_CHECKING:
    from brimful.journal import Entry

MOST_SENT = 500
TAKEN_ALREADY = "another entry has this id and stays as it is; write this one down anew"


@record
class Taken:
    """What came of one entry that was sent, and why where it was refused."""

    id: str
    outcome: Literal["new", "known", "refused"]
    words: str = ""


@record
class TakenDown:
    """What came of each entry in the order it was sent, and sentences about clocks and dates."""

    each: tuple[Taken, ...]
    remarks: tuple[str, ...] = ()


def take_down(path: Path, sent: Sequence[object], *, now: datetime | None = None) -> TakenDown:
    """Take down what phones sent; a sound entry does not wait for one that is refused, and twice does no harm.

    Args:
        path: the plan
        sent: at most 500 entries, each the data of a journal line, or in place of kind and value the words of a person
            as `said`: {"id": …, "made_at": …, "place": "water side 3", "said": "dry", "by": "Ann"}
        now: the clock

    Raises:
        EntryRefused: there are more than 500.
        BrimfulError: plan or journal cannot be read or written; nothing was taken down.
    """
    if len(sent) > MOST_SENT:
        raise EntryRefused(f"{len(sent)} entries were sent; at most {MOST_SENT} at a time were expected")
    places = spots(path)
    read = [_read(one, places) for one in sent]
    sound = [one for one in read if not isinstance(one, Taken)]
    with journal_of(path) as journal:
        appended = journal.append(sound, now=now)
    new, differing = set(appended.new), set(appended.differing)

    def outcome(entry: "Entry") -> Taken:
        if entry.id in differing:
            return Taken(entry.id, "refused", TAKEN_ALREADY)
        return Taken(entry.id, "new" if entry.id in new else "known")

    return TakenDown(tuple(one if isinstance(one, Taken) else outcome(one) for one in read), appended.remarks)


def _read(one: object, places: Sequence[Spot]) -> "Entry | Taken":
    try:
        return _entry(one, places)
    except (EntryRefused, ValueError) as error:
        id_ = one.get("id") if isinstance(one, Mapping) else None
        return Taken(_sayable(id_)[:40] if isinstance(id_, str) else "", "refused", _sayable(str(error)))


def _entry(one: object, places: Sequence[Spot]) -> "Entry":
    """An entry of a place that the plan has; when it was received is for this journal to say."""
    from dataclasses import replace

    from brimful.journal import KINDS
    from brimful.journal.lines import entry_of

    entry = entry_of(_worded(one) if isinstance(one, Mapping) and "said" in one else one)
    place = spot_named(places, entry.place, KINDS[entry.kind]).name
    return replace(entry, place=place, by=entry.by.strip(), received_at=None)


def _worded(one: Mapping[str, Any]) -> dict[str, Any]:
    """The data of a line out of a person's words."""
    from brimful.journal.reading import read_said

    said = one["said"]
    if not isinstance(said, str):
        raise EntryRefused("said: words were expected")
    read = read_said(said)
    rest = {key: value for key, value in one.items() if key != "said"}
    twice = sorted({"kind", "value", "during_s", "words"} & set(rest))
    if twice:
        raise EntryRefused(f"{', '.join(twice)} stands beside said; one or the other was expected")
    return {**rest, "kind": read.kind, "value": read.value, "during_s": read.during_s, "words": read.words}


def _sayable(words: str) -> str:
    """Words that can be sent: half signs, as broken text holds them, become question marks."""
    return words.encode("utf-8", "replace").decode("utf-8")
