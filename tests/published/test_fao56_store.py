"""Allen, Pereira, Raes & Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, chapter 8."""

import numpy as np
import pytest

from brimful.domains.watering.levels import depletion_share, stress_coefficient, total_available_mm
from brimful.domains.watering.season import Season, Store
from brimful.domains.watering.store import run_store


@pytest.mark.parametrize(
    ("depth_m", "share", "total", "ready"), [(0.4, 0.30, 36, 11), (0.8, 0.40, 72, 29), (1.2, 0.55, 108, 59)]
)
def test_example_36_available_water(depth_m: float, share: float, total: int, ready: int) -> None:
    """Example 36 (read): onion, tomato, maize in loamy sand, 90 mm/m; depths worked back, p from table 22."""
    ours = total_available_mm(0.15, 0.06, depth_m)
    assert ours == pytest.approx(total, abs=0.5)
    assert ours * share == pytest.approx(ready, abs=0.5)


def test_example_37_ten_days_of_drying() -> None:
    """Example 37, p.171 (read): TAW 160, RAW 64, depletion 55 mm, 6 mm a day; the whole day's demand in one step."""
    level, at_once = np.array([96.0]), np.array([1.0] + [0.0] * 23)
    store = Store(np.array([160.0]), level, level, np.array([0.0]), np.array([1.0]))
    one = np.ones((10, 1))
    season = Season(6.0 * one, one, 0.0 * one, one, at_once)
    balance = run_store(store, season, [[]] * 10, start_l=np.array([[105.0]]), period_days=1)
    depletion = 160.0 - balance.end_l[:, 0, 0]
    printed = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5]
    assert depletion == pytest.approx(printed, abs=0.051)
    assert stress_coefficient(balance.start_l[[2, 9], 0, 0], level) == pytest.approx([0.97, 0.62], abs=0.005)


def test_depletion_share_by_demand() -> None:
    """Table 22 footnote (read; values calculated): p 0.30 at 2, 5, 8, 10, 12 mm a day."""
    assert [depletion_share(0.30, demand) for demand in (2, 5, 8, 10, 12)] == pytest.approx(
        [0.42, 0.30, 0.18, 0.10, 0.10]
    )
