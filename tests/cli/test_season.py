"""`brimful season`: what it prints, and what it says where there is no season."""

import json
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from brimful.cli import brimful
from brimful.design.season.model import SeasonWorked
from brimful.render.as_json import schema
from brimful.services import example

WARM = 'normals.tmax = "4 6 11 16 21 24 26 26 21 15 9 5 °C"'
NIGHTS = 'normals.tmin = "{0} {0} {0} {0} {0} {0} {0} {0} {0} {0} {0} {0} °C"'
SCHEMA = Path(__file__).parents[2] / "docs" / "season-schema.json"


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
def test_the_season_of_each_example(name: str) -> None:
    """Each example has a season: exit code 0, weeks, ways and survival in words."""
    result = CliRunner().invoke(brimful, ["season", str(example(name))])
    assert result.exit_code == 0, result.output
    for words in ("Weeks of", "set anew each week", "lasts if the zone stops", "Frost at the weather station"):
        assert words in " ".join(result.output.split())


def test_weeks_without_a_start_are_told_apart_from_the_design() -> None:
    """Who comes from the design reads why the first weeks have no start; the design points to the season."""
    season = " ".join(CliRunner().invoke(brimful, ["season", str(example("balcony"))]).output.split())
    assert "No start: the mix, soaked on planting day, and rain carry the plants that week." in season
    assert "set once in spring and left" in season
    design = " ".join(CliRunner().invoke(brimful, ["design", str(example("balcony"))]).output.split())
    assert "`brimful season` sets the timer week by week" in design
    assert "unnamed place" not in design


def test_cost_has_a_column_where_water_has_a_price(tmp_path: Path) -> None:
    """A column that would be empty is left out."""
    plan = tmp_path / "p.toml"
    plan.write_text(example("balcony").read_text(encoding="utf-8"), encoding="utf-8")
    free = CliRunner().invoke(brimful, ["season", str(plan)]).output
    assert "thirst met" in free
    assert "cost" not in free
    priced = plan.read_text(encoding="utf-8") + '\n[water]\nprice = 2\nper = "1000 L"\n'
    plan.write_text(priced, encoding="utf-8")
    assert "cost" in CliRunner().invoke(brimful, ["season", str(plan)]).output


@pytest.mark.parametrize("command", ["season", "today", "report"])
def test_no_weather_is_said_once(tmp_path: Path, command: str) -> None:
    """What stops the season is not warned of as well, and stands first."""
    plan = tmp_path / "p.toml"
    plan.write_text('[[containers]]\nname = "a"\ncontainer = "round-concrete-31x25"\n')
    said = CliRunner().invoke(brimful, [command, str(plan)]).output
    assert said.count("no weather was given") == 1
    assert "error" in said.splitlines()[0]
    assert said.splitlines()[-1] == "Mend these first, then run this again."


def test_json_keeps_to_its_schema() -> None:
    """The JSON is valid by the committed schema, and the schema is the code's own."""
    result = CliRunner().invoke(brimful, ["season", str(example("balcony")), "--json"])
    kept = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.validate(json.loads(result.stdout), kept)
    assert kept == schema(SeasonWorked)


def test_out_writes_the_same_season_as_files(tmp_path: Path) -> None:
    """--out writes season.json and season.txt; a file in the folder's place is told in one sentence."""
    runner = CliRunner()
    result = runner.invoke(brimful, ["season", str(example("balcony")), "--json", "--out", str(tmp_path / "s")])
    assert json.loads((tmp_path / "s" / "season.json").read_text(encoding="utf-8")) == json.loads(result.stdout)
    assert "Weeks of zone 1" in (tmp_path / "s" / "season.txt").read_text(encoding="utf-8")
    (tmp_path / "file").write_text("", encoding="utf-8")
    blocked = runner.invoke(brimful, ["season", str(example("balcony")), "--out", str(tmp_path / "file")])
    assert blocked.exit_code == 1
    assert "cannot be written" in blocked.stderr


def test_units_change_words_and_no_figure() -> None:
    """The same litres, shown in gallons or litres."""
    runner = CliRunner()
    both = [
        json.loads(
            runner.invoke(brimful, ["season", str(example("alder_point_landing")), "--json", "--units", units]).stdout
        )
        for units in ("US", "metric")
    ]
    assert both[0]["zones"][0]["weeks"] == both[1]["zones"][0]["weeks"]


