"""A thousand containers in twenty zones: everything adds up as in a small plan."""

import pytest
from tests.design.plans import FIXED, design_of

ZONES, ROWS, COUNT = 20, 5, 10


def large() -> str:
    """The fixed row, five times in each of twenty zones, ten containers a row."""
    head, _, row = FIXED.partition("[[containers]]")
    text = head.replace("5 gal in 30 s at 40 psi", "5 gal in 8 s at 45 psi")
    text += "".join(f'[[zone]]\nname = "z{z}"\n' for z in range(ZONES))
    for z in range(ZONES):
        for k in range(ROWS):
            own = row.replace('name = "row"', f'name = "z{z} row {k}"\nzone = "z{z}"').replace(
                "count = 4", "count = 10"
            )
            text += f"[[containers]]{own}"
    return text


def test_a_thousand_containers() -> None:
    """Twenty equal zones of fifty are solved alike, and the goods are fifty times twenty of one container's."""
    design = design_of(large())
    assert sum(zone.containers_count for zone in design.zones) == ZONES * ROWS * COUNT == 1000
    flows = [zone.flow_l_h for zone in design.zones]
    assert flows == pytest.approx([flows[0]] * ZONES, rel=1e-12)
    assert {tuple(time.minutes_per_day for time in zone.run_times) for zone in design.zones} == {
        tuple(time.minutes_per_day for time in design.zones[0].run_times)
    }
    (container,) = (m for m in design.materials if m.what == "container")
    assert container.count == 1000
    mix = next(m for m in design.materials if m.what == "mix")
    assert mix.volume_l == pytest.approx(1000 * design.rows[0].mix_to_buy_l, rel=1e-12)
    assert len({c.container for zone in design.zones for c in zone.containers}) == 1000
