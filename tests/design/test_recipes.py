"""A recipe fitted to its container, seen from where the plan says: laws, small containers, contradictions told."""

import pytest
from tests.design.plans import outcome_of

from brimful.design.settle import RowSpec
from brimful.design.stages import Outcome

PLAN = """
[site]
latitude = 45
[recipe.step]
plants = ["1 purple-fountain-grass", "4 zonal geranium", "6 calibrachoa"]
{written}
[[containers]]
name = "door"
container = {{ shape = "round", top = "{top}", bottom = "{top}", height = "20 in", material = "fibre-cement" }}
recipe = "step"
{fields}
"""
WRITTEN = (
    'written_for = { shape = "round", top = "24 in", bottom = "24 in", height = "20 in", material = "fibre-cement" }'
)


def planned(fields: str = "", *, top: str = "24 in", written: str = WRITTEN) -> Outcome:
    """The plan of one container worked out."""
    return outcome_of(PLAN.format(fields=fields, top=top, written=written))


def row_of(outcome: Outcome) -> RowSpec:
    """Its row."""
    assert outcome.settled is not None, outcome.findings
    return outcome.settled.rows[0]


def counts(outcome: Outcome) -> dict[str, int]:
    """Plants in the container by taxon."""
    return {one.plant.key: one.count for one in row_of(outcome).plants}


def codes(outcome: Outcome) -> list[str]:
    """Codes of what was found about recipe and front."""
    return [f.code for f in outcome.findings if f.code in ("recipe-fitted", "front-contradiction", "unknown-plant")]


def test_in_its_own_container_a_recipe_is_planted_as_written() -> None:
    """The same size changes nothing and tells nothing; so does a recipe that names no container."""
    asked = {"purple-fountain-grass": 1, "geranium-zonal": 4, "calibrachoa-trailing": 6}
    for outcome in (planned(), planned(top="40 in", written="")):
        assert counts(outcome) == asked
        assert codes(outcome) == []


def test_a_small_container_loses_its_upright_first() -> None:
    """At 14 in the upright is dropped, and the note says so (common practice, no source); trailing plants stay."""
    outcome = planned(top="14 in")
    assert "purple-fountain-grass" not in counts(outcome)
    assert counts(outcome)["calibrachoa-trailing"] >= 1
    (note,) = [f for f in outcome.findings if f.code == "recipe-fitted"]
    assert "the upright is dropped" in note.message
    assert "in across" in note.message


def test_larger_containers_never_take_fewer_plants() -> None:
    """The count of all plants grows with the mouth, and what is ordered, drawn and watered is the fitted count."""
    totals = []
    for top in ("14 in", "18 in", "24 in", "30 in", "36 in"):
        outcome = planned(top=top)
        assert outcome.design is not None
        (row,) = outcome.design.rows
        assert len(row.places) == sum(plant.count for plant in row.plants) == sum(counts(outcome).values())
        totals.append(len(row.places))
    assert totals == sorted(totals)
    assert totals[0] < totals[-1]


def test_instant_takes_more_plants_and_more_water() -> None:
    """A full look at once takes 1.75 times the plants, within a layer's rounding, and is thirstier after planting."""
    grow_in, instant = planned('density = "grow-in"'), planned('density = "instant"')
    few, many = (sum(counts(one).values()) for one in (grow_in, instant))
    assert 1.5 * few <= many <= 2 * few
    assert grow_in.design is not None
    assert instant.design is not None
    canopies = [one.design.rows[0].demands[0].canopy_area_m2 for one in (grow_in, instant) if one.design]
    assert canopies[0] < canopies[1]


def test_the_front_plant_stands_at_the_front() -> None:
    """Seen from one side, the plant named stands in front of the middle, and the upright behind it."""
    outcome = planned('view = "one-sided"\nfront = "zonal geranium"\nfaces = 180')
    assert outcome.design is not None
    places = outcome.design.rows[0].places
    upright = next(p for p in places if p.role == "upright")
    assert any(p.plant == "geranium-zonal" and abs(p.x_m) < 1e-9 and p.y_m < 0 for p in places)
    assert upright.y_m > 0
    assert row_of(outcome).recipe.faces_deg == 180


@pytest.mark.parametrize(
    ("fields", "view"),
    [
        ('view = "all-round"\nfront = "zonal geranium"', "all-round"),
        ('view = "all-round"\nfaces = 90', "all-round"),
        ('view = "one-sided"\nfront = "angelonia"', "one-sided"),
    ],
)
def test_what_contradicts_itself_is_told_and_left_out(fields: str, view: str) -> None:
    """A front of what is seen all round, or of a plant that is not there, is one warning; the rest is worked out."""
    outcome = planned(fields)
    assert codes(outcome) == ["front-contradiction"]
    assert outcome.design is not None
    assert (row_of(outcome).recipe.view, row_of(outcome).recipe.front) == (view, None)


def test_a_front_alone_means_one_side() -> None:
    """Where a front is given and no view, the row is seen from one side; a word nobody knows is an error."""
    assert row_of(planned('front = "calibrachoa"')).recipe.view == "one-sided"
    assert codes(planned('front = "no such thing"')) == ["unknown-plant"]
