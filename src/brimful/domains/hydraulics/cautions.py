"""What to mind in a solved zone, as data with the place and the figures."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw
from brimful.domains.hydraulics.inlet import FLOW_TOO_LOW, INLET_TOO_LOW, InletState
from brimful.domains.hydraulics.network import Problem
from brimful.domains.hydraulics.zone_solve import ReducedZone

if TYPE_CHECKING:
    from brimful.domains.hydraulics.report import ContainerWater, TubeWater


def cautions(
    reduced: ReducedZone,
    containers: "Sequence[ContainerWater]",
    tubes: "Sequence[TubeWater]",
    *,
    state: InletState,
    fastest_m_s: float,
) -> Iterator[Problem]:
    """Every caution of a solved zone: its inlet, water that runs too fast, feeders and emitters out of their range."""
    yield from _inlet_warnings(reduced.zone.name, state)
    for tube in tubes:
        if tube.velocity_m_s > fastest_m_s:
            yield Problem(
                "fast-water",
                tube.id,
                f"water runs at {tube.velocity_m_s:.2f} m/s in {tube.id}; expected at most {fastest_m_s:g}",
            )
    laws = {row.station.container: row.station.assembly.body.law for row in reduced.rows if row.station is not None}
    for c in containers:
        if c.feeder is not None and c.feeder.regime == "transition":
            words = (
                f"the feeder of {c.container} runs at Re {c.feeder.reynolds:.0f}, where friction scatters by a third"
            )
            yield Problem("feeder-in-transition", c.container, words)
        if c.last_m <= 0:
            yield Problem(
                "no-water", c.container, f"{c.container} stands {-c.last_m:.2f} m above what the supply reaches"
            )
        yield from _range_warnings(c, laws[c.container])


def _inlet_warnings(zone: str, state: InletState) -> Iterator[Problem]:
    if state.regulator == INLET_TOO_LOW:
        words = f"the regulator of {zone} gets {state.before_regulator_m:.2f} m, too little to hold its setting"
        yield Problem("regulator-inlet-too-low", zone, words)
    if state.regulator == FLOW_TOO_LOW:
        words = f"the regulator of {zone} passes {state.flow_l_h:.0f} L/h, below the least flow at which it regulates"
        yield Problem("regulator-flow-too-low", zone, words)


def _range_warnings(c: "ContainerWater", law: EmitterLaw) -> Iterator[Problem]:
    if isinstance(law, CompensatingEmitter) and 0 < c.last_m < law.start_m:
        words = f"emitters of {c.container} get {c.last_m:.2f} m; they compensate from {law.start_m:.2f} m on"
        yield Problem("below-start-pressure", c.container, words)
    if isinstance(law, CompensatingEmitter) and c.lateral_m > law.most_m:
        words = f"emitters of {c.container} get up to {c.lateral_m:.2f} m; they are made for {law.most_m:.2f} m at most"
        yield Problem("above-greatest-pressure", c.container, words)
