"""The schema: every field can be reached with words a person would write; what is silly is refused with a reason."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from pydantic import BaseModel

from brimful.findings import Severity
from brimful.plan import schema
from brimful.plan.read import PlanFile, read_text
from brimful.plan.schema import Plan

WHOLE = """
title = "All there is"
units = "metric"
currency = "€"

[site]
place = "the square"
latitude = "47.6 N"
longitude = "122.4 W"
elevation = "12 ft"
coastal = true
children = true
animals = true
wild_land = true
surroundings = "row-on-paving"
planting_day = "15 May"
season_end = 2027-10-20
weather = { file = "w.csv", columns = { date = "date", tmax = "high °F" }, wind_height = "10 m" }
recent_weather = { file = "r.json" }
frost_normals = "frost.csv"
year = 2027
gust = "90 km/h"

[site.normals]
tmax = "4 6 11 16 21 24 26 26 21 15 9 5 °C"
tmin = "30 31 35 40 46 52 55 55 49 42 36 31 °F"
rain = "40 38 41 50 60 70 75 70 50 45 50 45 mm"

[supply]
pressure = "62 psi"
bucket_tests = ["5 gal in 32 s at 40 psi", "19 L in 0:45"]
devices = ["screen-filter-150"]
share = "70 %"
water_temperature = "55 °F"

[timer]
step = "1 min"
most_starts = 4
longest = "2 h"
hours = ["4:00 to 9:00", "20:00 to 22:30"]
days = ["Monday", "fri"]

[tubing]
main = { tube = "pe-one-1.057", length = "45 ft", rise = "-1 ft" }
lateral = "pe-half-0.600"
regulator = "25 psi"
feeder = { tube = "feeder-quarter-0.170", length = "3 ft" }
dripline = { type = "quarter-6in-0.65gph", length = "8 ft", ring = true }

[[zone]]
name = "front"
main = "pe-one-1.057"
lateral = "pe-three-quarter-0.818"
regulator = "1.5 bar"
feeder = "feeder-quarter-0.170"
emitters = { type = "pc-1gph", count = 4 }

[recipe.heat]
plants = ["4 lantana", { plant = "zinnia", count = 2, size = "4in", colour = "red" }]
written_for = { shape = "round", top = "60 cm", height = "50 cm" }

[stock]
"quarter-6in-0.65gph" = "40 ft"

[spares]
dripline = "10 %"

[pads]
beyond = "4 in"
base = "4 in"
bedding = "1 in"
margin = "6 in"
brick = ["8 in", "4 in", "2 1/4 in"]
joint = "1/8 in"
shim = "1/4 in"
fall = 2
follow = true
reveal = "1/2 in"
datum = "mean"

[trench]
length = "40 ft"
width = "6 in"
depth = "12 in"
sleeve = "8 ft"

[gravel]
area = "200 sq ft"
depth = "2 in"

[crew]
people = 4
hours = "7 h"
equipment = { trolley = 2 }
done = ["steps:fill"]

[feed]
soluble = "20-10-20"
label = "20-10-20"
ppm = 150
every = 7
each = "2 L"
injector = "1:100"
counts = "final"
coated = "coated-5-month"
rate = "3 kg/m3"
water_ec = 0.3
ec_rise = 0.9

[season]
reliability = "95 %"
leaching = "12 %"

[water]
price = 0.004
per = "1 L"

[[shade]]
kind = "tree"
height = "30 ft"
at = ["10 ft", "-4 ft"]
width = "20 ft"
clear = "6 ft"
lets_through = "20 %"

[[shade]]
kind = "wall"
height = "3 m"
start = ["0 m", "0 m"]
end = ["9 m", "0 m"]
corners = [["0 m", "0 m"], ["1 m", "0 m"], ["1 m", "1 m"]]

