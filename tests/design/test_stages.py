"""Stages: an edit redoes what it touches and nothing else, and what is kept equals what is worked out anew."""

import pytest
from tests.design.plans import EXAMPLES, FIXED, design_of, outcome_of, text_of

from brimful.design.stages import Stages
from brimful.render.as_json import to_data

EDITS = {
    "nothing": (("title", "# title"), set[str]()),
    "a plant": (
        ('"4 geranium-zonal"', '"5 geranium-zonal"'),
        {"containers", "growth", "demand", "run times", "materials", "tube", "emitters"},
    ),
    "a name of nothing": (('units = "US"', 'units = "US"\ntitle = "x"'), set[str]()),
    "the ground": (
        ('rise = "1 ft"', 'rise = "2 ft"'),
        {"containers", "growth", "demand", "water", "run times", "materials", "tube", "emitters"},
    ),
    "the tap": (("60 psi", "70 psi"), {"water", "run times", "materials"}),
    "the timer": (("[supply]", "[timer]\nmost_starts = 2\n[supply]"), {"run times", "materials"}),
    "the season": (
        ("latitude = 45", 'latitude = 45\nplanting_day = "1 June"'),
        {"growth", "demand", "tube", "emitters", "run times", "materials"},
    ),
}
"""What is edited, and the stages that may run again."""


@pytest.mark.parametrize("edit", EDITS)
def test_an_edit_redoes_only_what_it_touches(edit: str) -> None:
    """Stages whose inputs an edit leaves alone do not run again, and the answer is the same as from the start."""
    stages = Stages()
    design_of(FIXED, stages)
    first = len(stages.ran)
    (old, new), may = EDITS[edit]
    text = FIXED.replace(old, new)
    kept = outcome_of(text, stages)
    assert set(stages.ran[first:]) <= may
    fresh = outcome_of(text)
    assert kept.design is not None
    assert to_data(kept.design) == to_data(fresh.design)
    assert kept.workings.keys() == fresh.workings.keys()
    assert [w.value for w in kept.workings.values()] == [w.value for w in fresh.workings.values()]


def test_plants_leave_the_water_alone() -> None:
    """Changing a plant where nothing is left to choose does not solve the zone again."""
    stages = Stages()
    design_of(FIXED, stages)
    before = stages.ran.count("water")
    design_of(FIXED.replace("canna-dwarf", "angelonia"), stages)
    assert stages.ran.count("water") == before == 1
    assert stages.ran.count("demand") == 2


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_same_plan_runs_nothing(name: str) -> None:
    """Worked out again, a plan runs no stage and gives the same design."""
    stages = Stages()
    first = design_of(text_of(name), stages)
    ran = list(stages.ran)
    assert len(ran) == len(set(ran)) > 4
    assert design_of(text_of(name), stages) == first
    assert stages.ran == ran


def test_going_back_is_free() -> None:
    """An edit taken back finds the old answers kept."""
    stages = Stages()
    first = design_of(FIXED, stages)
    design_of(FIXED.replace("60 psi", "70 psi"), stages)
    ran = len(stages.ran)
    assert design_of(FIXED, stages) == first
    assert len(stages.ran) == ran
