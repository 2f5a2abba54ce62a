"""Every taxon of the catalogue passes through the planting of a plan with one container."""

from pathlib import Path

import pytest

from brimful.catalog import load
from brimful.services import work_out_planting

PLANTS = list(load(Path(__file__).parent).plants)
PLAN = """
[site]
latitude = 48
[supply]
pressure = "3 bar"
bucket_tests = ["10 L in 75 s at 1.8 bar"]
[[containers]]
name = "tub"
container = {{ shape = "round", top = "60 cm", bottom = "50 cm", height = "50 cm", material = "terracotta" }}
plants = ["1 {}"]
"""


@pytest.mark.parametrize("key", PLANTS)
def test_one_container_of_it(key: str, tmp_path: Path) -> None:
    """It is placed, grows, never covers less unless it is trimmed, and can be ordered."""
    path = tmp_path / "plan.toml"
    path.write_text(PLAN.format(key), encoding="utf-8")
    answer = work_out_planting(path)
    assert answer.planting is not None, answer.findings
    (row,) = answer.planting.rows
    assert [place.plant for place in row.places] == [key]
    areas = [week.canopy_area_m2 for week in row.cover]
    assert areas == sorted(areas) or any(week.trimmed for week in row.upkeep)
    assert areas[-1] >= areas[0] > 0
    assert [order.plant for order in answer.planting.orders] == [key]
