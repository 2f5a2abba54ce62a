"""The ledger: every figure that is explained is what its function gives for the inputs that stand beside it."""

import re
from dataclasses import is_dataclass
from typing import Any

import numpy as np
import pytest
from tests.contracts.units import bears_its_unit
from tests.design.plans import EXAMPLES, FIXED, design_of, outcome_of, text_of

from brimful.design.ledger import Ledger, Working
from brimful.render.explain import working_lines

WORKINGS = [
    pytest.param(working, id=f"{name}: {working.figure}")
    for name in EXAMPLES
    for working in outcome_of(text_of(name)).workings.values()
]


def alike(one: Any, other: Any) -> bool:
    """Equal to the last digit, arrays included."""
    if is_dataclass(one) and not isinstance(one, type):
        return type(one) is type(other) and all(
            alike(getattr(one, name), getattr(other, name)) for name in type(one).__dataclass_fields__
        )
    return bool(np.array_equal(one, other)) if isinstance(one, np.ndarray) else bool(one == other)


@pytest.mark.parametrize("working", WORKINGS)
def test_every_figure_can_be_worked_out_again(working: Working) -> None:
    """The function named in the ledger gives the figure again from the inputs noted there."""
    assert alike(working.function(**working.inputs), working.value)


@pytest.mark.parametrize("working", WORKINGS)
def test_every_figure_has_words_a_unit_and_a_source(working: Working) -> None:
    """Each figure is explained in a sentence, says its unit in its name, and names its source."""
    assert len(working.words.splitlines()[0]) > 20
    assert len(working.source) > 5
    figure = working.figure.rpartition("/")[2].partition(" ")[0]
    assert bears_its_unit(figure) or figure == "bags"
    said = "\n".join(working_lines(working))
    assert said.startswith(f"{working.figure} = ")
    for name in working.inputs:
        assert f"    {name} = " in said


@pytest.mark.parametrize("name", EXAMPLES)
def test_figures_stand_in_the_design(name: str) -> None:
    """What the ledger explains of a row, a demand and a zone is what the design holds."""
    outcome = outcome_of(text_of(name))
    assert outcome.design is not None
    for row in outcome.design.rows:
        at = f"rows/{row.name}"
        assert outcome.workings[f"{at}/fill_volume_l"].value == row.fill_volume_l
        assert outcome.workings[f"{at}/mix_to_buy_l"].value == row.mix_to_buy_l
        for demand in row.demands:
            assert outcome.workings[f"{at}/{demand.occasion}/demand_l_day"].value == demand.demand_l_day
    for zone in outcome.design.zones:
        report: Any = outcome.workings[f"zones/{zone.name}/flow_l_h"].value
        assert report.total_l_h == zone.flow_l_h


def test_paths_of_a_ledger() -> None:
    """A ledger further down the path writes into the same book."""
    book = Ledger()

    def twice(number: float) -> float:
        return 2 * number

    assert book.at("rows", "a").at("peak").work("double", twice, number=4.0) == 8.0
    assert book.work("double", twice, number=1.0) == 2.0
    assert {path: working.value for path, working in book.entries.items()} == {"rows/a/peak/double": 8.0, "double": 2.0}


def test_a_function_without_words_is_named() -> None:
    """A function that says nothing of itself is shown by its name, and its source is empty."""
    working = Working("x", 1, lambda: 1, {})
    assert (working.words, working.source) == ("<lambda>", "")


def test_explained_numbers_are_those_of_the_plan() -> None:
    """An explanation shows the plan's own numbers: the demand is the sum of the two parts that stand in the design."""
    demand = design_of(FIXED).rows[0].demands[0]
    working = outcome_of(FIXED).workings["rows/row/planting_day/demand_l_day"]
    assert dict(working.inputs) == {
        "canopy_l_day": demand.canopy_demand_l_day,
        "wetted_l_day": demand.wetted_surface_l_day,
    }
    said = "\n".join(working_lines(working))
    assert re.search(r"wetted_l_day = \d", said)
