"""A table of the catalogue: rows by key, found by key or by name, the nearest offered where there is none."""

from collections.abc import Iterator, Mapping
from typing import Generic, TypeVar

from brimful.catalog.rows import Row
from brimful.findings import nearest

R = TypeVar("R", bound=Row)


class Table(Mapping[str, R], Generic[R]):
    """Rows by key. `find` also takes a name and offers the nearest keys where there is none."""

    def __init__(self, name: str, rows: Mapping[str, R]) -> None:
        self.name = name
        self._rows = dict(rows)

    def __getitem__(self, key: str) -> R:
        return self._rows[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def find(self, word: str) -> R | tuple[str, ...]:
        """The row with this key, or the only one with this name; otherwise the nearest keys, best first."""
        if word in self._rows:
            return self._rows[word]
        wanted = _plain(word)
        exact = self._called(wanted)
        return self._rows[exact[0]] if len(exact) == 1 else exact or self._near(wanted)

    def _called(self, wanted: str) -> tuple[str, ...]:
        """Keys of the rows with exactly this name or key, capitals and hyphens aside."""
        return tuple(k for k, row in self._rows.items() if wanted in {_plain(k), *map(_plain, row.names)})

    def _near(self, wanted: str, most: int = 3) -> tuple[str, ...]:
        """Keys of the rows that have the word in a name, then of those spelled most like it."""
        called = {_plain(name): key for key, row in self._rows.items() for name in (*row.names, key)}
        within = [key for name, key in called.items() if wanted and f" {wanted} " in f" {name} "]
        alike = [called[name] for name in nearest(wanted, list(called), most)]
        return tuple(dict.fromkeys((*within, *alike)))[:most]


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())
