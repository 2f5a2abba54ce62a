"""Sheets to fill by hand through the season."""

from collections.abc import Iterator

from brimful.render.book.blocks import Block, Desk, chapter, form, text
from brimful.render.words import short_day

USUAL_WEEKS = 22
FEWEST_READINGS = 8
HEAD = 40.0
USUAL_PAD, LEAST_PAD = 6.0, 3.0


def records(desk: Desk) -> Iterator[Block]:
    """Week by week, and a catch test of every container."""
    season = desk.scene.season
    weeks = (
        [short_day(week.from_day).replace(" ", "\u00a0") for week in season.zones[0].weeks]
        if season is not None and season.zones
        else [""] * USUAL_WEEKS
    )
    heads = ("week of", "timer set to", "meter", "rain", "fed", "cut or trimmed", "seen and done")
    yield chapter(
        "Record: the weeks",
        [
            text("One line a week. An empty line is no harm."),
            form(
                heads,
                [[w] + [""] * 6 for w in weeks],
                shares=(1.5, 1.4, 1.1, 1, 1, 1.6, 4.2),
                pad=_pad(desk, len(weeks)),
            ),
        ],
    )
    heads = ("date", "container", "finger: dry, moist, wet", "weight or probe", "caught", "in min", "what was seen")
    yield chapter(
        "Record: readings",
        [
            text("Push a finger two joints deep beside a root ball. Note which container it was."),
            form(heads, [[""] * 7] * _readings(desk), shares=(1.2, 2, 1.8, 1.4, 1, 0.9, 3)),
        ],
    )


def _room(desk: Desk) -> float:
    """Room down the page under heading, sentence, and head of the table [pt]."""
    return desk.style.height - HEAD - 8.5 * desk.style.size


def _readings(desk: Desk) -> int:
    """Lines that fill the page under its head."""
    return max(FEWEST_READINGS, int(_room(desk) / (1.1 * desk.style.size + 2 * USUAL_PAD)))


def _pad(desk: Desk, lines: int) -> float:
    """Room above and below each line, a little less where so the lines just fit the page [pt]."""
    fitting = (_room(desk) / max(lines, 1) - 1.1 * desk.style.size) / 2
    return fitting if LEAST_PAD <= fitting < USUAL_PAD else USUAL_PAD
