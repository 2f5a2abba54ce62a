"""Scale bars, dimension lines, hatches, the north arrow: the marks that make a drawing a measure."""

import math

from brimful.quantities import Dimension, System, show
from brimful.render.drawings.svg import INK, SOFT, THIN, Sheet, text_width

FOOT_M = 0.3048
_STEPS_M = tuple(a * 10.0**b for b in (-2, -1, 0, 1, 2, 3) for a in (1, 2, 5))
_STEPS_FT = tuple(FOOT_M * v for v in (1 / 4, 1 / 2, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000))
TICK = 3.5


def length(value_m: float, system: System) -> str:
    """A length as the plan's units say it."""
    return show(value_m, Dimension.LENGTH, system)


def pitch_words(pitch_m: float, system: System) -> str:
    """How far apart containers stand, in feet where those are whole.

    >>> pitch_words(2.4384, System.US), pitch_words(2.5, System.US)
    ('8 ft', '98 1/2 in')
    """
    feet = pitch_m / FOOT_M
    whole = system is System.US and round(feet) and abs(feet - round(feet)) < 1e-6
    return f"{feet:.0f} ft" if whole else length(pitch_m, system)


def round_length_m(most_m: float, system: System) -> float:
    """The longest round length that is at most so long; the shortest of all where none is."""
    steps = _STEPS_FT if system is System.US else _STEPS_M
    return max((s for s in steps if s <= most_m), default=steps[0])


def bar_words(bar_m: float, system: System) -> str:
    """A round length in words: "5 ft", "6 in", "2 m", "20 cm"."""
    if system is System.US:
        return f"{bar_m / FOOT_M:.0f} ft" if bar_m >= FOOT_M - 1e-9 else f"{12 * bar_m / FOOT_M:.0f} in"
    return f"{bar_m:.0f} m" if bar_m >= 1 else f"{100 * bar_m:.0f} cm"


def scale_bar(sheet: Sheet, x: float, y: float, *, per_m: float, system: System, most: float = 120.0) -> None:
    """A bar in two halves, filled and open, with its length beside it."""
    bar_m = round_length_m(most / per_m, system)
    half = bar_m * per_m / 2
    sheet.add("rect", x=x, y=y - 3, width=half, height=3, fill=INK, stroke=INK, stroke_width=THIN)
    sheet.add("rect", x=x + half, y=y - 3, width=half, height=3, fill="none", stroke=INK, stroke_width=THIN)
    sheet.text(x + 2 * half + 5, y + 1, bar_words(bar_m, system), fill=SOFT, data_bar_m=f"{bar_m:.6g}")


def across(sheet: Sheet, x1: float, x2: float, y: float, words: str) -> None:
    """A dimension along x: line, ticks at both ends, words in its middle, or beside it where it is short."""
    _ends(sheet, (x1, y), (x2, y), upright=True)
    if x2 - x1 > text_width(words, sheet.size) + 8:
        sheet.halo((x1 + x2) / 2, y + sheet.size * 0.35, words, anchor="middle")
    else:
        sheet.text(x2 + 5, y + sheet.size * 0.35, words)


def upright(sheet: Sheet, x: float, y1: float, y2: float, words: str, *, left: bool = False) -> None:
    """A dimension along y, its words to the right, or to the left."""
    _ends(sheet, (x, y1), (x, y2), upright=False)
    middle = (y1 + y2) / 2 + sheet.size * 0.35
    sheet.text(x - 6 if left else x + 6, middle, words, anchor="end" if left else "start")


def _ends(sheet: Sheet, start: tuple[float, float], end: tuple[float, float], *, upright: bool) -> None:
    sheet.line(start, end, stroke=SOFT)
    for x, y in (start, end):
        off = (0.0, TICK) if upright else (TICK, 0.0)
        sheet.line((x - off[0], y - off[1]), (x + off[0], y + off[1]), stroke=SOFT)


def north_arrow(sheet: Sheet, x: float, y: float) -> None:
    """A plain arrow up the page."""
    sheet.line((x, y), (x, y - 26), stroke_width=1.2)
    sheet.polygon(((x - 4, y - 18), (x, y - 28), (x + 4, y - 18)), fill=INK)
    sheet.text(x, y + sheet.size, "N", anchor="middle")


def scattered(count: int, seed: int = 0) -> list[tuple[float, float]]:
    """Evenly strewn points in the unit square, the same each time (Halton's sequence, bases 2 and 3)."""
    return [(_halton(i + 1 + 37 * seed, 2), _halton(i + 1 + 37 * seed, 3)) for i in range(count)]


def _halton(index: int, base: int) -> float:
    share, found = 1.0, 0.0
    while index:
        share /= base
        found += share * (index % base)
        index //= base
    return found


def spiral(count: int, turn: float = 0.0) -> list[tuple[float, float]]:
    """Points spread evenly over the unit disc, as seeds in a flower head."""
    golden = math.pi * (3 - math.sqrt(5))
    return [
        (
            math.sqrt((i + 0.5) / count) * math.cos(turn + i * golden),
            math.sqrt((i + 0.5) / count) * math.sin(turn + i * golden),
        )
        for i in range(count)
    ]
