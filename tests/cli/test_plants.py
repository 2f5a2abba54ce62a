"""`brimful plants` and `brimful swap`: what they print, and what they say of a bad word."""

import json
import math
import re
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from brimful.cli import brimful
from brimful.design.planting.model import PlantingWorked
from brimful.render.as_json import schema
from brimful.services import example

SCHEMA = Path(__file__).parents[2] / "docs" / "planting-schema.json"


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
def test_the_planting_of_each_example(name: str) -> None:
    """Each example is laid out, grown, coloured and ordered in words."""
    result = CliRunner().invoke(brimful, ["plants", str(example(name))])
    assert result.exit_code == 0, result.output
    for words in ("Places, from the middle", "Build order", "Leaves over the mouth", "Bloom", "Order", "Upkeep"):
        assert words in result.output


def test_places_are_told_in_one_unit_and_months_by_name() -> None:
    """Whole centimetres for the hand, as the JSON has them in metres; months as everywhere else."""
    page = CliRunner().invoke(brimful, ["plants", str(example("balcony"))]).output
    data = json.loads(CliRunner().invoke(brimful, ["plants", str(example("balcony")), "--json"]).stdout)
    places = page.split("all in cm")[1].split("Build order")[0].splitlines()
    shown = [line.split()[-3:] for line in places if line.split()[-1:] and line.split()[-1].isdigit()]
    rows = data["rows"][0]["places"]
    assert len(shown) == len(rows)
    for one, place in zip(shown, rows, strict=True):
        told = [int(figure) / 100 for figure in one]
        assert told == pytest.approx([place["x_m"], place["y_m"], place["to_rim_m"]], abs=0.00501)
    assert re.search(r"May +Jun +Jul", page)
    assert not re.search(r"\d{4}-\d\d", page.split("Bloom, share")[1].split("Colours")[0])


def test_json_keeps_to_its_schema() -> None:
    """The JSON is valid by the committed schema, and the schema is the code's own."""
    result = CliRunner().invoke(brimful, ["plants", str(example("balcony")), "--json"])
    kept = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.validate(json.loads(result.stdout), kept)
    assert kept == schema(PlantingWorked)


def test_leaves_make_up_the_mouth() -> None:
    """Covered and bare ground are the mouth, the same in every week; shares lie from 0 to 1."""
    result = CliRunner().invoke(brimful, ["plants", str(example("alder_point_landing")), "--json"])
    for row in json.loads(result.stdout)["rows"]:
        mouths = [w["gap_m2"] + w["canopy_area_m2"] - w["overhang_m2"] for w in row["cover"]]
        assert all(math.isclose(mouth, mouths[0], rel_tol=1e-9) for mouth in mouths)
        assert all(-1e-9 <= w["cover_share"] <= 1 + 1e-9 for w in row["cover"])


def test_orders_cover_every_place() -> None:
    """As many plants are needed as there are places in all containers; as many or more are ordered."""
    data = json.loads(CliRunner().invoke(brimful, ["plants", str(example("courthouse_square")), "--json"]).stdout)
    places = sum(row["containers_count"] * len(row["places"]) for row in data["rows"])
    assert sum(order["needed_count"] for order in data["orders"]) == places
    assert all(order["ordered_count"] >= order["needed_count"] for order in data["orders"])


def test_swaps_are_ranked_and_add_up() -> None:
    """Best first; each score is the sum of its parts by weight."""
    result = CliRunner().invoke(brimful, ["swap", str(example("alder_point_landing")), "geranium-zonal", "--json"])
    swaps = json.loads(result.stdout)
    assert swaps
    for swap in swaps:
        scores = [one["score"] for one in swap["substitutes"]]
        assert [round(s, 3) for s in scores] == sorted((round(s, 3) for s in scores), reverse=True)
        for one in swap["substitutes"]:
            assert math.isclose(one["score"], sum(p["score"] * p["weight"] for p in one["parts"]), abs_tol=1e-9)


def test_a_swap_in_words() -> None:
    """The table names the plant to replace."""
    result = CliRunner().invoke(brimful, ["swap", str(example("alder_point_landing")), "angelonia"])
    assert result.exit_code == 0
    assert "Instead of 3 angelonia" in result.output


@pytest.mark.parametrize(("word", "said"), [("angelonja", "Did you mean angelonia"), ("viola", "not among the plan's")])
def test_a_word_that_cannot_be_swapped(word: str, said: str) -> None:
    """An unknown plant gets the nearest offered, one that is not planted is said so; exit code 1, no traceback."""
    result = CliRunner().invoke(brimful, ["swap", str(example("alder_point_landing")), word])
    assert result.exit_code == 1
    assert said in result.output
    assert isinstance(result.exception, SystemExit)


def test_rows_planted_alike_share_a_block() -> None:
    """Two rows planted alike are shown once, with all their containers; the gate by itself."""
    result = CliRunner().invoke(brimful, ["plants", str(example("alder_point_landing"))])
    assert result.output.count("Places, from the middle") == 2
    assert "water side and road side: 24 containers, alike" in result.output
    assert "gate: 2 containers, alike" in result.output


def test_a_swap_in_both_units() -> None:
    """Water stands in litres or gallons as asked; the table begins with how it is now."""
    shown = {
        units: CliRunner()
        .invoke(brimful, ["swap", str(example("alder_point_landing")), "angelonia", "--units", units])
        .output
        for units in ("US", "metric")
    }
    assert " gal " in shown["US"]
    assert " L " in shown["metric"]
    assert all("angelonia, now" in text for text in shown.values())


def test_what_happens_when_is_told() -> None:
    """Windows, lead times and hours by week stand in words and in JSON."""
    plan = str(example("alder_point_landing"))
    text = CliRunner().invoke(brimful, ["plants", plan]).output
    for words in (
        "When to plant at best",
        "pots from cuttings",
        "Harden off",
        "Upkeep of all containers, hours a week",
    ):
        assert words in text
    data = json.loads(CliRunner().invoke(brimful, ["plants", plan, "--json"]).stdout)
    assert {one["plant"] for one in data["windows"]} == {one["plant"] for one in data["orders"]}
    assert len(data["upkeep"]) == len(data["rows"][0]["upkeep"])
