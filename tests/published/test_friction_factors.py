"""Friction factors: measured smooth pipe, and the anchors of an independent library.

McKeon, Swanson, Zagarola, Donnelly & Smits (2004), J. Fluid Mech. 511:41, smooth pipe (values in the `fluids` package,
read). `fluids` 1.3.1: Colebrook, Blasius, Swamee–Jain (docstring anchors read). EPANET engine, hydcoeffs.c: constants
of the transition cubic (read).
"""

import fluids
import numpy as np
import pytest
from fluids.friction import oregon_smooth_data  # type: ignore[attr-defined]
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.arrays import law_along
from brimful.domains.hydraulics.friction import (
    DEFAULT_LAW,
    FRICTION_LAWS,
    blasius_factor,
    colebrook_factor,
    friction_factor,
    laminar_factor,
    swamee_jain_factor,
)
from brimful.domains.hydraulics.pipe import Pipe, Water, head_loss

MEASURED = [(2868, 0.02804), (2903, 0.03182), (2997, 0.0350), (3047, 0.03875), (3264, 0.0426)]
TURBULENT = [
    (3980, 0.03995),
    (4835, 0.03797),
    (10900, 0.03088),
    (18990, 0.0267),
    (40850, 0.02086),
    (84760, 0.01805),
]


@pytest.mark.parametrize(("re", "measured"), TURBULENT)
def test_measured_turbulent_friction(re: float, measured: float) -> None:
    """From Re 3980 on Colebrook meets the measured smooth pipe within 3.5 % (5 % at Re 40 850)."""
    assert colebrook_factor(re, 0.0) == pytest.approx(measured, rel=0.05 if re == 40850 else 0.035)


def test_measured_transition_scatters() -> None:
    """Between Re 2800 and 3300 measured friction scatters by a third; our law runs through the band, not outside it."""
    factors = [measured for _, measured in MEASURED]
    assert max(factors) / min(factors) > 1.33
    for re, measured in MEASURED:
        assert friction_factor(re) == pytest.approx(measured, rel=0.34)


def test_measured_points_stand_in_the_library() -> None:
    """The measured points used here are those the library carries."""
    carried = np.array(
        oregon_smooth_data if not isinstance(oregon_smooth_data, tuple) else list(zip(*oregon_smooth_data, strict=True))
    )
    for re, f in (*MEASURED, *TURBULENT):
        assert np.any((abs(carried[:, 0] / re - 1) < 5e-3) & (abs(carried[:, 1] / f - 1) < 5e-3))


@given(re=st.floats(4000.0, 1e6), rr=st.floats(0.0, 0.02))
def test_turbulent_laws_equal_the_library(re: float, rr: float) -> None:
    """Colebrook equals the library's within 1e-9, Swamee–Jain within 1e-5 (its constant is rounded otherwise)."""
    assert colebrook_factor(re, rr) == pytest.approx(fluids.friction.Colebrook(re, rr), rel=1e-9)
    assert swamee_jain_factor(re, rr) == pytest.approx(fluids.friction.Swamee_Jain_1976(re, rr), rel=1e-5)


def test_printed_anchors() -> None:
    """The anchors printed in the library's documentation come back."""
    assert laminar_factor(128) == 0.5
    assert blasius_factor(10000) == pytest.approx(0.03164, abs=5e-6)
    assert colebrook_factor(1e5, 1e-4) == pytest.approx(0.018513866077471, abs=1e-14)


@pytest.mark.parametrize(
    ("re", "f"),
    [(2000, 0.032), (2300, 0.029174), (2500, 0.029135), (3000, 0.033074), (3500, 0.038613), (4000, 0.040551)],
)
def test_transition_cubic(re: float, f: float) -> None:
    """The transition cubic with the engine's constants, smooth bore (calculated from the engine's source)."""
    assert friction_factor(re) == pytest.approx(f, abs=5e-6)


@given(rr=st.floats(0.0, 0.02))
def test_law_is_whole(rr: float) -> None:
    """The law joins at Re 2000 and 4000 in value and slope, whatever the roughness."""
    for limit, tolerance in ((2000.0, 1e-5), (4000.0, 1e-5)):
        below, above = DEFAULT_LAW.at(limit * (1 - 1e-9), rr), DEFAULT_LAW.at(limit * (1 + 1e-9), rr)
        assert below[0] == pytest.approx(above[0], rel=tolerance)
        assert below[1] == pytest.approx(above[1], rel=0.02)


@given(re=st.floats(1.0, 1e6), rr=st.floats(0.0, 0.02), name=st.sampled_from(sorted(FRICTION_LAWS)))
def test_slopes_are_slopes(re: float, rr: float, name: str) -> None:
    """Every law's Re·df/dRe is its slope, away from its joints, and the array form equals the plain one."""
    law = FRICTION_LAWS[name]
    f, slope = law.at(re, rr)
    along = law_along(law, np.array([re]), np.array([rr]))
    assert (along[0][0], along[1][0]) == pytest.approx((f, slope), rel=1e-12)
    if min(abs(re / limit - 1) for limit in (2000, 4000)) > 1e-3:
        step = 1e-5
        numeric = (law.at(re * (1 + step), rr)[0] - law.at(re * (1 - step), rr)[0]) / (2 * step)
        assert slope == pytest.approx(numeric, rel=1e-5, abs=1e-8)


@given(flow=st.floats(1.0, 3000.0), head=st.floats(1e-6, 50.0), bore=st.floats(0.002, 0.03), k=st.floats(0.0, 5.0))
def test_flow_turns_loss_round(flow: float, head: float, bore: float, k: float) -> None:
    """The flow found for a head loses just that head, and more flow always loses more."""
    pipe = Pipe.of(3.0, bore, roughness_m=1.5e-6, loss_k=k, water=Water())
    assert pipe.loss(pipe.flow(head)[0])[0] == pytest.approx(head, rel=1e-9)
    assert pipe.loss(1.01 * flow)[0] > pipe.loss(flow)[0]


@pytest.mark.parametrize(
    ("bore_m", "flow_gph", "length_m", "pascal"), [(0.01524, 200.0, 30.48, 35752.0), (0.004318, 5.0, 1.0, 617.17)]
)
def test_pressure_drop_of_the_library(bore_m: float, flow_gph: float, length_m: float, pascal: float) -> None:
    """Pressure drop by fluids.one_phase_dP: 200 gph through 100 ft of 0.600 in, 5 gph through 1 m of 0.170 in (0.5
    %)."""
    lost = head_loss(flow_gph * 3.785411784, length_m, inner_diameter_m=bore_m, viscosity_m2_s=1.0034e-6)
    assert lost * 998.207 * 9.80665 == pytest.approx(pascal, rel=0.005)