@pytest.mark.parametrize(
    ("site", "says"),
    [
        ("", "no weather was given"),
        ('latitude = 48\nnormals.tmax = "1 2 3 °C"\nnormals.tmin = "1 2 3 °C"', "twelve values were expected"),
        (f"{WARM}\n{NIGHTS.format(0)}", "latitude"),
        (f"latitude = 48\n{WARM}\n{NIGHTS.format(9)}", "below maximum"),
        ('weather = "none.csv"\nlatitude = 48', "none.csv"),
    ],
)  # fmt: skip
def test_without_usable_weather_there_is_a_finding(tmp_path: Path, site: str, says: str) -> None:
    """No weather, three months, no latitude, nights warmer than days, no file: one clear finding, exit code 1."""
    plan = tmp_path / "p.toml"
    plan.write_text(
        f'[site]\n{site}\n[supply]\npressure = "3 bar"\n[[containers]]\nname = "a"\n'
        'container = "round-concrete-31x25"\n'
    )
    result = CliRunner().invoke(brimful, ["season", str(plan)])
    assert result.exit_code == 1
    assert says in result.output
    assert "Traceback" not in result.output


def test_a_season_that_cannot_be_says_which_limit_binds(tmp_path: Path) -> None:
    """A timer of one short window on one day: the weeks that fail are named with what binds."""
    text = example("balcony").read_text(encoding="utf-8")
    plan = tmp_path / "p.toml"
    plan.write_text(text + '\n[timer]\nhours = ["6:00 to 6:05"]\ndays = ["Monday"]\n', encoding="utf-8")
    result = CliRunner().invoke(brimful, ["season", str(plan)])
    assert result.exit_code == 0
    assert "no setting keeps every container" in " ".join(result.output.split())


@pytest.mark.parametrize("latitude", ["78 N", "34 S"])
def test_far_north_and_south_of_the_equator(tmp_path: Path, latitude: str) -> None:
    """Polar summers and southern seasons give a season."""
    text = example("balcony").read_text(encoding="utf-8").replace("latitude = 48.2", f'latitude = "{latitude}"')
    if latitude.endswith("S"):
        text = text.replace('"4 6 11 16 21 24 26 26 21 15 9 5 °C"', '"26 26 21 15 9 5 4 6 11 16 21 24 °C"')
        text = text.replace('"-1 0 3 7 11 15 16 16 12 8 3 0 °C"', '"16 16 12 8 3 0 -1 0 3 7 11 15 °C"')
    plan = tmp_path / "p.toml"
    plan.write_text(text, encoding="utf-8")
    result = CliRunner().invoke(brimful, ["season", str(plan)])
    assert result.exit_code == 0, result.output


def test_brackets_in_names_stay_words(tmp_path: Path) -> None:
    """A row called "[red]rail[/red]" is printed as it is written."""
    plan = tmp_path / "p.toml"
    text = example("balcony").read_text(encoding="utf-8").replace('name = "rail"', 'name = "[red]rail[/red]"')
    plan.write_text(text, encoding="utf-8")
    assert "[red]rail[/red]" in CliRunner().invoke(brimful, ["season", str(plan)]).output


@pytest.mark.parametrize(
    ("shade", "says"),
    [
        ('kind = "tree"\nheight = "4 m"', "at and width"),
        ('kind = "tree"\nheight = "2 m"\nat = ["0 m", "3 m"]\nwidth = "3 m"\nclear = "2 m"', "not below height"),
        ('kind = "wall"\nheight = "2 m"\nstart = ["1 m", "1 m"]\nend = ["1 m", "1 m"]', "one point"),
        ('kind = "building"\nheight = "2 m"\ncorners = [["0 m", "0 m"], ["0 m", "0 m"], ["1 m", "0 m"]]', "repeat"),
        ('kind = "gazebo"\nheight = "2 m"', "gazebo"),
    ],
)  # fmt: skip
def test_a_shade_that_cannot_stand_is_a_finding(tmp_path: Path, shade: str, says: str) -> None:
    """A tree without place, branches above its top, a wall of no length, a flat house, an unknown kind: told."""
    plan = tmp_path / "p.toml"
    plan.write_text(example("balcony").read_text(encoding="utf-8") + f"\n[[shade]]\n{shade}\n", encoding="utf-8")
    result = CliRunner().invoke(brimful, ["season", str(plan)])
    assert result.exit_code == 1
    assert says in " ".join(result.output.split())


def test_a_row_inside_what_shades_it_is_warned_of(tmp_path: Path) -> None:
    """Containers within a building's corners see no sky: a warning asks where they stand."""
    corners = '[["-2 m", "-2 m"], ["5 m", "-2 m"], ["5 m", "3 m"], ["-2 m", "3 m"]]'
    house = f'kind = "building"\nheight = "9 m"\ncorners = {corners}'
    plan = tmp_path / "p.toml"
    plan.write_text(f"{example('balcony').read_text(encoding='utf-8')}\n[[shade]]\n{house}\n", encoding="utf-8")
    said = " ".join(CliRunner().invoke(brimful, ["season", str(plan)]).output.split())
    assert "of the sky" in said
    assert "stands inside what shades it" in said
