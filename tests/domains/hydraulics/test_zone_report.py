"""The figures of a zone at rest on its supply."""

import math
from dataclasses import replace

import pytest
from tests.domains.hydraulics.zones import QUARTER, dripped, looped, rows

from brimful.domains.hydraulics.assembly import Assembly, Feeder, SingleEmitters
from brimful.domains.hydraulics.emitters import rated_emitter
from brimful.domains.hydraulics.inlet import Device, Inlet, Regulator
from brimful.domains.hydraulics.report import transition_spread, work_out_zone
from brimful.domains.hydraulics.solve import solve
from brimful.domains.hydraulics.supply import BucketTest, supply_curve
from brimful.domains.hydraulics.zone import Zone
from brimful.domains.hydraulics.zone_network import network_of

SUPPLY = supply_curve([BucketTest(1500.0, 30.0)], 45.0)
INLET = Inlet(SUPPLY, (Device("backflow device", 6.0), Device("filter", 1.4)), Regulator(17.577))
ZONES = {"open": rows(2, 7), "ring": rows(2, 7, (looped(closed=True),)), "mixed": rows(3, 4, (looped(), dripped()))}


@pytest.mark.parametrize("name", ZONES)
@pytest.mark.parametrize("inlet", [INLET, replace(INLET, regulator=None), Inlet(supply_curve([], 12.0))])
def test_budget_adds_up_and_ends_at_the_last_emitter(name: str, inlet: Inlet) -> None:
    """Parts and rest of the pressure budget add up to the static pressure; no tube on the way gives head back."""
    budget = work_out_zone(ZONES[name], inlet).budget
    assert math.fsum(lost for _, lost in budget.parts) + budget.left_m == pytest.approx(budget.static_m, abs=1e-12)
    assert all(lost > -1e-6 for part, lost in budget.parts if not part.startswith("rise"))


@pytest.mark.parametrize("name", ZONES)
def test_report_equals_the_full_network(name: str) -> None:
    """Pressures at the last emitters and flows equal those of the full network; the worst container is the worst
    there."""
    report = work_out_zone(ZONES[name], INLET)
    network = network_of(ZONES[name], report.source_head_m)
    full = solve(network)
    least: dict[str, float] = {}
    for outlet in network.outlets:
        least[outlet.container] = min(least.get(outlet.container, math.inf), full.pressure_m[outlet.node])
    for water in report.containers:
        assert water.last_m == pytest.approx(least[water.container], abs=1e-5)
    assert report.worst == min(least, key=lambda c: round(least[c], 6))
    assert report.total_l_h == pytest.approx(full.total_l_h, rel=1e-6)


def test_regulated_zone_gets_its_setting() -> None:
    """Behind a working regulator the main begins at the setting, and the share of supply is flow over capacity."""
    report = work_out_zone(ZONES["open"], INLET)
    assert report.inlet.regulator == "regulating"
    assert report.inlet.outlet_m == 17.577
    assert report.capacity_l_h is not None
    assert report.share_of_supply == pytest.approx(report.total_l_h / report.capacity_l_h)
    assert SUPPLY.head_m(report.capacity_l_h) == pytest.approx(17.577 + 3.5 + 7.4)


def test_uniformity_is_bounded() -> None:
    """EU, CU and DUlq lie between 0 and 100, and better-made emitters give a better EU."""
    good, fair = (work_out_zone(ZONES["open"], INLET, cv=cv).uniformity for cv in (0.02, 0.1))
    assert good is not None
    assert fair is not None
    assert all(0 <= u <= 100 for u in (good.eu_percent, good.cu_percent, good.du_lq_percent))
    assert good.eu_percent > fair.eu_percent


def codes(zone: Zone, inlet: Inlet) -> set[str]:
    """Codes of the warnings."""
    return {warning.code for warning in work_out_zone(zone, inlet).warnings}


def test_warnings_name_what_is_wrong() -> None:
    """A weak supply, a thin line, a container out of reach and emitters below their start are each named."""
    assert "regulator-inlet-too-low" in codes(ZONES["open"], replace(INLET, supply=supply_curve([], 20.0)))
    assert "fast-water" in codes(rows(2, 20, bore_m=0.0115), INLET)
    assert "below-start-pressure" in codes(rows(2, 4, (dripped(),)), Inlet(supply_curve([], 6.0)))
    assert "above-greatest-pressure" in codes(rows(2, 4, (dripped(),)), Inlet(supply_curve([], 60.0)))
    assert "no-water" in codes(rows(2, 4), Inlet(supply_curve([], 0.5)))
    low = replace(INLET, regulator=Regulator(17.577, least_flow_l_h=5000.0))
    assert "regulator-flow-too-low" in codes(ZONES["open"], low)


def test_feeder_in_transition_is_named_and_bounded() -> None:
    """Feeders at Re 2000 to 4000 are named, and the flow lies between what the two extreme laws give."""
    assembly = Assembly(Feeder(QUARTER, 1.0), SingleEmitters(rated_emitter(7.57, 10.546, exponent=0.5), 4))
    zone = rows(2, 5, (assembly,))
    report = work_out_zone(zone, INLET)
    assert "feeder-in-transition" in {warning.code for warning in report.warnings}
    spread = transition_spread(zone, report.source_head_m)
    for water in report.containers:
        least, most = spread[water.container]
        assert least - 1e-6 <= water.flow_l_h <= most + 1e-6
        assert 1.0005 < most / least < 1.05
