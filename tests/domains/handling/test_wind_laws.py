"""Wind, load on the base and cautions: laws."""

from collections.abc import Callable
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.handling import exposure
from brimful.domains.handling.base_load import BaseLoad, base_load
from brimful.domains.handling.cautions import CAUTIONS, cautions_at
from brimful.domains.handling.wind import (
    SAFETY,
    WindBody,
    ballast_kg,
    sliding_speed_m_s,
    tipping_speed_m_s,
    wind_pressure_pa,
    wind_standing,
)

BODY = st.builds(WindBody, st.floats(0.1, 2), st.floats(0.05, 3), st.floats(0.05, 3))
BODIES = st.lists(BODY, min_size=1, max_size=3)
MASS = st.floats(5, 1000)
BASE = st.floats(0.1, 2)


@given(BODIES, MASS, BASE, st.booleans())
def test_the_tipping_speed_leaves_just_the_safety(bodies: list[WindBody], mass: float, base: float, even: bool) -> None:
    """At the tipping speed the safety is exactly what was asked, and at twice the wind a quarter of it."""
    speed = tipping_speed_m_s(bodies, mass_kg=mass, base_m=base, even=even)
    at, double = (wind_standing(v, bodies, mass_kg=mass, base_m=base, even=even).safety for v in (speed, 2 * speed))
    assert at == pytest.approx(SAFETY)
    assert double == pytest.approx(SAFETY / 4)


@given(BODIES, MASS, st.floats(0.05, 1))
def test_the_sliding_speed_uses_all_the_friction(bodies: list[WindBody], mass: float, friction: float) -> None:
    """At the sliding speed the friction needed is the friction there is."""
    speed = sliding_speed_m_s(bodies, mass_kg=mass, friction=friction)
    assert wind_standing(speed, bodies, mass_kg=mass, base_m=1).friction_needed == pytest.approx(friction)


@given(BODIES, MASS, BASE, st.floats(1, 40))
def test_ballast_brings_the_safety_wanted(bodies: list[WindBody], mass: float, base: float, speed: float) -> None:
    """With the ballast added the container stands with the safety wanted, and none is asked where it already does."""
    before = wind_standing(speed, bodies, mass_kg=mass, base_m=base)
    more = ballast_kg(before, mass_kg=mass)
    after = wind_standing(speed, bodies, mass_kg=mass + more, base_m=base)
    assert after.safety == pytest.approx(max(SAFETY, before.safety))


def test_uneven_paving_bears_less() -> None:
    """On uneven paving a tenth of the holding moment is gone."""
    even, uneven = (
        wind_standing(10, [WindBody(1, 1, 1)], mass_kg=50, base_m=1, even=even).resisting_n_m for even in (True, False)
    )
    assert uneven == pytest.approx(0.9 * even)


def test_nothing_to_catch_the_wind_never_moves() -> None:
    """A thing without area, or still air, has no speed at which it moves."""
    assert tipping_speed_m_s([], mass_kg=10, base_m=1) == inf
    assert sliding_speed_m_s([], mass_kg=10) == inf
    still = wind_standing(0, [WindBody(1, 1, 1)], mass_kg=10, base_m=1)
    assert still.safety == inf
    assert ballast_kg(still, mass_kg=10) == 0.0
    assert still.stands()


@given(MASS, BASE)
def test_base_load_is_one_load_in_three_units(mass: float, area: float) -> None:
    """1 kPa is 20.885 lb/ft² and 101.97 kg/m² (exact definitions)."""
    load = base_load(mass, area)
    assert load.psf == pytest.approx(load.pressure_kpa * 20.8854, rel=1e-5)
    assert load.kg_m2 == pytest.approx(load.pressure_kpa * 101.9716, rel=1e-5)
    assert not hasattr(load, "ok")


@given(st.floats(80, 130))
def test_three_decibels_halve_the_time(level: float) -> None:
    """Three decibels more halve the minutes allowed."""
    assert exposure.noise_minutes(level + 3) == pytest.approx(exposure.noise_minutes(level) / 2)


def test_every_caution_has_a_step_someone_who_decides_and_a_source() -> None:
    """No caution stands without steps, text, a decider and how sure it is; topics are told apart."""
    for caution in CAUTIONS:
        assert caution.steps
        assert min(len(caution.text), len(caution.decides), len(caution.source)) > 10
        assert caution.text.endswith(".")
    assert len({caution.topic for caution in CAUTIONS}) == len(CAUTIONS)


def test_loads_on_structures_defer_to_an_engineer() -> None:
    """The caution at setting names a structural engineer, connecting names a licensed plumber, chat names none."""
    assert any("structural engineer" in caution.decides for caution in cautions_at("set"))
    assert any("licensed plumber" in caution.decides for caution in cautions_at("connect"))
    assert cautions_at("chat") == ()


@pytest.mark.parametrize(
    "call",
    [
        lambda: WindBody(-1, 1, 1),
        lambda: wind_pressure_pa(-1),
        lambda: wind_standing(10, [], mass_kg=0, base_m=1),
        lambda: tipping_speed_m_s([], mass_kg=10, base_m=0),
        lambda: sliding_speed_m_s([], mass_kg=0),
        lambda: BaseLoad(1, 0),
        lambda: exposure.collector_cfm(0),
    ],
)
def test_what_cannot_stand_is_refused(call: Callable[[], object]) -> None:
    """Masses, bases and winds that cannot be are refused with a ValueError."""
    with pytest.raises(ValueError, match="expected"):
        call()
