"""Plans from text, worked out in memory, for tests of whole designs."""

from brimful.catalog import load
from brimful.design.model import Design
from brimful.design.stages import Outcome, Stages, work_out
from brimful.plan.read import read_text
from brimful.services import example

EXAMPLES = ("alder_point_landing", "courthouse_square", "balcony")
FOLDER = example("balcony").parent
CATALOG = load()
FIXED = """\
units = "US"
[site]
latitude = 45
[supply]
pressure = "60 psi"
bucket_tests = ["5 gal in 30 s at 40 psi"]
[tubing]
main = { tube = "pe-one-1.057", length = "40 ft", rise = "2 ft" }
lateral = "pe-three-quarter-0.818"
regulator = "25 psi"
feeder = { tube = "feeder-quarter-0.170", length = "3 ft" }
dripline = { type = "quarter-6in-0.65gph", length = "8 ft" }
[[containers]]
name = "row"
count = 4
apart = "7 ft"
approach = "3 ft"
rise = "1 ft"
headspace = "2 in"
container = { shape = "round", top = "30 in", bottom = "24 in", height = "24 in", material = "concrete", wall = "2 in" }
plants = ["1 canna-dwarf", "4 geranium-zonal"]
"""
"""A plan that leaves nothing to be chosen."""


def text_of(name: str) -> str:
    """The text of an example."""
    return example(name).read_text(encoding="utf-8")


def outcome_of(text: str, stages: Stages | None = None) -> Outcome:
    """What comes of a plan that reads well."""
    file = read_text(text, FOLDER / "plan.toml")
    assert file.plan is not None, file.findings
    return work_out(file.plan, CATALOG, file.places, folder=FOLDER, stages=stages)


def design_of(text: str, stages: Stages | None = None) -> Design:
    """The design of a plan that can be worked out."""
    outcome = outcome_of(text, stages)
    assert outcome.design is not None, outcome.findings
    return outcome.design
