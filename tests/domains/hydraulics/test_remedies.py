"""What would mend a zone: tried, not guessed."""

import pytest
from tests.domains.hydraulics.zones import dripped, looped, rows

from brimful.domains.hydraulics.assembly import Tube
from brimful.domains.hydraulics.emitters import CompensatingEmitter
from brimful.domains.hydraulics.inlet import Inlet, Regulator
from brimful.domains.hydraulics.mend import remedies, split_zone
from brimful.domains.hydraulics.report import ZoneReport, work_out_zone
from brimful.domains.hydraulics.supply import BucketTest, supply_curve

INLET = Inlet(supply_curve([BucketTest(2500.0, 35.0)], 45.0), (), Regulator(17.577))
TUBES = (Tube(0.0136, name="16 mm"), Tube(0.01524, name="1/2 in"), Tube(0.0208, name="3/4 in"))


def even(report: ZoneReport) -> bool:
    """Whether a report is good enough."""
    return report.uniformity is not None and report.uniformity.eu_percent >= 95


def test_each_remedy_really_mends() -> None:
    """A zone on too thin a lateral is mended by each remedy offered, and the milder lateral does not do."""
    zone = rows(2, 12, (looped(),), bore_m=0.0085)
    assert not even(work_out_zone(zone, INLET))
    found = {remedy.kind: remedy for remedy in remedies(zone, INLET, passes=even, tubes=TUBES)}
    assert "lateral" in found
    assert all(even(remedy.report) for remedy in found.values())
    bores = [tube.inner_diameter_m for tube in TUBES]
    passing = [even(work_out_zone(rows(2, 12, (looped(),), bore_m=bore), INLET)) for bore in bores]
    assert TUBES[passing.index(True)].name in found["lateral"].words


def test_compensating_emitters_are_tried() -> None:
    """Emitters that compensate mend a zone on too thin a lateral."""
    zone = rows(2, 12, (looped(rise_m=0.5),), bore_m=0.0085)
    law = CompensatingEmitter(1.9, 0.0, 5.0, 40.0)
    kinds = {r.kind for r in remedies(zone, INLET, passes=even, compensating=law)}
    assert "compensating" in kinds


def test_a_zone_that_passes_needs_nothing() -> None:
    """Where all is well no remedy is offered."""
    assert remedies(rows(1, 3, (dripped(),)), INLET, passes=lambda _: True) == ()


@pytest.mark.parametrize("parts", [1, 2, 5])
def test_split_keeps_every_container_once(parts: int) -> None:
    """A split keeps every container, once, in parts that differ by at most one."""
    zone = rows(3, 5)
    made = split_zone(zone, parts)
    assert [name for part in made for name in part.containers] == list(zone.containers)
    sizes = [len(part.containers) for part in made]
    assert max(sizes) - min(sizes) <= 1
