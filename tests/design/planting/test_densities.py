"""Grow-in beside instant: the chosen one is the design's own, more plants cost more and drink no less."""

from pathlib import Path

import pytest
from tests.design.test_recipes import PLAN, WRITTEN

from brimful.design.planting.model import RowPlanting
from brimful.services import example, work_out, work_out_planting


def row_at(folder: Path, fields: str) -> RowPlanting:
    """The planting of the recipe's own container."""
    plan = folder / "plan.toml"
    plan.write_text(PLAN.format(fields=fields, top="30 in", written=WRITTEN), encoding="utf-8")
    answer = work_out_planting(plan)
    assert answer.planting is not None, answer.findings
    return answer.planting.rows[0]


@pytest.mark.parametrize("density", ["grow-in", "instant"])
def test_both_densities_stand_side_by_side(tmp_path: Path, density: str) -> None:
    """One is taken, as the plan says, with the plants that stand in the row; a full look costs by the plant and drinks
    no less."""
    row = row_at(tmp_path, f'density = "{density}"')
    grow_in, instant = row.densities
    (taken,) = [one for one in row.densities if one.chosen]
    assert (taken.density, taken.plants_count) == (density, len(row.places))
    assert grow_in.plants_count < instant.plants_count
    assert grow_in.cost_money is not None
    assert instant.cost_money is not None
    assert grow_in.cost_money < instant.cost_money
    assert grow_in.water_planting_l_day <= instant.water_planting_l_day
    assert grow_in.water_l_day <= instant.water_l_day


def test_water_of_the_density_taken_is_the_designs(tmp_path: Path) -> None:
    """What `plants` tells of the density taken is what the design reckons with, on planting day and at mid-season."""
    design, answer = work_out(example("courthouse_square")).design, work_out_planting(example("courthouse_square"))
    assert design is not None
    assert answer.planting is not None
    for row, planted in zip(design.rows, answer.planting.rows, strict=True):
        (taken,) = [one for one in planted.densities if one.chosen]
        assert [taken.water_planting_l_day, taken.water_l_day] == [d.demand_l_day for d in row.demands[:2]]


def test_the_tube_is_told_as_the_design_winds_it() -> None:
    """Loops in the build order, and their length, are those of the design; no plant outside them is set before."""
    design = work_out(example("alder_point_landing")).design
    answer = work_out_planting(example("alder_point_landing"), "metric")
    assert design is not None
    assert answer.planting is not None
    for row, planted in zip(design.rows, answer.planting.rows, strict=True):
        assert row.tube is not None
        assert planted.loop_length_m == row.tube.dripline_cut_m
        assert any(f"in {len(row.tube.loop_radii_m)} loops" in step.what for step in planted.steps)


def test_a_front_is_to_be_marked(tmp_path: Path) -> None:
    """Seen from one side: the rim is marked and turned to the point of the compass the plan gives."""
    row = row_at(tmp_path, 'view = "one-sided"\nfront = "zonal geranium"\nfaces = 135')
    assert any("turn it to 135° (south-east)" in reason and "zonal geranium" in reason for reason in row.reasons)
