"""The plans that are served: files, and folders in which new ones show up by themselves."""

import threading
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import Executor
from pathlib import Path

from brimful.web.bench import Bench


class Rack(Mapping[str, Bench]):
    """The benches of all plans by name, each made when it is first asked for; safe to use from any thread."""

    def __init__(self, places: Sequence[Path], crew: Executor) -> None:
        self._places, self._crew = tuple(places), crew
        self._made: dict[str, Bench] = {}
        self._lock = threading.Lock()

    def __getitem__(self, name: str) -> Bench:
        """The bench of a plan; KeyError where there is none of that name now."""
        path = self._paths()[name]
        with self._lock:
            if name not in self._made:
                self._made[name] = Bench(path, self._crew)
            return self._made[name]

    def __iter__(self) -> Iterator[str]:
        """The names of the plans there are now."""
        return iter(self._paths())

    def __len__(self) -> int:
        """How many plans there are now."""
        return len(self._paths())

    @property
    def folder(self) -> Path | None:
        """The folder that is served, in which a new plan may stand; None where only files are."""
        return next((place for place in self._places if place.is_dir()), None)

    def call_off(self) -> None:
        """Stop the longer work of all plans."""
        with self._lock:
            for bench in self._made.values():
                bench.call_off()

    def _paths(self) -> dict[str, Path]:
        return {path.stem: path for place in self._places for path in plans_at(place)}


def plans_at(place: Path) -> list[Path]:
    """The plan at a path, or the plans in a folder; what a link in a folder borrows from elsewhere is none of them."""
    if not place.is_dir():
        return [place]
    found = sorted(p for p in place.glob("*.toml") if not p.name.startswith(".") and _nameable(p))
    return [p for p in found if _stands_in(p, place)]


def _nameable(path: Path) -> bool:
    """Whether an address can carry the name: some names of other systems are no text."""
    try:
        path.name.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _stands_in(path: Path, folder: Path) -> bool:
    try:
        return path.is_file() and path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return False
