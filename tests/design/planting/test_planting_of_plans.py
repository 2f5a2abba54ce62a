"""The planting of small plans: what does not fit is told, sun is judged only where known, a palette of one colour."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from brimful.catalog import load
from brimful.design.planting.days import SiteDays
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.model import PlantingWorked
from brimful.design.planting.palette import pairs_of, palette_of, swatches_of
from brimful.design.planting.whole import planting_of
from brimful.design.settle.notes import Notes
from brimful.design.settle.planting import taxon_of
from brimful.design.stages import work_out
from brimful.plan.read import read_text

PLAN = """
units = "metric"
[site]
latitude = 48
[supply]
pressure = "3 bar"
bucket_tests = ["10 L in 75 s at 1.8 bar"]
[[containers]]
name = "tub"
container = {{ shape = "round", top = "{top}", bottom = "{top}", height = "{height}", material = "terracotta" }}
plants = ["{plants}"]
"""


def worked(plants: str, *, top: str = "60 cm", height: str = "50 cm", sun_h: float | None = None) -> PlantingWorked:
    """The planting of one container."""
    desk = desk_of(plants, top=top, height=height, sun_h=sun_h)
    return planting_of(desk, "a tub", "metric")


def desk_of(plants: str, *, top: str = "60 cm", height: str = "50 cm", sun_h: float | None = None) -> PlantingDesk:
    """The desk of a plan with one container."""
    read = read_text(PLAN.format(plants=plants, top=top, height=height), Path("plan.toml"))
    assert read.plan is not None, read.findings
    outcome = work_out(read.plan, load(), read.places, folder=Path())
    assert outcome.settled is not None, outcome.findings
    assert outcome.climate is not None
    known = {} if sun_h is None else {"tub": (sun_h,)}
    days = SiteDays(date(2026, 5, 15), date(2026, 10, 10))
    grown, notes = outcome.grown, Notes(read.places)
    return PlantingDesk(read.plan, outcome.settled, grown, outcome.climate, load(), notes, days, sun_h=known)


def codes(planting: PlantingWorked) -> set[str]:
    """The codes of what was found."""
    return {finding.code for finding in planting.findings}


def test_too_many_plants_are_still_shown() -> None:
    """Forty plants in 40 cm overlap; the layout stays there to look at."""
    assert len(worked("40 angelonia", top="40 cm").rows[0].places) == 40


def test_light_is_judged_only_where_the_sun_is_known() -> None:
    """Without shade in the plan nothing is said of light; one hour of sun is too dark for angelonia."""
    assert "light" not in codes(worked("1 angelonia"))
    assert "light" in codes(worked("1 angelonia", sun_h=1.0))


def test_every_plant_stands_within_the_rim() -> None:
    """No stem beyond the rim; as many places as plants."""
    (row,) = worked("9 angelonia").rows
    assert len(row.places) == 9
    assert all(place.to_rim_m > 0 for place in row.places)


def test_a_palette_of_one_colour_has_no_pair() -> None:
    """One colour is a palette too: a swatch, and nothing to compare it with."""
    taxon = replace(taxon_of(desk_of("1 angelonia").settled.rows[0].plants[0]), flower_colours=("white",))
    swatches = swatches_of([taxon], palette_of(load()))
    assert [swatch.colour for swatch in swatches] == ["white"]
    assert pairs_of(swatches) == ()


def test_every_colour_word_of_the_plants_has_a_screen_colour() -> None:
    """No taxon is seen for a colour that the table of colours does not know."""
    palette, catalog = palette_of(load()), load()
    known = {*palette.flowers, *palette.leaves, "none"}
    for plant in catalog.plants.values():
        assert set(plant.flower_colours) | set(plant.foliage_colour) <= known, plant.key
