"""Reading a table: text of a CSV file → rows, and every problem at once with its file and line."""

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from brimful.catalog.cells import Column, columns_of
from brimful.catalog.rows import Row
from brimful.errors import CatalogError
from brimful.findings import Finding, Place, Severity, did_you_mean

LARGEST_BYTES = 4_000_000
MOST_COLUMNS = 100
MOST_PROBLEMS = 100
SHOWN = 60  # characters of a wrong cell that a message repeats
Heading = tuple[str, Column]


class TableError(CatalogError):
    """Everything that is wrong with the tables, all at once; each problem is a Finding with file and line."""

    def __init__(self, problems: tuple[Finding, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(f"{p.where}: {p.message}{' ' if p.remedy else ''}{p.remedy}" for p in problems))


class TableReader:
    """Reads one table and gathers what is wrong with it."""

    def __init__(self, row_class: type[Row], file: str) -> None:
        self.row_class = row_class
        self.columns = columns_of(row_class)
        self.problems: list[Finding] = []
        self._file = file

    def read(self, path: Path) -> list[Row]:
        """The sound rows of a file; the rest become problems."""
        lines = csv.reader(self._text(path).splitlines(keepends=True), strict=True)
        numbered = ((lines.line_num, [cell.strip() for cell in cells]) for cells in lines)
        try:
            headings = self._headings(next(numbered, (1, []))[1])
            return [] if self.problems else list(self._rows(numbered, headings))
        except csv.Error as error:
            remedy = "Put text that holds a comma or a quote in quotes."
            self._problem(lines.line_num, f"this line is not CSV ({error})", remedy)
            return []

    def _text(self, path: Path) -> str:
        try:
            if path.stat().st_size <= LARGEST_BYTES:
                return path.read_text(encoding="utf-8-sig")
            self._problem(0, f"the file is larger than {LARGEST_BYTES // 1_000_000} MB; a table of rows was expected")
        except UnicodeDecodeError:
            self._problem(0, "the file is not UTF-8 text; a CSV table was expected", "Save it as CSV UTF-8.")
        except OSError as error:
            self._problem(0, f"the file cannot be read ({error.strerror})")
        return ""

    def _headings(self, line: list[str]) -> list[Heading]:
        if self.problems:
            return []
        if len(line) > MOST_COLUMNS:
            self._problem(1, f"{len(line)} columns are given; expected a table of at most {MOST_COLUMNS}")
            return []
        found = [self._heading(word) for word in line]
        fields = [name for name, _ in found]
        known = ", ".join(self._all_headings())
        for name, column in self.columns.items():
            if fields.count(name) > 1:
                self._problem(1, f"{column.heading} is given twice; expected one column for it")
            if column.required and name not in fields:
                self._problem(1, f"the column {column.heading} is missing", f"Columns: {known}.")
        return found

    def _heading(self, word: str) -> Heading:
        for name, column in self.columns.items():
            if word == column.heading:
                return name, column
        for name, column in self.columns.items():
            stem = f"{column.stem}_"
            if column.stem and word.startswith(stem) and (other := column.in_unit(word.removeprefix(stem))):
                return name, other
        remedy = did_you_mean(word, self._all_headings())
        self._problem(1, f'column "{word[:SHOWN]}" is unknown; expected a column of this table', remedy, field=word)
        return "", Column(word, str, required=False)

    def _all_headings(self) -> list[str]:
        return [column.heading for column in self.columns.values()]

    def _rows(self, lines: Iterator[tuple[int, list[str]]], headings: list[Heading]) -> Iterator[Row]:
        first: dict[str, int] = {}
        for number, cells in lines:
            if len(self.problems) >= MOST_PROBLEMS:
                self._problem(number, "more problems may follow; mend those above first")
                return
            if not any(cells) or cells[0].startswith("# "):
                continue
            row = self._row(cells, headings, number)
            if row is not None and row.key in first:
                self._problem(
                    number, f'key "{row.key}" is given twice, first in line {first[row.key]}; expected it once'
                )
            elif row is not None:
                first[row.key] = number
                yield row

    def _row(self, cells: list[str], headings: list[Heading], number: int) -> Row | None:
        before = len(self.problems)
        if len(cells) != len(headings):
            self._problem(number, f"{len(cells)} cells were given; expected {len(headings)}, as many as headings")
            return None
        values = {name: self._value(cell, column, number) for cell, (name, column) in zip(cells, headings, strict=True)}
        if len(self.problems) > before:
            return None
        row = self.row_class(**values)
        for fault in row.faults():
            self._problem(number, f"{row.key}: {fault}")
        return row if len(self.problems) == before else None

    def _value(self, cell: str, column: Column, number: int) -> Any:
        if not cell:
            if column.required:
                self._problem(number, f"{column.heading} is empty; expected a value", field=column.heading)
            return column.default
        try:
            return column.read(cell)
        except ValueError as error:
            message = f'{column.heading} "{cell[:SHOWN]}" was given; expected {error}'
            self._problem(number, message, field=column.heading)
            return None

    def _problem(self, line: int, message: str, remedy: str = "", field: str = "") -> None:
        where = Place(self._file, line, 0, field)
        self.problems.append(Finding("catalog-table", Severity.ERROR, message, remedy, where))