[[containers]]
name = "steps"
start = ["1 m", "2 m"]
heading = 90
zone = "front"
count = 3
apart = "7 ft"
leaves_main_at = "10 ft"
approach = "0 m"
levels = ["0 m", "-0.1 m", "0.2 m"]
raised = "4 in"
headspace = "1 1/2 in"
mix = "peat-perlite"
recipe = "heat"
density = "instant"
view = "one-sided"
front = "lantana"
faces = "180 deg"
surroundings = "sheltered"
dripline = { type = "quarter-6in-0.5gph-pc", loops = 2 }
[containers.set_out]
marks = "20 ft"
gap = "1 ft"
passage = "3 ft"
overhang = "2 in"
turn = 45
obstacles = [{ name = "door", starts = "5 ft", ends = "8 ft" }]
feet = "2 in"
channel = "1 in"
hole = "1 1/2 in"
[containers.container]
shape = "urn"
top = "31 in"
bottom = "26 in"
top_width = "31 in"
bottom_width = "26 in"
height = "25 in"
diameters = [["0 in", "12 in"], ["25 in", "31 in"]]
material = "concrete"
wall = "2 in"
base = "2 1/2 in"
weight = "200 lb"
reservoir = "3 in"

[[containers]]
name = "lone"
rise = "1 ft"
rise_last = "2 ft"
plants = ["1 canna"]
container = "round-concrete-31x25"
emitters = "pc-1gph"
"""

POT = '[[containers]]\nname = "a"\ncontainer = "round-concrete-31x25"\n'


def read(text: str) -> PlanFile:
    """A plan from text, as if it stood in plan.toml."""
    return read_text(text, Path("plan.toml"))


def plan_of(text: str) -> Plan:
    """The plan of a text that has nothing wrong."""
    file = read(text)
    assert file.plan is not None, file.findings
    return file.plan


def only(text: str) -> tuple[str, str]:
    """Message and remedy of the one finding of a text."""
    (finding,) = read(text).findings
    assert finding.severity is Severity.ERROR
    return finding.message, finding.remedy


def tables() -> list[type[BaseModel]]:
    """Every table class of the schema."""
    return [one for one in vars(schema).values() if isinstance(one, type) and issubclass(one, schema.Table)]


def set_fields(value: Any) -> set[tuple[str, str]]:
    """Every (table, field) that a read plan holds a value in that is not the default."""
    if isinstance(value, BaseModel):
        here = {
            (cls.__name__, key)
            for key, field in type(value).model_fields.items()
            for cls in type(value).__mro__
            if key in getattr(cls, "__annotations__", {}) and getattr(value, key) != field.default
        }
        return here.union(*(set_fields(getattr(value, key)) for key in type(value).model_fields))
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, tuple) else ()
    return set[tuple[str, str]]().union(*map(set_fields, inner))


def test_every_field_can_be_written() -> None:
    """One plan in a person's words reaches every field of every table."""
    known = {(cls.__name__, key) for cls in tables() for key in cls.__annotations__ if key in cls.model_fields}
    assert known - set_fields(plan_of(WHOLE)) == set()


def test_values_arrive() -> None:
    """What was written stands in the plan, in SI."""
    plan = plan_of(WHOLE)
    steps = plan.containers[0]
    assert plan.site.longitude == pytest.approx(-122.4)
    assert plan.site.weather is not None
    assert plan.site.weather.columns == (("date", "date"), ("tmax", "high °F"))
    assert steps.container.diameters[1] == pytest.approx((25 * 0.0254, 31 * 0.0254))
    assert steps.dripline is not None
    assert (steps.dripline.loops, steps.count, steps.levels[1]) == (2, 3, -0.1)
    assert [entry.count for entry in plan.recipe["heat"].plants] == [4, 2]


def test_a_lone_word_is_a_table() -> None:
    """A weather file, a tube, a container may be given by its name alone."""
    zone = '[[zone]]\nname = "z"\nmain = "pe-one-1.057"\nfeeder = "f"\nemitters = "pc-1gph"\n'
    plan = plan_of('site.weather = "w.csv"\n' + zone + POT + 'dripline = "d"\n')
    assert plan.site.weather is not None
    assert plan.site.weather.file == "w.csv"
    assert plan.zone[0].main is not None
    assert plan.zone[0].main.tube == "pe-one-1.057"
    assert plan.containers[0].container.type == "round-concrete-31x25"
    assert plan.containers[0].dripline is not None
    assert plan.containers[0].dripline.type == "d"


