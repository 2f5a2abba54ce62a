"""Many variants at once: the same as each alone."""

from dataclasses import replace

import pytest
from tests.domains.hydraulics.zones import dripped, looped, rows

from brimful.domains.hydraulics.assembly import Tube
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.variants import solve_variants
from brimful.domains.hydraulics.zone import Zone
from brimful.domains.hydraulics.zone_solve import solve_zone

ZONES: list[Zone] = [
    rows(laterals, pots, (kind, dripped(1 + pots % 3)), bore_m=bore)
    for laterals, pots in ((1, 4), (2, 3), (3, 5))
    for bore in (0.0136, 0.0208)
    for kind in (looped(), looped(count=9), looped(closed=True, rise_m=0.3))
]


@pytest.mark.parametrize("head_m", [17.5, 8.0, 0.9])
def test_variants_equal_each_alone(head_m: float) -> None:
    """A batch gives every container of every variant the flow it has when solved alone, a dry supply included."""
    together = solve_variants(ZONES, [head_m + 0.01 * i for i in range(len(ZONES))])
    for i, zone in enumerate(ZONES):
        alone = solve_zone(zone, head_m + 0.01 * i)
        flows = [q for row, q in zip(alone.rows, alone.trunk.inflow_l_h, strict=True) if row.station is not None]
        assert together.inflow_l_h[i] == pytest.approx(flows, rel=1e-7, abs=1e-6)
        assert together.total_l_h[i] == pytest.approx(alone.total_l_h, rel=1e-7, abs=1e-6)


def test_variants_must_share_their_water() -> None:
    """Variants with different water, or too few heads, are refused."""
    with pytest.raises(ValueError, match="one water"):
        solve_variants([ZONES[0], replace(ZONES[1], water=Water(1.5e-6))], [17.0, 17.0])
    with pytest.raises(ValueError, match="as many heads"):
        solve_variants(ZONES, [17.0])


def test_wider_laterals_give_more() -> None:
    """Widening the lateral never lowers the total."""
    zones = [rows(1, 12, bore_m=bore / 1e3) for bore in (8, 10, 12, 14, 16, 20)]
    totals = solve_variants(zones, [17.5] * 6).total_l_h.tolist()
    assert totals == sorted(totals)
    assert replace(zones[0].laterals[0], tube=Tube(0.02)) == zones[-1].laterals[0]
