"""`brimful shop`, `work` and `feed`: pages, JSON, files; bad plans are told with exit code 1, never a traceback."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.cli.test_commands import run
from tests.contracts.units import bears_its_unit
from tests.design.plans import EXAMPLES, FIXED

from brimful.design.care.model import Care
from brimful.render.as_json import schema
from brimful.services import example

FILE = Path(__file__).parents[2] / "docs" / "care-schema.json"
PARTS = ("shop", "work", "feed")
ENDINGS = ("min", "h", "hours", "g", "g_l", "ppm", "kg_m2", "kpa", "ms_cm", "days", "amount", "m_m", "oz_100gal")
ENDINGS += ("oz_gal", "tsp_gal", "ratio", "minutes_each", "minutes_total", "people")
PLAIN = {"lift_index", "index_from_ground", "index_from_bench", "times_heavier", "tipping_safety", "even_counts"}


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("part", PARTS)
def test_examples_are_shown_and_fit_the_schema(name: str, part: str) -> None:
    """Each page begins with the sentence; its JSON is valid against the schema; both exit codes agree."""
    page, data = run(part, example(name)), run(part, example(name), "--json")
    assert page.exit_code == data.exit_code == 0
    assert "Assumed here, because the plan does not say" in page.stdout
    Draft202012Validator(schema(Care)).validate(json.loads(data.stdout))


def test_a_caution_stands_whole_once_and_is_named_after_that() -> None:
    """Each caution's own words are read once, right at the first step they belong to; later steps point to them."""
    words = " ".join(run("work", example("alder_point_landing")).stdout.split())
    lifting = "Keep fingers and feet out from under the base"
    assert words.count(lifting) == 1
    assert words.index("Set and level the empty container") < words.index(lifting)
    assert words.index(lifting) < words.index("Mind, as said above: lifting")


def test_every_zone_and_row_is_fed(tmp_path: Path) -> None:
    """The sentence names the tank of each zone and the coated feed of each row, not those of the first alone."""
    words = " ".join(run("feed", example("courthouse_square")).stdout.split("To mind")[0].split())
    assert all(said in words for said in ("zone steps", "zone flagpole", " in steps", " in flagpole"))
    plan = tmp_path / "p.toml"
    plan.write_text(example("balcony").read_text(encoding="utf-8"), encoding="utf-8")
    metric = run("feed", plan).stdout
    assert "g/L" in metric
    assert "oz" not in metric
    assert "in 100 parts of finished solution" in metric


def test_feeding_lists_what_was_assumed_of_feeding() -> None:
    """Feet and drain holes are no matter of feed; the order and the work still tell them."""
    told = {part: run(part, example("balcony")).stdout.split("Assumed here")[1] for part in PARTS}
    assert "feed.ppm" in told["feed"]
    assert "set_out" not in told["feed"]
    assert "containers.set_out.hole" in told["work"]


def test_what_has_no_price_is_counted_beside_the_rest() -> None:
    """Things with a price and those without one make up the lines that are bought."""
    page, care = run("shop", example("balcony")).stdout, json.loads(run("shop", example("balcony"), "--json").stdout)
    bought = [item for item in care["order"]["items"] if item["packs_count"]]
    none = sum(item["cost_money"] is None for item in bought)
    assert none == 1
    assert f"{len(bought) - none} things to buy for about" in page
    assert "1 more has no price and is not in it" in " ".join(page.split())


def test_containers_of_two_sizes_are_two_things(tmp_path: Path) -> None:
    """Each size is its own line in design and order, with a key for its price that units do not change."""
    plan = tmp_path / "p.toml"
    small = (
        '[[containers]]\nname = "small"\ncount = 3\ncontainer = { shape = "round", top = "40 cm", height = "38 cm" }\n'
    )
    large = small.replace("small", "large").replace("3", "2", 1).replace("40 cm", "80 cm").replace("38 cm", "70 cm")
    plan.write_text(f'units = "metric"\n{small}{large}', encoding="utf-8")
    keys = []
    for units in ("metric", "US"):
        items = json.loads(run("shop", plan, "--json", "--units", units).stdout)["order"]["items"]
        both = [item for item in items if item["group"] == "containers"]
        assert [item["needed_amount"] for item in both] == [3, 2]
        assert len({item["name"] for item in both}) == 2
        keys.append([item["key"] for item in both])
    assert keys[0] == keys[1]
    to_have = json.loads(run("design", plan, "--json").stdout)["materials"]
    assert [one["count"] for one in to_have if one["what"] == "container"] == [3, 2]
    said = " ".join(run("shop", plan).stdout.split())
    assert all(f'(key "{key}")' in said for key in keys[0])
    prices = f"key,per,price,source,certainty\n{keys[0][0]},each,10,ours,read\n{keys[0][1]},each,30,ours,read\n"
    plan.with_name("brimful-prices.csv").write_text(prices, encoding="utf-8")
    items = json.loads(run("shop", plan, "--json").stdout)["order"]["items"]
    assert [item["cost_money"] for item in items if item["group"] == "containers"] == [30.0, 60.0]


