"""Three facts of the trade, each carried through a whole plan (common practice, no source)."""

import pytest
from tests.design.plans import FIXED, design_of

CUBIC_FOOT_L = 28.316846592
GALLON_L = 3.785411784
CONCRETE_31 = '"round-concrete-31x25"'


def with_container(container: str, **delivery: str) -> str:
    """The fixed plan on level ground with another container, and other delivery."""
    lines = [line for line in FIXED.splitlines() if not line.startswith(("headspace", "container", *delivery))]
    own = [f"container = {container}", *(f"{key} = {value}" for key, value in delivery.items())]
    return "\n".join([*lines, *own])


def test_a_concrete_container_31_by_25_takes_about_six_cubic_feet() -> None:
    """31 in across and 25 in tall in concrete: about 6 cu ft of mix (common practice, no source)."""
    row = design_of(with_container(CONCRETE_31)).rows[0]
    assert row.fill_volume_l / CUBIC_FOOT_L == pytest.approx(6, rel=0.15)


def test_sixteen_emitters_of_0_65_gph_give_2_6_gal_in_15_minutes() -> None:
    """16 emitters of 0.65 gph run for 15 minutes give 2.6 gal (common practice, no source), where each has its rated
    pressure: 16 · 0.65 / 4 = 2.6."""
    design = design_of(with_container(CONCRETE_31, dripline='{ type = "quarter-6in-0.65gph", length = "8 ft" }'))
    (zone,) = design.zones
    assert zone.emitters_count == 16 * zone.containers_count
    rated = next(c for c in zone.containers)
    at_rating = sum(
        e.coefficient_l_h * RATED_M**e.exponent for e in zone.network.emitters if e.container == rated.container
    )
    assert at_rating * 0.25 / GALLON_L == pytest.approx(2.6, abs=0.05)
    for container in zone.containers:  # in the plan, on a 25 psi regulator, less the rise and the friction
        assert container.flow_l_h * 0.25 / GALLON_L == pytest.approx(2.6, rel=0.15)


RATED_M = 17.577
"""25 psi in metres of water, the pressure at which this dripline is rated (catalogue row)."""


def test_sixteen_emitters_six_inches_apart_need_eight_feet() -> None:
    """Emitters 6 in apart, so 16 of them need about 8 ft of dripline (common practice, no source)."""
    for feet, emitters in (("8 ft", 16), ("7 ft 11 in", 15), ("96 in", 16), ("8 ft 5 in", 16)):
        design = design_of(
            with_container(CONCRETE_31, dripline=f'{{ type = "quarter-6in-0.65gph", length = "{feet}" }}')
        )
        assert design.zones[0].emitters_count == emitters * 4
    eight = design_of(with_container(CONCRETE_31, dripline='{ type = "quarter-6in-0.65gph", length = "8 ft" }'))
    bought = sum(m.length_m or 0.0 for m in eight.materials if m.what == "dripline")
    assert bought == pytest.approx(4 * 8 * 0.3048, rel=0.1)  # with the way in from the rim
