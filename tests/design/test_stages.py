"""Stages: an edit redoes what it touches and nothing else, and what is kept equals what is worked out anew."""

import pytest
from tests.design.plans import EXAMPLES, FIXED, design_of, outcome_of, text_of

from brimful.design.stages import Stages
from brimful.render.as_json import to_data

FOLLOW = {"choices", "chance"}
"""Choices look at all that the plan says, and are none where nothing is left open; chance follows water and needs."""
EDITS = {
    "nothing": (("title", "# title"), set[str]()),
    "a plant": (
        ('"4 geranium-zonal"', '"5 geranium-zonal"'),
        {"containers", "growth", "demand", "run times", "materials", "tube", "emitters", *FOLLOW},
    ),
    "a name of nothing": (('units = "US"', 'units = "US"\ntitle = "x"'), set[str]()),
    "the ground": (
        ('rise = "1 ft"', 'rise = "2 ft"'),
        {"containers", "growth", "demand", "water", "run times", "materials", "tube", "emitters", *FOLLOW},
    ),
    "the tap": (("60 psi", "70 psi"), {"water", "run times", "materials", *FOLLOW}),
    "the timer": (("[supply]", "[timer]\nmost_starts = 2\n[supply]"), {"run times", "materials", "choices"}),
    "the season": (
        ("latitude = 45", 'latitude = 45\nplanting_day = "1 June"'),
        {"growth", "demand", "tube", "emitters", "run times", "materials", *FOLLOW},
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
    assert len(set(ran)) > 4
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


def test_an_edit_to_one_zone_leaves_the_others_alone() -> None:
    """Of five zones only the one whose row stands otherwise is solved again, and only its row worked out again."""
    row = FIXED[FIXED.index("[[containers]]") :]
    rows = [
        row.replace("name = ", f'zone = "zone {i}"\nname = ', 1).replace('name = "', f'name = "{i} ', 1)
        for i in range(5)
    ]
    head = FIXED[: FIXED.index("[[containers]]")] + "".join(f'[[zone]]\nname = "zone {i}"\n' for i in range(5))
    stages = Stages()
    design_of(head + "\n".join(rows), stages)
    assert stages.ran.count("water") == 5
    first = len(stages.ran)
    text = head + "\n".join([*rows[:4], rows[4].replace("[[containers]]", '[[containers]]\nraised = "1 in"', 1)])
    assert to_data(design_of(text, stages)) == to_data(design_of(text))
    again = stages.ran[first:]
    assert [again.count(name) for name in ("water", "chance", "containers")] == [1, 1, 1]


def test_answers_beyond_the_most_are_let_go() -> None:
    """No more answers are kept than allowed, and what comes of it is the same."""
    stages = Stages(most=3)
    assert design_of(FIXED, stages) == design_of(FIXED)
    assert len(stages.kept) == 3
