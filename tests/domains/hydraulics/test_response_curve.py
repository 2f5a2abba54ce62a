"""The curve of inflow against head: never falling, whatever the law of friction, and read off a whole zone at rest."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.domains.hydraulics.zones import EMITTER, dripped, looped, rows

from brimful.domains.hydraulics.assembly import Assembly, Dripline, Feeder, Tube, inflow_curve
from brimful.domains.hydraulics.friction import FRICTION_LAWS
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.zone import Zone
from brimful.domains.hydraulics.zone_solve import ReducedZone

CROWDED = Assembly(Feeder(Tube(0.00432), 1.2, 1.5), Dripline(Tube(0.00432), 0.1524, 40, EMITTER))


@settings(max_examples=30, deadline=None)
@given(
    law=st.sampled_from(sorted(FRICTION_LAWS)),
    feeder_mm=st.floats(2.0, 6.0),
    count=st.integers(1, 60),
    head_m=st.floats(0.1, 20.0),
)
def test_inflow_and_heads_never_fall_as_the_head_rises(law: str, feeder_mm: float, count: int, head_m: float) -> None:
    """Under every law of friction, one that jumps at Re 2000 too, more head gives no container or emitter less."""
    body = Dripline(Tube(0.00432), 0.1524, count, EMITTER)
    curve = inflow_curve(Assembly(Feeder(Tube(feeder_mm / 1e3), 1.2, 1.5), body), Water(law=FRICTION_LAWS[law]))
    heads = np.linspace(0.01, head_m, 400)
    flow, slope = curve.along(heads)
    assert (slope >= 0).all() and (np.diff(flow) >= 0).all()
    assert (np.diff(curve.heads_along(heads), axis=0) >= -1e-12).all()


def test_the_inflow_stays_while_a_jump_of_friction_is_climbed() -> None:
    """Where friction jumps at Re 2000, the curve is level over the heads between, at the flow of Re 2000."""
    water = Water(law=FRICTION_LAWS["early"])
    assembly = CROWDED
    assert isinstance(assembly.feeder, Feeder)
    pipe = assembly.feeder.pipe(water)
    turn = pipe.laminar_to_l_h
    below, above = (pipe.loss(turn * share)[0] for share in (1 - 1e-9, 1 + 1e-9))
    curve = inflow_curve(assembly, water)
    low, high = 0.0, 20.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if curve.at(middle)[0] < turn * (1 - 1e-6) else (low, middle)
    assert above > 1.2 * below
    for share in (0.1, 0.5, 0.9):
        assert curve.at(high + share * (above - below))[0] == pytest.approx(turn, rel=3e-6)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("head_m", [1.5, 5.0, 7.26, 10.6])
def test_a_long_starved_row_comes_to_rest_under_a_law_that_jumps(head_m: float) -> None:
    """A hundred containers on thin tube settle without a warning, and inflows and pipes balance."""
    plain = rows(1, 100, (CROWDED, looped(), dripped()), bore_m=0.01524)
    zone = Zone(plain.name, plain.main, plain.laterals, water=Water(law=FRICTION_LAWS["early"]))
    answer = ReducedZone(zone).solve(head_m)
    assert np.isfinite(answer.heads_m).all()
    assert sum(answer.inflow_l_h) == pytest.approx(answer.flow_l_h[0], rel=1e-9)
    assert min(answer.inflow_l_h) >= 0
