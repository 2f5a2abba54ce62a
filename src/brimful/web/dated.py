"""Today, and the season so far, worked out beside the page: once for each plan, journal and date."""

import logging
import threading
from collections import OrderedDict
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal

from brimful.errors import BrimfulError
from brimful.findings import Finding
from brimful.records import record
from brimful.web.bench import Sight
from brimful.web.clock import today as by_the_clock
from brimful.web.log import mark_of

if TYPE_CHECKING:
    from brimful.design.today import TodayWorked
    from brimful.design.today.report import SeasonReport

Kind = Literal["today", "report"]
Key = tuple[Kind, str, str, str, date]
KEPT = 32
FAULT = "It could not be worked out: a fault of ours, not of your plan"


@record
class Dated:
    """What came of it; `trouble` says why there is nothing where no finding does."""

    today: "TodayWorked | None" = None
    report: "SeasonReport | None" = None
    findings: tuple[Finding, ...] = ()
    trouble: str = ""


_crew = ThreadPoolExecutor(max_workers=1, thread_name_prefix="today")
_made: OrderedDict[Key, "Future[Dated]"] = OrderedDict()
_lock = threading.Lock()


def day_of(sight: Sight) -> Dated | None:
    """Today as the journal tells it; what it was before the last entry while that is worked out; None before."""
    return _at_hand("today", sight)


def report_of(sight: Sight) -> Dated | None:
    """The season so far, likewise."""
    return _at_hand("report", sight)


def waited_for(sight: Sight, on: date) -> Dated:
    """One day of a plan, however long that takes."""
    while True:
        made = _begun(("today", str(sight.path), sight.digest, mark_of(sight.path), on), sight)
        try:
            return made.result()
        except CancelledError:
            continue  # something was noted meanwhile


def mark(sight: Sight) -> str:
    """Another whenever a page that speaks of today has something new to say."""
    try:
        key = _key("today", sight)
    except BrimfulError:
        return "?"
    with _lock:
        ready = [kind for kind in ("today", "report") if (made := _made.get((kind, *key[1:]))) and made.done()]
    return ":".join([*key[3:4], key[4].isoformat(), *ready])


def _key(kind: Kind, sight: Sight) -> Key:
    return kind, str(sight.path), sight.digest, mark_of(sight.path), by_the_clock()


def _at_hand(kind: Kind, sight: Sight) -> Dated | None:
    """What is there now; the work is begun where it is not, once the plan itself is worked out."""
    try:
        key = _key(kind, sight)
    except BrimfulError as error:
        return Dated(trouble=str(error))
    if sight.opened is None or sight.doing:
        return None
    one = _begun(key, sight)
    if one.done() and not one.cancelled():
        return one.result()
    with _lock:
        alike = [made for other, made in _made.items() if other[:3] == key[:3] and other[4] == key[4] and made.done()]
    return alike[-1].result() if alike else None


def _begun(key: Key, sight: Sight) -> "Future[Dated]":
    with _lock:
        if key not in _made:
            _call_off_older(key)
            _made[key] = _crew.submit(_worked, key, sight)
            for old in [other for other, one in _made.items() if one.done()][: max(0, len(_made) - KEPT)]:
                del _made[old]
        _made.move_to_end(key)
        return _made[key]


def _call_off_older(key: Key) -> None:
    """What waits for its turn and rests on an older journal is no longer wanted: many notes want one answer."""
    for other in list(_made):
        if other[:3] == key[:3] and other[4] == key[4] and _made[other].cancel():
            del _made[other]


def _worked(key: Key, sight: Sight) -> Dated:
    try:
        desk, found = _desk(_Held(sight), key[3], key[4])
        if desk is None:
            return Dated(findings=found)
        return _of_desk(key[0], desk, found, key[4])
    except BrimfulError as error:
        return Dated(trouble=str(error))
    except Exception:
        logging.getLogger(__name__).exception("today could not be worked out")
        return Dated(trouble=FAULT)


def _of_desk(kind: Kind, desk: Any, found: tuple[Finding, ...], on: date) -> Dated:
    from dataclasses import replace

    from brimful.checks import worst_first

    findings = worst_first(found)
    if kind == "report":
        from brimful.design.today.report import report_of as looked_back

        return Dated(report=looked_back(desk, on), findings=findings)
    from brimful.design.today import today_of

    return Dated(today=replace(today_of(desk, on), findings=findings), findings=findings)


class _Held:
    """A plan in sight, the same as another of the same content."""

    def __init__(self, sight: Sight) -> None:
        self.sight = sight

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Held) and self._is() == other._is()

    def __hash__(self) -> int:
        return hash(self._is())

    def _is(self) -> tuple[str, str]:
        return str(self.sight.path), self.sight.digest


@lru_cache(maxsize=2)
def _desk(held: _Held, journal: str, on: date) -> Any:
    """What both rest on; `journal` is the mark of what was told."""
    from brimful.services.today import desk_of, told_of

    assert held.sight.opened is not None
    return desk_of(held.sight.opened, told_of(held.sight.path), on)
