"""Reading a table: text of a CSV file → rows, and every problem at once with its file and line."""

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

from brimful.catalog.cells import Column, columns_of
from brimful.catalog.rows import Row
from brimful.errors import CatalogError
from brimful.findings import Finding, Place, Severity, did_you_mean

R = TypeVar("R", bound=Row)

LARGEST_BYTES = 4_000_000
Heading = tuple[str, Column]


class TableError(CatalogError):
    """Everything that is wrong with the tables, all at once; each problem is a Finding with file and line."""

    def __init__(self, problems: tuple[Finding, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(f"{p.where}: {p.message}{' ' if p.remedy else ''}{p.remedy}" for p in problems))


class TableReader:
    """Reads one table and gathers what is wrong with it."""

    def __init__(self, row_class: type[R], file: str) -> None:
        self.row_class = row_class
        self.file = file
        self.columns = columns_of(row_class)
        self.problems: list[Finding] = []

    def read(self, path: Path) -> list[Row]:
        """The sound rows of a file; the rest become problems."""
        text = self._text(path)
        lines = csv.reader(text.splitlines(keepends=True), strict=True)
        rows: list[Row] = []
        try:
            headings = self._headings(next(lines, []))
            if self.problems:
                return []
            rows.extend(self._rows(lines, headings))
        except csv.Error as error:
            self._problem(
                lines.line_num, f"this line is not CSV ({error})", "Put text that holds a comma or a quote in quotes."
            )
        return rows

    def _text(self, path: Path) -> str:
        try:
            if path.stat().st_size > LARGEST_BYTES:
                self._problem(
                    0, f"the file is larger than {LARGEST_BYTES // 1_000_000} MB; a table of rows was expected"
                )
                return ""
            return path.read_text(encoding="utf-8-sig")
        except UnicodeDecodeError:
            self._problem(0, "the file is not UTF-8 text; a CSV table was expected", "Save it as CSV UTF-8.")
        except OSError as error:
            self._problem(0, f"the file cannot be read ({error.strerror})")
        return ""

    def _headings(self, line: list[str]) -> list[Heading]:
        if self.problems:
            return []
        found = [self._heading(word.strip()) for word in line]
        fields = [name for name, _ in found if name]
        for name in sorted({name for name in fields if fields.count(name) > 1}):
            self._problem(1, f"{self.columns[name].heading} is given twice; expected one column for it")
        for name, column in self.columns.items():
            if column.required and name not in fields:
                self._problem(
                    1, f"the column {column.heading} is missing", f"Columns: {', '.join(self._all_headings())}."
                )
        return found

    def _heading(self, word: str) -> Heading:
        for name, column in self.columns.items():
            if word == column.heading:
                return name, column
        for name, column in self.columns.items():
            stem = f"{column.stem}_"
            if column.stem and word.startswith(stem) and (other := column.in_unit(word.removeprefix(stem))):
                return name, other
        self._problem(1, f'column "{word}" is unknown', did_you_mean(word, self._all_headings()), field=word)
        return "", Column(word, str, required=False)

    def _all_headings(self) -> list[str]:
        return [column.heading for column in self.columns.values()]

    def _rows(self, lines: "Iterator[list[str]]", headings: list[Heading]) -> Iterator[Row]:
        first_line: dict[str, int] = {}
        for cells in lines:
            number = lines.line_num  # type: ignore[attr-defined]
            if not any(cells) or cells[0].startswith("# "):
                continue
            if len(cells) != len(headings):
                self._problem(number, f"{len(cells)} cells were given; expected {len(headings)}, as many as headings")
                continue
            row = self._row(cells, headings, number)
            if row is None:
                continue
            if row.key in first_line:
                self._problem(
                    number, f'key "{row.key}" is given twice, first in line {first_line[row.key]}; expected it once'
                )
                continue
            first_line[row.key] = number
            yield row

    def _row(self, cells: list[str], headings: list[Heading], number: int) -> Row | None:
        before = len(self.problems)
        values = {}
        for cell, (name, column) in zip(cells, headings, strict=True):
            word = cell.strip()
            if word:
                try:
                    values[name] = column.read(word)
                except ValueError as error:
                    self._problem(
                        number, f'{column.heading} "{word}" was given; expected {error}', field=column.heading
                    )
            elif column.required:
                self._problem(number, f"{column.heading} is empty; expected a value", field=column.heading)
        if len(self.problems) > before:
            return None
        row = self.row_class(**values)
        for fault in row.faults():
            self._problem(number, f"{row.key}: {fault}")
        return row if len(self.problems) == before else None

    def _problem(self, line: int, message: str, remedy: str = "", field: str = "") -> None:
        where = Place(self.file, line, 0, field)
        self.problems.append(Finding("catalog-table", Severity.ERROR, message, remedy, where))
