"""docs/nomenclature.md against the code: every number of a design has a row there, and every row a number."""

import dataclasses
import re
from pathlib import Path
from typing import get_args, get_type_hints

from brimful.design import model
from brimful.quantities import Dimension, System, show

PAGE = Path(__file__).parents[2] / "docs" / "nomenclature.md"
ROW = re.compile(r"\| .+ \| `(\w+)` \| ([^|]+) \| ([\w, ]+) \|")
ENDINGS = {
    "m": ("_m",), "m²": ("_m2",), "L": ("_l",), "kg": ("_kg",), "L/h": ("_l_h",), "L/day": ("_l_day",), "°": ("_deg",),
    "mm/day": ("_mm_day",), "m of water": ("_m",), "m/s": ("_m_s",), "m²/s": ("_m2_s",), "%": ("_percent",),
    "min": ("minutes_per_start",), "min/day": ("minutes_per_day",), "1/day": ("_per_day_count",),
    "week": ("week",), "L/h at 1 m": ("_l_h",), "money": ("_money",),
    "1": ("count", "share", "_k", "exponent", "_mean", "rank", "_limit"),
}  # fmt: skip


def numbers_of_a_design() -> dict[str, set[str]]:
    """JSON name of each numeric field → the dataclasses that have it."""
    found: dict[str, set[str]] = {}
    for name, cls in vars(model).items():
        if isinstance(cls, type) and dataclasses.is_dataclass(cls) and cls.__module__ == model.__name__:
            hints = get_type_hints(cls)
            for one in dataclasses.fields(cls):
                hint = hints[one.name]
                if {int, float} & {hint, *get_args(hint)}:
                    found.setdefault(str(one.metadata.get("json", one.name)), set()).add(name)
    return found


def rows() -> list[tuple[str, str, str]]:
    """Name, unit and place of each row of the page's first table."""
    return ROW.findall(PAGE.read_text(encoding="utf-8"))


def test_every_number_has_a_row_and_every_row_a_number() -> None:
    """The page lists just the numeric fields of the design, each with the dataclasses that hold it."""
    page = {name: set(where.split(", ")) for name, _, where in rows()}
    assert len(page) == len(rows()), "a name stands twice"
    assert page == numbers_of_a_design()


def test_names_carry_the_unit_of_their_row() -> None:
    """A name ends as its unit says, so that a row cannot claim another unit."""
    for name, unit, _ in rows():
        assert name.endswith(ENDINGS[unit]), f"{name} is given in {unit}"


def test_units_by_system_are_those_shown() -> None:
    """Each kind of quantity is kept and shown in just the units that the second table gives."""
    table = PAGE.read_text(encoding="utf-8").split("## Units by system")[1]
    written = {c[0]: c[1:] for c in (line.strip("| ").split(" | ") for line in table.splitlines() if " | " in line)}
    sizes = [10.0**power for power in range(-5, 8)]
    for dimension in Dimension:
        shown = [
            {re.sub(r"^[\d.,/\s]+", "", show(size, dimension, system)) or "none" for size in sizes} for system in System
        ]
        inside, *by_system = written[dimension.words]
        assert inside == (dimension.unit or "none")
        assert [set(cell.split(", ")) for cell in by_system] == shown, dimension.words
