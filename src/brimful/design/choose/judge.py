"""Judge one candidate: solve it, cost it, and say which limits it breaks."""

import math

from brimful.catalog import Catalog
from brimful.design.settle import RowSpec, ZoneSpec
from brimful.design.settle.settled import TimerSpec
from brimful.domains.hydraulics.report import FASTEST_M_S, ZoneReport, work_out_zone
from brimful.records import record

EVEN_PERCENT = 85.0
"""Design emission uniformity: 85 to 90 for close spacing on even ground (ASABE EP405, from memory)."""
LEAST_MINUTES = 6.0
"""A shorter run on the hottest days cannot be set finely by a timer in minutes (common practice, no source)."""
MOST_MINUTES = 120.0
"""A longer one leaves no room for other zones and the cool hours (common practice, no source)."""

WETTED_RADIUS_M = 0.15
"""How far one emitter wets a mix sideways: a cone, not a disc, since unsaturated mixes hardly conduct (common practice,
no source)."""
LEAST_EMITTERS = 2
"""So that one plugged emitter does not starve a container (common practice, no source)."""


@record
class Need:
    """What one container of a row must get on the hottest days, how much one start may bring, and how wide it is."""

    gross_l_day: float
    room_l: float
    mouth_area_m2: float


@record
class Verdict:
    """What a candidate gives and costs, and why it falls; no reasons where it stands."""

    flow_l_h: float
    cost_money: float
    uniformity_percent: float
    velocity_m_s: float
    minutes_per_day: float
    supply_share: float | None
    reasons: tuple[str, ...]
    tube_too_small: str  # "lateral" or "main" where a larger one might mend it, else empty


def judge(
    spec: ZoneSpec, rows: tuple[RowSpec, ...], needs: dict[str, Need], *, limits: tuple[Catalog, TimerSpec, float]
) -> Verdict:
    """Solve the zone and hold it against the limits: prices, timer, and the share of the supply it may use."""
    catalog, timer, share = limits
    report = work_out_zone(spec.zone, spec.inlet)
    even = report.uniformity.eu_percent if report.uniformity else 0.0
    fastest = max(report.tubes, key=lambda tube: tube.velocity_m_s)
    minutes, starts = _minutes(report, rows, needs)
    small = _too_small(report, even)
    reasons = [*_too_few(rows, needs), *_reasons(report, even)]
    if fastest.velocity_m_s > FASTEST_M_S:
        reasons.append(f"water runs at {fastest.velocity_m_s:.1f} m/s in the {fastest.part}")
    if report.share_of_supply is not None and report.share_of_supply > share:
        reasons.append(
            f"takes {100 * report.share_of_supply:.0f} % of what the tap gives; {100 * share:.0f} % is the limit"
        )
    if not LEAST_MINUTES <= minutes <= MOST_MINUTES:
        reasons.append(
            f"would run {minutes:.0f} minutes on the hottest days; expected {LEAST_MINUTES:.0f} to {MOST_MINUTES:.0f}"
        )
    if starts > timer.most_starts:
        reasons.append(
            f"needs {starts:.0f} starts a day so that none floods the mix; the timer has {timer.most_starts}"
        )
    cost = _cost(spec, rows, catalog)
    return Verdict(
        report.total_l_h, cost, even, fastest.velocity_m_s, minutes, report.share_of_supply, tuple(reasons), small
    )


def _reasons(report: ZoneReport, even: float) -> list[str]:
    found = []
    for code in dict.fromkeys(problem.code for problem in report.warnings):
        if code not in ("feeder-in-transition", "fast-water"):
            found.append(next(problem.message for problem in report.warnings if problem.code == code))
    if even < EVEN_PERCENT:
        found.append(f"emission uniformity {even:.0f} %; at least {EVEN_PERCENT:.0f} % is wanted")
    return found


def _too_few(rows: tuple[RowSpec, ...], needs: dict[str, Need]) -> list[str]:
    """Too few emitters to wet the mix of a container all through."""
    for row in rows:
        wanted = max(LEAST_EMITTERS, math.ceil(needs[row.name].mouth_area_m2 / (math.pi * WETTED_RADIUS_M**2)))
        has = row.delivery.assembly.emitters
        if has < wanted:
            return [
                f"{row.name} gets {has} emitter{'s' if has > 1 else ''} a container; {wanted} wet its mix all through"
            ]
    return []


def _too_small(report: ZoneReport, even: float) -> str:
    """The part that a larger tube would mend first: where water runs fast, else where most pressure goes."""
    fast = [tube.part for tube in report.tubes if tube.velocity_m_s > FASTEST_M_S]
    for part in ("main", "lateral", "feeder"):
        if part in fast:
            return part
    starved = any(problem.code in ("below-start-pressure", "no-water") for problem in report.warnings)
    if even >= EVEN_PERCENT and not starved:
        return ""
    lost = dict(report.budget.parts)
    return "lateral" if lost.get("lateral", 0.0) >= lost.get("main", 0.0) else "main"


def _minutes(report: ZoneReport, rows: tuple[RowSpec, ...], needs: dict[str, Need]) -> tuple[float, float]:
    """Minutes a day for the thirstiest container, and the starts that keep every pulse within its room."""
    row_of = {container: row.name for row in rows for container in row.ids}
    minutes = starts = 0.0
    for c in report.containers:
        need = needs.get(row_of[c.container])
        if need is not None and c.flow_l_h > 0:
            minutes = max(minutes, 60 * need.gross_l_day / c.flow_l_h)
    for c in report.containers:
        need = needs.get(row_of[c.container])
        if need is not None:
            starts = max(starts, -(-c.flow_l_h * minutes / 60 // need.room_l))
    return minutes, starts


def _cost(spec: ZoneSpec, rows: tuple[RowSpec, ...], catalog: Catalog) -> float:
    """Tube, emitters and regulator; what costs the same in every candidate is left out."""

    def price(key: str) -> float:
        row = catalog.prices.get(key)
        return row.price if row is not None else 0.0

    total = spec.main_length_m * price(spec.zone.main.tube.name)
    for lateral, row in zip(spec.zone.laterals, rows, strict=True):
        total += row.stations_m[-1] * price(lateral.tube.name)
        feeder, body = row.delivery.assembly.feeder, row.delivery.assembly.body
        if feeder is not None:
            total += row.count * feeder.length_m * price(feeder.tube.name)
        each = row.delivery.emission_length_m
        total += row.count * (body.emitters if each is None else each) * price(row.delivery.emission_key)
    return total
