"""The row at the head of every page: each container a link, drawn in proportion, with what it says through the lens."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from markupsafe import Markup

from brimful.design.growing import WEEKS
from brimful.records import record
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.render.drawings.strip_symbols import box, scale_px_m, symbol
from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Mark

UNNAMED = "stand-unnamed"
"""The name of a symbol until the page gives it one."""
MOST_KEPT = 64
ROOM_PX, LEAST_PX = 1160, 52
"""What the widest page leaves for a row, and what one container takes at least, as brimful.css has it."""
_drawn: dict[str, str] = {}


@record
class Standing:
    """One container in the row."""

    name: str
    number: int
    mark: Mark
    chosen: bool


@record
class StripRow:
    """Equal containers in one line: the symbol that draws each, its size on the page [px], and who stands in it.

    A row too long for the page is several of these, `part` of it each.
    """

    name: str
    zone: str
    symbol: str
    width: float
    height: float
    standing: tuple[Standing, ...]
    part: bool = False

    @property
    def told(self) -> str:
        """The row by name; a part of it with the numbers that stand there."""
        return f"{self.name}, {self.standing[0].number} to {self.standing[-1].number}" if self.part else self.name


@record
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
    rows: list[StripRow] = []
    named: dict[str, str] = {}
    for row in scene.rows:
        drawn = _symbol(scene, row, week, per_m)
        name = named.setdefault(drawn, f"stand-{len(named) + 1}")
        standing = tuple(
            Standing(name, n, marks.get(name, Mark("")), name == asked.container)
            for n, name in enumerate(row.spec.ids, 1)
        )
        size = box(row, week, per_m)
        parts = lines_of(standing, size[0])
        rows += [StripRow(row.spec.name, row.worked.zone, name, *size, part, len(parts) > 1) for part in parts]
    symbols = (drawn.replace(f'"{UNNAMED}"', f'"{name}"', 1) for drawn, name in named.items())
    return Strip(Markup("".join(symbols)), tuple(rows))


def lines_of(standing: Sequence[Standing], width_px: float) -> list[tuple[Standing, ...]]:
    """A row in as few lines as the page has room for, none more than one longer than another."""
    most = int(ROOM_PX // max(width_px, LEAST_PX))
    lines = -(-len(standing) // max(1, most))
    ends = [round(i * len(standing) / lines) for i in range(lines + 1)]
    return [tuple(standing[a:b]) for a, b in pairwise(ends)]


def _symbol(scene: Scene, row: RowSeen, week: int, per_m: float) -> str:
    """A container's drawing without its name; what was drawn once is not drawn again for a row that looks alike."""
    month = scene.month_of_week(week)
    plants = [(p.x_m, p.y_m, p.leaf, p.flower, p.taxon.key, p.stands[week]) for p in row.plants]
    key = repr((plants, row.spec.vessel, row.spec.headspace_m, week, month, per_m))
    found = _drawn.get(key)
    if found is None:
        found = symbol(scene, row, UNNAMED, week=week, per_m=per_m)
        if len(_drawn) >= MOST_KEPT:
            _drawn.clear()
        _drawn[key] = found
    return found
