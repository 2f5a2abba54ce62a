"""What the solver warns of, in the plan's units, each with what mends it worked out from the zone itself."""

from collections.abc import Callable

from brimful.design.model import ZoneWorked
from brimful.plan.names import tube_words, zone_words
from brimful.quantities import Dimension, System, show

Saying = Callable[[ZoneWorked, System], tuple[str, str]]
REGULATOR = "regulator"


def first(zone: ZoneWorked, code: str) -> str:
    """The first message of a code, and how many more there are."""
    messages = [warning.message for warning in zone.warnings if warning.code == code]
    return messages[0] + (f" (and {len(messages) - 1} more like it)" if len(messages) > 1 else "")


def regulator_inlet_too_low(zone: ZoneWorked, system: System) -> tuple[str, str]:
    """The regulator has too little pressure before it."""
    before = zone.head_after_regulator_m + sum(s.head_lost_m for s in zone.pressure_budget if s.where == REGULATOR)
    margin = before - zone.head_after_regulator_m
    gets, holds = _head(before, system), _head(max(before - margin, 0.0), system)
    said = f"the regulator of {zone_words(zone.name)} gets {gets}, too little to hold its setting"
    return (
        said,
        f"A regulator of {holds} or less would hold; or make the zone smaller, so that the tap keeps more pressure.",
    )


def below_start(zone: ZoneWorked, system: System) -> tuple[str, str]:
    """Compensating emitters do not yet compensate."""
    start = max((e.start_head_m or 0.0) for e in zone.network.emitters)
    low = [c for c in zone.containers if c.head_m < start]
    worst = min(low or zone.containers, key=lambda c: c.head_m)
    said = (
        f"in {zone_words(zone.name)} {len(low)} of {len(zone.containers)} containers have too little pressure "
        f"for their compensating emitters: {worst.container} has {_head(worst.head_m, system)}, "
        f"{_head(start, system)} is needed"
    )
    if any(warning.code == "regulator-inlet-too-low" for warning in zone.warnings):
        return said, "The tap does not give it at this flow: fewer or smaller emitters, or more zones."
    return (
        said,
        f"Raise the regulator by {_head(start - worst.head_m, system)} if the tap gives it, or take larger tube.",
    )


def no_water(zone: ZoneWorked, system: System) -> tuple[str, str]:
    """A container stands higher than the water reaches."""
    dry = [c for c in zone.containers if c.head_m <= 0]
    worst = min(dry or zone.containers, key=lambda c: c.head_m)
    short = _head(-worst.head_m, system)
    said = f"in {zone_words(zone.name)} no water reaches {len(dry)} of {len(zone.containers)} containers"
    return (
        said,
        f"{short} more pressure would just reach {worst.container}; raise the regulator, or give these their own zone.",
    )


def fast_water(zone: ZoneWorked, system: System) -> tuple[str, str]:
    """Water runs too fast in some tube."""
    fast = show(zone.most_velocity_m_s, Dimension.SPEED, System.METRIC)
    if system is System.US:
        fast = f"{zone.most_velocity_m_s / 0.3048:.1f} ft/s (at most 5)"
    said = f"in {zone_words(zone.name)} water runs at {fast} in {tube_words(zone.most_velocity_where)}"
    return said, "Take the next larger tube there: fast water hammers when the valve shuts."


def flow_too_low(zone: ZoneWorked, system: System) -> tuple[str, str]:
    """The zone draws less than its regulator needs."""
    flow = show(zone.flow_l_h, Dimension.FLOW, system)
    said = f"{zone_words(zone.name)} draws {flow}, less than its regulator needs to hold its setting"
    return said, f"Take a regulator made for {flow} or less, or put more containers on the zone."


SAYINGS: dict[str, Saying] = {
    "regulator-inlet-too-low": regulator_inlet_too_low,
    "regulator-flow-too-low": flow_too_low,
    "below-start-pressure": below_start,
    "no-water": no_water,
    "fast-water": fast_water,
}


def _head(head_m: float, system: System) -> str:
    return show(head_m, Dimension.PRESSURE, system)
