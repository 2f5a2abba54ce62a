"""The designs of the example plans, worked out once for all tests of the documentation."""

from functools import cache

from brimful.design.model import Design
from brimful.services import example, work_out

NAMES = ("alder_point_landing", "balcony", "courthouse_square")


@cache
def design_of(name: str) -> Design:
    """The design of an example plan."""
    design = work_out(example(name)).design
    assert design is not None
    return design