def written(value: Any, data: Any) -> Iterator[tuple[type[BaseModel], dict[str, Any]]]:
    """Each table of a read plan with the part of the document it was read from, where it was written out."""
    if isinstance(value, BaseModel) and isinstance(data, dict):
        yield type(value), data
        for key in data:
            yield from written(getattr(value, key, None), data[key])
    elif isinstance(value, dict):
        for key in value:
            yield from written(value[key], data[key])
    elif isinstance(value, tuple) and isinstance(data, list):
        for one, part in zip(value, data, strict=True):
            yield from written(one, part)


@pytest.mark.parametrize("table", [one for one in tables() if one.model_fields], ids=lambda one: one.__name__)
def test_an_unknown_key_offers_the_nearest(table: type[BaseModel]) -> None:
    """In each table a key with one letter too many is an error that names the right key."""
    doc = tomllib.loads(WHOLE)
    spots = [data for kind, data in written(plan_of(WHOLE), doc) if issubclass(kind, table)]
    wrong = max(table.model_fields, key=len) + "x"
    spots[0][wrong] = 1
    message, remedy = only(tomlkit.dumps(doc))
    assert message == f'unknown key "{wrong}"'
    assert f'"{wrong[:-1]}"' in remedy


def test_an_unknown_key_like_nothing_known() -> None:
    """Where nothing is near, all that is known is listed."""
    message, remedy = only(POT + "[timer]\nzzz = 1\n")
    assert message == 'unknown key "zzz"'
    assert remedy.startswith("Known here: step, most_starts, longest")


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ('dripline = { length = "8 ft", loops = 2 }', "both length and loops were given"),
        ('dripline = "quarter-6in-0.65gph"\nemitters = "pc-1gph"', "both dripline and emitters were given"),
        ('levels = ["1 m"]\nrise = "1 m"', "both levels and rise were given"),
        ('count = 2\nlevels = ["1 m"]', "1 levels were given for 2 containers"),
        ("count = 0", "a whole number from 1 to 5000"),
        ('plants = ["0 canna"]', "a whole number from 1 to 500"),
        ('plants = ["501 canna"]', "a whole number from 1 to 500"),
        ('headspace = "31 psi"', "a length was expected"),
    ],
)
def test_what_contradicts_itself(lines: str, said: str) -> None:
    """Two answers to one question, or a count that fits nothing, is one error with a reason."""
    assert said in only(POT + lines)[0]


@pytest.mark.parametrize(
    "container",
    ["{}", '{ shape = "round" }', '{ shape = "round", top = "1 m" }', '{ height = "1 m", top = "1 m" }'],
)
def test_a_container_needs_type_or_sizes(container: str) -> None:
    """A container without a type needs shape and sizes, and the error shows how."""
    message, _ = only(f'[[containers]]\nname = "a"\ncontainer = {container}\n')
    assert "a type from the catalogue, or shape, top and height, were expected" in message


def test_a_container_by_type_or_by_sizes() -> None:
    """Either way to give a container is enough."""
    sizes = '{ shape = "urn", height = "20 cm", diameters = [["0 cm", "10 cm"], ["20 cm", "40 cm"]] }'
    for container in ('"round-concrete-31x25"', '{ shape = "round", top = "1 m", height = "1 m" }', sizes):
        assert plan_of(f'[[containers]]\nname = "a"\ncontainer = {container}\n')


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[zone]]\nname = "z"\n[[zone]]\nname = "z"\n' + POT, 'two zones are called "z"'),
        (POT + POT, 'two rows are called "a"'),
        (POT + "count = 3\n" + POT.replace('"a"', '"a 3"'), '"a 3" is also the name of a container in the row of 3'),
    ],
)
def test_names_stand_for_one_thing(text: str, said: str) -> None:
    """Two zones, rows or containers of one name are an error at the second of them."""
    file = read(text)
    (finding,) = file.findings
    assert (file.plan, finding.code, finding.message) == (None, "name-twice", said)
    assert finding.where.line == [i for i, line in enumerate(text.split("\n"), 1) if line.startswith("name")][1]


def test_numbers_that_no_container_bears_are_free() -> None:
    """A row may be called by a number beyond the end of another row."""
    assert plan_of(POT + "count = 3\n" + POT.replace('"a"', '"a 4"') + POT.replace('"a"', '"a 01"'))
