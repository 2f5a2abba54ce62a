"""One bark mix in two containers: Bilderback & Fonteno 1987 (abstract read).

#1 container: air 28 %, water 43 %. Bedding-plant cell: air 12 %, water 59 %. Both sum to 71 % of pores. Heights 15.2
and 5.5 cm are assumed; the two curves were fitted to the pair, so it fixes their low-suction part only (calculated).
"""

import pytest

from brimful.domains.substrate import Retention, container_store

CURVES = [Retention(0.20, 0.71, 29.11, 2.210), Retention(0.10, 0.71, 27.68, 1.874)]


@pytest.mark.parametrize("mix", CURVES, ids=["θr .20", "θr .10"])
@pytest.mark.parametrize(("depth_m", "water", "air"), [(0.152, 0.43, 0.28), (0.055, 0.59, 0.12)], ids=["#1", "cell"])
def test_water_and_air_of_the_pair(mix: Retention, depth_m: float, water: float, air: float) -> None:
    """Depth alone turns 59 % water into 43 % and 12 % air into 28 %."""
    store = container_store(mix, lambda _: 0.01, depth_m)
    assert store.held_share == pytest.approx(water, abs=5e-4)
    assert store.air_share == pytest.approx(air, abs=5e-4)
    assert store.held_share + store.air_share == pytest.approx(0.71, abs=1e-12)
