"""Checks on water: does the tap carry the zone, is it even, does the timer manage it."""

import math
from collections.abc import Iterator

from brimful.checks.sayings import SAYINGS, first
from brimful.design.model import Design, ZoneWorked
from brimful.findings import Finding, Place, Severity
from brimful.plan.names import zone_words
from brimful.plan.read import Places
from brimful.quantities import Dimension, System, show

EVEN_PERCENT = 85.0
"""Design emission uniformity: 85 to 90 for close spacing on even ground (ASABE EP405, from memory)."""
SURPLUS = 0.25
"""A container that gets a quarter too much drains that much more feed away (common practice, no source)."""
STARVED = 0.05
WHEN = {"planting_day": "after planting", "mid_season": "at mid-season", "peak": "on the hottest days"}


def zone_place(places: Places, index: int) -> Place:
    """Where a zone stands in the plan; a plan without zone tables has its tubing, or its first row, instead."""
    found = (places.at(*path) for path in (("zone", index), ("tubing",), ("containers", 0)))
    return next((place for place in found if place.line), Place(places.file))


def supply_suffices(design: Design, places: Places) -> Iterator[Finding]:
    """A zone takes no more of the tested supply than it may."""
    system = _system(design)
    for index, zone in enumerate(design.zones):
        share, limit = zone.supply_share, zone.supply_share_limit
        if share is None or limit is None or share <= limit:
            continue
        flow = show(zone.flow_l_h, Dimension.FLOW, system)
        gives = show(zone.supply_l_h or 0.0, Dimension.FLOW, system)
        fits = int(zone.containers_count * limit / share) if math.isfinite(share) else 0
        said = f"{zone_words(zone.name)} takes {flow}; the tap gives {gives} at the pressure it needs"
        if share <= 1:
            said += f", and one zone may use {100 * limit:.0f} % of that"
        if any(warning.code == "regulator-inlet-too-low" for warning in zone.warnings):
            mend = (
                "It would take more still if the tap gave it: divide it into smaller zones, or take smaller emitters."
            )
        elif fits:
            zones = math.ceil(zone.containers_count / fits)
            mend = f"At most {fits} of its {zone.containers_count} containers fit on one zone: make {zones} zones."
        else:
            mend = "The tap does not reach the pressure the zone needs: take a lower regulator, or measure again."
        severity = Severity.ERROR if share > 1 else Severity.WARNING
        yield Finding("supply-short", severity, said, mend, zone_place(places, index))


def solver_warnings(design: Design, places: Places) -> Iterator[Finding]:
    """What the solution of a zone warns of; the same thing on many containers is said once."""
    system = _system(design)
    for index, zone in enumerate(design.zones):
        for code in dict.fromkeys(warning.code for warning in zone.warnings):
            where = zone_place(places, index)
            if code == "feeder-in-transition":
                yield _unsure(zone, system, where)
                continue
            if code == "regulator-flow-too-low" and zone.flow_l_h <= 0:
                continue  # no water arrives: another regulator would not help
            said, mend = (
                SAYINGS[code](zone, system)
                if code in SAYINGS
                else (first(zone, code), "Lower the regulator's setting.")
            )
            severity = Severity.ERROR if code == "no-water" else Severity.WARNING
            yield Finding(code, severity, said, mend, where)


def _even(zone: ZoneWorked) -> bool:
    return zone.emission_uniformity_percent >= EVEN_PERCENT


def _unsure(zone: ZoneWorked, system: System, where: Place) -> Finding:
    """Feeders between laminar and turbulent flow: how far the answer may be off."""
    sure = [c for c in zone.containers if c.flow_low_l_h is not None and c.flow_high_l_h is not None]
    widest = max(sure, key=lambda c: (c.flow_high_l_h or 0.0) - (c.flow_low_l_h or 0.0))
    low, high = (show(v or 0.0, Dimension.FLOW, system) for v in (widest.flow_low_l_h, widest.flow_high_l_h))
    apart = ((widest.flow_high_l_h or 0.0) - (widest.flow_low_l_h or 0.0)) / max(widest.flow_l_h, 1e-9)
    said = (
        f"in {zone_words(zone.name)} feeders run between laminar and turbulent flow, where measured "
        f"friction scatters by a third: {widest.container} gets {low} to {high}, {100 * apart:.1f} % apart"
    )
    return Finding("feeder-in-transition", Severity.NOTE, said, "Catch and measure the water of one container.", where)


