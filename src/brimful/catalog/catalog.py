"""The catalogue: every table, ours read when first asked for, the user's laid over it row by row."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from brimful.catalog.reading import TableError, TableReader
from brimful.catalog.rows import (
    TABLES,
    Colour,
    ContainerType,
    Device,
    Dripline,
    Emitter,
    Feed,
    Fitting,
    Material,
    Microclimate,
    Mix,
    Plant,
    PlantFactor,
    Price,
    RootBall,
    Row,
    Tube,
)
from brimful.catalog.table import Table
from brimful.findings import Finding, Place, Severity, did_you_mean

R = TypeVar("R", bound=Row)

PREFIX = "brimful-"
"""A file `brimful-<table>.csv` beside the plan adds rows to a table, or replaces rows that have the same key."""


class Catalog:
    """All tables. A table is read when first asked for."""

    def __init__(self, users_rows: Mapping[str, Mapping[str, Row]] | None = None) -> None:
        self._users_rows = users_rows or {}
        self._tables: dict[str, Table[Any]] = {}

    def table(self, row_class: type[R]) -> Table[R]:
        """The table of a row class."""
        name = row_class.table
        if name not in self._tables:
            rows = {**_our_rows(row_class), **self._users_rows.get(name, {})}
            self._tables[name] = Table(name, rows)
        return self._tables[name]

    def find(self, table: str, key: str) -> Row | tuple[str, ...]:
        """A row by table and key or name; otherwise the nearest keys, best first."""
        return self.table(TABLES[table]).find(key)

    @property
    def containers(self) -> Table[ContainerType]:
        """Containers one can buy."""
        return self.table(ContainerType)

    @property
    def colours(self) -> Table[Colour]:
        """Colour words of flowers and leaves, as screen colours."""
        return self.table(Colour)

    @property
    def materials(self) -> Table[Material]:
        """What containers are made of."""
        return self.table(Material)

    @property
    def mixes(self) -> Table[Mix]:
        """Potting mixes."""
        return self.table(Mix)

    @property
    def tubing(self) -> Table[Tube]:
        """Mains, laterals and feeders."""
        return self.table(Tube)

    @property
    def emitters(self) -> Table[Emitter]:
        """Single emitters."""
        return self.table(Emitter)

    @property
    def driplines(self) -> Table[Dripline]:
        """Tube with emitters built in."""
        return self.table(Dripline)

    @property
    def fittings(self) -> Table[Fitting]:
        """Fittings and their loss."""
        return self.table(Fitting)

    @property
    def devices(self) -> Table[Device]:
        """What stands between tap and main."""
        return self.table(Device)

    @property
    def plants(self) -> Table[Plant]:
        """Plants, by key, common or botanical name."""
        return self.table(Plant)

    @property
    def root_balls(self) -> Table[RootBall]:
        """Trade sizes of plants."""
        return self.table(RootBall)

    @property
    def plant_factors(self) -> Table[PlantFactor]:
        """Water use by class of plant."""
        return self.table(PlantFactor)

    @property
    def microclimates(self) -> Table[Microclimate]:
        """Water use by where plants stand."""
        return self.table(Microclimate)

    @property
    def prices(self) -> Table[Price]:
        """What things cost."""
        return self.table(Price)

    @property
    def feeds(self) -> Table[Feed]:
        """Soluble and coated feed, by label."""
        return self.table(Feed)


def load(beside: Path | None = None) -> Catalog:
    """The catalogue, with the user's own tables from the folder of the plan laid over it.

    Args:
        beside: the folder that holds the plan; None for our tables alone.

    Raises:
        TableError: the user's tables have problems; all of them are told at once.
    """
    users_rows: dict[str, dict[str, Row]] = {}
    problems: list[Finding] = []
    for path in sorted(beside.glob(f"{PREFIX}*.csv")) if beside else ():
        name = path.stem.removeprefix(PREFIX)
        if name not in TABLES:
            problems.append(_unknown_table(path, name))
            continue
        reader = TableReader(TABLES[name], str(path))
        users_rows[name] = {row.key: row for row in reader.read(path)}
        problems.extend(reader.problems)
    catalog = Catalog(users_rows)
    problems.extend(_unknown_materials(catalog, users_rows.get("containers", {}), beside))
    if problems:
        raise TableError(tuple(problems))
    return catalog


def _our_rows(row_class: type[R]) -> dict[str, R]:
    path = Path(__file__).parent / "tables" / f"{row_class.table}.csv"
    reader = TableReader(row_class, path.name)
    rows = {row.key: row for row in reader.read(path) if isinstance(row, row_class)}
    if reader.problems:
        raise TableError(tuple(reader.problems))
    return rows


def _unknown_table(path: Path, name: str) -> Finding:
    message = f'there is no table "{name}"; expected one of {", ".join(TABLES)}'
    remedy = (
        did_you_mean(name, list(TABLES))
        or f"Rename the file if it is no table of Brimful's: {PREFIX}… is kept for them."
    )
    return Finding("catalog-table", Severity.ERROR, message, remedy, Place(str(path)))


def _unknown_materials(catalog: Catalog, containers: Mapping[str, Row], beside: Path | None) -> list[Finding]:
    place = Place(str((beside or Path()) / f"{PREFIX}containers.csv"), field="material")
    return [
        Finding(
            "catalog-table",
            Severity.ERROR,
            f'{row.key}: material "{row.material}" is unknown; expected one of {", ".join(catalog.materials)}',
            did_you_mean(row.material, list(catalog.materials)),
            place,
        )
        for row in containers.values()
        if isinstance(row, ContainerType) and row.material not in catalog.materials
    ]
