"""The season looked back on: water against plan, what failed, what was learned, and what it means for the next plan."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

import numpy as np

from brimful.design.today.days import permitted, season_day
from brimful.design.today.told import Ground, Told
from brimful.design.today.whole import SEED, Stand, TodayDesk, course_of, stand_of
from brimful.domains.learning import CAUSE_KEYS, LOOK_SHARE, Belief, Track, follow
from brimful.plan.names import zone_words
from brimful.records import record

WORTH_CHANGING = 0.10
LASTING_DAYS = 2
"""A container is counted as having failed where it was suspected on so many days on end."""


@record
class ZoneReport:
    """Water of a zone: what the plan would have given to date and what it was given, as far as that was told."""

    zone: str
    planned_l: float
    given_l: float
    told_from: str
    told_days_count: int
    watering_days_count: int


@record
class FailureReport:
    """A container that was out of order, from when to when, by the readings or by somebody's words."""

    container: str
    first_day: date
    last_day: date
    cause: str
    reported: str
    mended: bool


@record
class RowReport:
    """What a row's readings taught: demand and supply over the plan, with the ends of the middle 90 %."""

    row: str
    readings_count: int
    demand_factor: float
    demand_low_factor: float
    demand_high_factor: float
    supply_factor: float
    supply_low_factor: float
    supply_high_factor: float
    surroundings_now_factor: float
    surroundings_next_factor: float | None


@record
class SeasonReport:
    """One season as the journal tells it."""

    title: str
    units: str
    first_day: date
    last_day: date
    entries_count: int
    entries_by_kind: tuple[tuple[str, int], ...]
    zones: tuple[ZoneReport, ...]
    failures: tuple[FailureReport, ...]
    rows: tuple[RowReport, ...]
    replaced: tuple[str, ...]


def report_of(desk: TodayDesk, on: date) -> SeasonReport:
    """The season up to a day, or to its end where that is past."""
    last = min(on, desk.last)
    told = tuple(sorted((one for one in desk.told if desk.planted <= one.at.date() <= last), key=lambda one: one.at))
    kinds = Counter(one.kind for one in told)
    replaced = tuple(f"{one.place or 'all'}: {one.words}" for one in told if one.kind == "replaced")
    zones, failures, rows = _looked_back(desk, told, last) if last >= desk.planted else ((), (), ())
    return SeasonReport(
        desk.plan.title, desk.plan.units, desk.planted, last, len(told), tuple(kinds.most_common()),
        zones, failures, rows, replaced,
    )  # fmt: skip


def _looked_back(
    desk: TodayDesk, told: Sequence[Told], last: date
) -> tuple[tuple[ZoneReport, ...], tuple[FailureReport, ...], tuple[RowReport, ...]]:
    names = [zone.zone for zone in desk.zones if zone.weeks]
    if not names:
        return (), (), ()
    stand, today = stand_of(desk, names), season_day(desk.planted, last, desk.last)
    course = course_of(desk, stand, told, run_until=today + 1, count=today + 1)
    track = follow(stand.site, course.days, course.readings, seed=SEED, report_days=(today,))
    zones = tuple(_zone(desk, stand, zone, told, course.table) for zone in names)
    return (
        zones,
        tuple(_failures(desk, stand, track, told)),
        tuple(_rows(stand, track.beliefs[0], Counter(reading.container for reading in course.readings))),
    )


def _zone(desk: TodayDesk, stand: Stand, zone: str, told: Sequence[Told], table: np.ndarray) -> ZoneReport:
    """Water planned and given: by the dial where it was read twice, else by the minutes that were written down."""
    at = [i for i, one in enumerate(stand.zone_of) if one == zone]
    flow_l_min = sum(stand.telling[i].water.flow_l_h for i in at) / 60.0
    planned_min = table[:, at[0]]
    wet = [day for day in range(planned_min.size) if permitted(desk.laid.inputs.wanted, day) and planned_min[day] > 0]
    dial = [
        one.value for one in told if one.kind == "meter" and one.place == zone_words(zone) and one.value is not None
    ]
    ran = _minutes_told(told, stand.ground, at[0], desk.planted)
    if len(dial) > 1 and dial[-1] >= dial[0]:
        return ZoneReport(zone, float(planned_min.sum()) * flow_l_min, dial[-1] - dial[0], "meter", len(dial), len(wet))
    given = sum(ran.get(day, float(planned_min[day])) for day in range(planned_min.size)) * flow_l_min
    said = "runs written down; the table where nothing was" if ran else "the table, since no run was written down"
    return ZoneReport(zone, float(planned_min.sum()) * flow_l_min, given, said, len(ran), len(wet))


def _minutes_told(told: Sequence[Told], ground: Ground, container: int, planted: date) -> dict[int, float]:
    ran: dict[int, float] = defaultdict(float)
    for one in told:
        if one.kind == "ran" and one.value is not None and container in ground.at(one.place):
            ran[(one.at.date() - planted).days] += one.value / 60.0
    return dict(ran)


def _failures(desk: TodayDesk, stand: Stand, track: Track, told: Sequence[Told]) -> Iterator[FailureReport]:
    """Spells in which a container was suspected, then what people reported beside them."""
    for c, name in enumerate(stand.ground.names):
        for first, last in _spells(track.causes[:, c, 0] < 1.0 - LOOK_SHARE):
            cause = CAUSE_KEYS[1 + int(np.argmax(track.causes[first : last + 1, c, 1:].sum(axis=0)))]
            begun, done = (desk.planted + timedelta(days=day) for day in (first, last))
            words = next((o.words for o in told if o.kind == "problem" and o.place == name and o.at.date() <= done), "")
            mended = any(o.kind == "mended" and o.place == name and o.at.date() >= begun for o in told)
            yield FailureReport(name, begun, done, cause, words, mended)
    named = set(stand.ground.names)
    for one in (one for one in told if one.kind == "problem" and one.place not in named):
        mended = any(o.kind == "mended" and o.place == one.place and o.at >= one.at for o in told)
        yield FailureReport(one.place or "all", one.at.date(), one.at.date(), "", one.words, mended)


def _spells(flags: np.ndarray) -> Iterator[tuple[int, int]]:
    """First and last day of each run of days on end that is long enough to count."""
    padded = np.concatenate([[False], flags, [False]])
    starts, stops = np.flatnonzero(padded[1:] & ~padded[:-1]), np.flatnonzero(~padded[1:] & padded[:-1]) - 1
    for first, last in zip(starts.tolist(), stops.tolist(), strict=True):
        if last - first + 1 >= LASTING_DAYS:
            yield first, last


def _rows(stand: Stand, belief: Belief, read: Counter[int]) -> Iterator[RowReport]:
    """Means over each row's sound containers; a new factor is offered only where the readings are sure of it."""
    for row in dict.fromkeys(stand.row_of):
        at = np.array([i for i, one in enumerate(stand.row_of) if one == row])
        sound = at[belief.causes[at, 0] >= 1.0 - LOOK_SHARE]
        use = sound if sound.size else at
        demand, supply = belief.demand_factor, belief.supply_factor
        drew, got = (tuple(float(part[use].mean()) for part in (o.mean, o.low, o.high)) for o in (demand, supply))
        now = stand.telling[int(at[0])].spec.microclimate.factor
        sure = drew[1] > 1.0 or drew[2] < 1.0
        changed = sure and abs(drew[0] - 1.0) >= WORTH_CHANGING
        count = sum(read[int(i)] for i in at)
        later = round(now * drew[0], 2) if changed else None
        yield RowReport(row, count, drew[0], drew[1], drew[2], got[0], got[1], got[2], now, later)
