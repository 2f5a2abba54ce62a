"""From the tap to the main."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.inlet import (
    FLOW_TOO_LOW,
    INLET_TOO_LOW,
    REGULATING,
    Device,
    Inlet,
    Regulator,
    device_of_cv,
    device_of_k,
    inlet_state,
    rest_at,
)
from brimful.domains.hydraulics.losses import k_of_cv
from brimful.domains.hydraulics.supply import BucketTest, share_of_supply, supply_curve

flows = st.floats(50.0, 5000.0)


@given(static_m=st.floats(10.0, 80.0), share=st.floats(0.05, 0.95), flow=flows)
def test_curve_goes_through_its_test(static_m: float, share: float, flow: float) -> None:
    """A curve from a static pressure and one test passes through both, and capacity turns it round."""
    curve = supply_curve([BucketTest(flow, share * static_m)], static_m)
    assert curve.head_m(0.0) == static_m
    assert curve.head_m(flow) == pytest.approx(share * static_m)
    assert curve.capacity_l_h(curve.head_m(0.7 * flow)) == pytest.approx(0.7 * flow)


def test_two_tests_give_the_static_pressure() -> None:
    """Two tests without a static pressure find the curve that made them."""
    truth = supply_curve([BucketTest(1500.0, 20.0)], 45.0)
    found = supply_curve([BucketTest(q, truth.head_m(q)) for q in (600.0, 1500.0)])
    assert found.static_m == pytest.approx(45.0)
    assert found.capacity_l_h(30.0) == pytest.approx(truth.capacity_l_h(30.0))


def test_several_tests_find_the_exponent() -> None:
    """Several tests with a static pressure find the exponent that made them."""
    tests = [BucketTest(q, 40.0 - 1e-5 * q**1.9) for q in (400.0, 900.0, 1600.0)]
    assert supply_curve(tests, 40.0).exponent == pytest.approx(1.9)


def test_what_a_supply_cannot_be() -> None:
    """Nothing known, more pressure at more flow, a test above the static pressure: refused in words."""
    with pytest.raises(ValueError, match="neither"):
        supply_curve([])
    with pytest.raises(ValueError, match="less pressure at more flow"):
        supply_curve([BucketTest(500.0, 10.0), BucketTest(900.0, 12.0)])
    with pytest.raises(ValueError, match="less than the static"):
        supply_curve([BucketTest(500.0, 50.0)], 40.0)
    assert share_of_supply(300.0, 400.0) == 0.75


def test_inlet_and_zone_come_to_rest() -> None:
    """At the flow found, what the zone takes is what the supply gives; the parts add up from the tap to the main."""
    inlet = Inlet(supply_curve([BucketTest(1500.0, 20.0)], 45.0), (Device("filter", 1.0), device_of_cv("valve", 4.0)))
    state = rest_at(inlet, lambda h: 200.0 * max(h, 0.0) ** 0.5, 1.0)
    assert state.flow_l_h == pytest.approx(200.0 * state.outlet_m**0.5)
    assert 45.0 - sum(lost for _, lost in state.parts) == pytest.approx(state.outlet_m)
    assert ("rise to the main", 1.0) in state.parts


def test_regulator_says_what_it_does() -> None:
    """A regulator regulates, or says that its inlet or its flow is too low."""
    inlet = Inlet(supply_curve([], 30.0), (), Regulator(17.6, least_flow_l_h=100.0))
    assert inlet_state(inlet, 500.0).regulator == REGULATING
    assert inlet_state(inlet, 500.0).outlet_m == 17.6
    assert inlet_state(inlet, 50.0).regulator == FLOW_TOO_LOW
    low = inlet_state(Inlet(supply_curve([], 19.0), (), inlet.regulator), 500.0)
    assert (low.regulator, low.outlet_m) == (INLET_TOO_LOW, 15.5)


def test_valve_by_cv_and_by_k_lose_the_same() -> None:
    """A valve given by its Cv and by the K of that Cv loses the same head."""
    one, two = device_of_cv("valve", 4.0), device_of_k("valve", k_of_cv(4.0, 0.0208), 0.0208)
    assert one.loss_m(900.0) == pytest.approx(two.loss_m(900.0))