def test_the_schema_is_the_published_one() -> None:
    """docs/care-schema.json is the schema of the report."""
    text = json.dumps(schema(Care), indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    assert FILE.read_text(encoding="utf-8") == text
    Draft202012Validator.check_schema(schema(Care))


def numeric_keys(of: dict[str, Any]) -> set[str]:
    """Keys that the schema lets hold a number."""
    return {
        key
        for table in of["$defs"].values()
        for key, value in table.get("properties", {}).items()
        if any(f'"type": "{kind}"' in json.dumps(value) for kind in ("number", "integer"))
    }


@pytest.mark.parametrize("key", sorted(numeric_keys(schema(Care))))
def test_every_number_carries_its_unit(key: str) -> None:
    """Each key that holds numbers ends in its unit, or names a plain number."""
    assert bears_its_unit(key) or key in PLAIN or any(key == e or key.endswith(f"_{e}") for e in ENDINGS)


@pytest.mark.parametrize("part", PARTS)
def test_files_are_written_and_stay_the_same(part: str, tmp_path: Path) -> None:
    """A second export into the same folder gives the same bytes."""
    plan = tmp_path / "p.toml"
    plan.write_text(FIXED.replace("latitude = 45", "latitude = 45\nyear = 2027"), encoding="utf-8")
    out = tmp_path / "out"
    first = run(part, plan, "--out", out)
    assert first.exit_code == 0
    files = {path.name: path.read_bytes() for path in out.iterdir()}
    assert len(files) >= 3
    run(part, plan, "--out", out)
    assert {path.name: path.read_bytes() for path in out.iterdir()} == files


@pytest.mark.parametrize("part", PARTS)
def test_a_folder_that_cannot_be(part: str, tmp_path: Path) -> None:
    """A file where the folder should be is said in one sentence."""
    (tmp_path / "p.toml").write_text(FIXED, encoding="utf-8")
    (tmp_path / "out").write_text("", encoding="utf-8")
    result = run(part, tmp_path / "p.toml", "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert "cannot be written" in result.stderr


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("[crew]\npeople = 0", "a whole number from 1 to 100 was expected"),
        ('[feed]\nlabel = "60-30-30"', "at most 100 % altogether"),
        ('[feed]\nlabel = "0-10-10"', "more than 0 % of nitrogen"),
        ('[feed]\ninjector = "1:0"', "a ratio was expected"),
        ("[feed]\nppm = -5", "more than"),
        ("currency = 5", "words on one line"),
        ('spares = { brick = "-5 %" }', "was expected"),
    ],
)
def test_impossible_words_are_findings(part: str, lines: str, words: str, tmp_path: Path) -> None:
    """What cannot be is told at its line; nothing is worked out."""
    text = FIXED + lines + "\n" if lines.startswith("[") else lines + "\n" + FIXED
    (tmp_path / "p.toml").write_text(text, encoding="utf-8")
    result = run(part, tmp_path / "p.toml")
    assert result.exit_code == 1
    assert words in result.stderr
    assert "p.toml:" in result.stderr


def test_dates_out_of_order_make_a_winter_season(tmp_path: Path) -> None:
    """A season that ends before it begins runs over the new year; one of no day is an error."""
    dates = 'latitude = 45\nplanting_day = "1 October"\nseason_end = "{}"'
    for end, code in (("1 April", 0), ("1 October", 1)):
        (tmp_path / "p.toml").write_text(FIXED.replace("latitude = 45", dates.format(end)), encoding="utf-8")
        assert run("work", tmp_path / "p.toml").exit_code == code


def test_brackets_in_names_print_as_they_are(tmp_path: Path) -> None:
    """Words in square brackets are words, not instructions to the terminal."""
    (tmp_path / "p.toml").write_text(FIXED.replace('"row"', '"[red]row"'), encoding="utf-8")
    assert "[red]row" in run("work", tmp_path / "p.toml").stdout