def water_is_even(design: Design, places: Places) -> Iterator[Finding]:
    """Every container gets nearly the same."""
    for index, zone in enumerate(design.zones):
        if 0 < zone.emission_uniformity_percent < EVEN_PERCENT:
            worst = _least(zone)
            even = f"emission uniformity {zone.emission_uniformity_percent:.0f} %"
            least = f"container {worst[0]} gets {100 * worst[1]:.0f} % of the mean"
            said = f"{zone_words(zone.name)} waters unevenly: {even}; {least}"
            mend = "What was tried and mends it stands below."
            yield Finding("uneven-water", Severity.WARNING, said, mend, zone_place(places, index))


def what_mends(design: Design, places: Places) -> Iterator[Finding]:
    """The single changes that were tried on a failing zone and put it right, each with what it then gives."""
    system = _system(design)
    for index, zone in enumerate(design.zones):
        tried = []
        for mend in zone.mends:
            flow, head = (
                show(mend.flow_l_h, Dimension.FLOW, system),
                show(mend.least_head_m, Dimension.PRESSURE, system),
            )
            even = f"{mend.emission_uniformity_percent:.0f} %"
            tried.append(f"{mend.change} (uniformity {even}, {flow}, at least {head} at the last emitter)")
        if tried:
            said = f"any one of these, tried by solving it, puts {zone_words(zone.name)} right: {'; '.join(tried)}"
            yield Finding("what-mends", Severity.NOTE, said, "", zone_place(places, index))
        elif zone.mends_tried:
            said = (
                f"no single change of tube, emitters or number of zones puts {zone_words(zone.name)} right; "
                "it needs several"
            )
            yield Finding("what-mends", Severity.NOTE, said, "Begin with the first warning.", zone_place(places, index))


def rows_match(design: Design, places: Places) -> Iterator[Finding]:
    """One run time serves all rows of a zone without drowning one of them."""
    for index, zone in enumerate(design.zones):
        over = max(zone.matches, key=lambda match: match.surplus_now_share, default=None)
        if over is None or over.surplus_now_share <= SURPLUS:
            continue
        surplus = f"{100 * over.surplus_now_share:.0f} % too much"
        said = f"in {zone_words(zone.name)} each container of {over.row} gets {surplus}"
        counts = ", ".join(f"{m.emitters_matched_count} in {m.row} (now {m.emitters_now_count})" for m in zone.matches)
        then = max(m.surplus_matched_share for m in zone.matches)
        mend = f"Emitters that match: {counts}; then nobody gets more than {100 * then:.0f} % too much."
        if then >= over.surplus_now_share - 0.05:
            mend = "No whole number of emitters does better; put the rows on zones of their own."
        yield Finding("rows-unequal", Severity.WARNING, said, mend, zone_place(places, index))


def starved_by_chance(design: Design, places: Places) -> Iterator[Finding]:
    """Chance plugging seldom starves a container."""
    for index, zone in enumerate(design.zones):
        spread = zone.spread
        if spread is not None and spread.chance_any_share > STARVED and zone.flow_l_h > 0 and _even(zone):
            said = (
                f"in {zone_words(zone.name)} some container gets less than 80 % of its share with a chance "
                f"of {100 * spread.chance_any_share:.0f} in 100 by {spread.driver}, {spread.likeliest_container} first"
            )
            mend = "More and smaller emitters in each container make it safer; keep the filter clean."
            yield Finding("starved-by-chance", Severity.NOTE, said, mend, zone_place(places, index))


def run_time_fits(design: Design, places: Places) -> Iterator[Finding]:
    """The timer can give what is wanted, and no start floods a container."""
    system = _system(design)
    for index, zone in enumerate(design.zones):
        for time in zone.run_times:
            if time.overfill_l > 0.01 * max(time.zone_l_day, 1e-9):
                over = show(time.overfill_l, Dimension.VOLUME, system)
                said = f"{zone_words(zone.name)}, {WHEN[time.occasion]}: each start brings {over} more than the mix can"
                said += " take up"
                yield Finding(
                    "start-floods",
                    Severity.WARNING,
                    said,
                    "Allow more starts a day, or take smaller emitters.",
                    zone_place(places, index),
                )
            if time.short_l_day > 0:
                said = f"{zone_words(zone.name)}, {WHEN[time.occasion]}: the day is too short for the water wanted"
                yield Finding(
                    "run-time-short", Severity.WARNING, said, "Take more or larger emitters.", zone_place(places, index)
                )


def _least(zone: ZoneWorked) -> tuple[str, float]:
    worst = min(zone.containers, key=lambda c: c.share_of_mean)
    return worst.container, worst.share_of_mean


def _system(design: Design) -> System:
    return System.METRIC if design.units == "metric" else System.US
