"""The row at the head of every page: each container a link, drawn in proportion, with what it says through the lens."""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from brimful.design.growing import WEEKS
from brimful.render.drawings.strip_symbols import box, scale_px_m, symbol
from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Mark


@dataclass(frozen=True, slots=True)
class Standing:
    """One container in the row."""

    name: str
    number: int
    mark: Mark
    chosen: bool


@dataclass(frozen=True, slots=True)
class StripRow:
    """One row of equal containers: the symbol that draws each, its size on the page [px], and who stands in it."""

    name: str
    zone: str
    symbol: str
    width: float
    height: float
    standing: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """The whole run: symbols to define once, and the rows that use them."""

    symbols: Markup
    rows: tuple[StripRow, ...]


def strip_of(sight: Sight, asked: Asked, marks: Mapping[str, Mark]) -> Strip | None:
    """The run of a plan in sight, or None where there is nothing to draw."""
    scene = sight.scene
    if scene is None or not scene.rows:
        return None
    week = min(WEEKS, key=lambda w: abs(w - asked.week))
    per_m = scale_px_m(scene, WEEKS)
    rows, symbols = [], []
    for i, row in enumerate(scene.rows, 1):
        symbols.append(symbol(scene, row, f"stand-{i}", week=week, per_m=per_m))
        standing = tuple(
            Standing(name, n, marks.get(name, Mark("")), name == asked.container)
            for n, name in enumerate(row.spec.ids, 1)
        )
        rows.append(StripRow(row.spec.name, row.worked.zone, f"stand-{i}", *box(row, week, per_m), standing))
    return Strip(Markup("".join(symbols)), tuple(rows))
