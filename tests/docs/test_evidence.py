"""docs/evidence.md is what the code gives now: written anew in memory and compared with the file.

BRIMFUL_WRITE_DOCS=1 writes the file instead.
"""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.docs import (
    evidence_climate,
    evidence_colour,
    evidence_containers,
    evidence_hydraulics,
    evidence_season,
    hand_sums,
)
from tests.docs.evidence_row import CERTAINTIES, Row, lines

PAGE = Path(__file__).parents[2] / "docs" / "evidence.md"
TOPICS = {
    "Sun and reference evapotranspiration": evidence_climate.ROWS,
    "Containers, mixes, canopies": evidence_containers.ROWS,
    "Friction, networks, emitters": evidence_hydraulics.ROWS,
    "Watering, feeding, handling, wind": evidence_season.ROWS,
    "Colour": evidence_colour.ROWS,
}
OPENING = """\
# Evidence

What stands outside Brimful beside what Brimful gives. The column "ours" is worked out by the code each time the tests
run; a test fails where a difference grows past its tolerance (half the last printed digit, or what stands beside the
value in `tests/published/`) or where this page no longer says what the code gives. `BRIMFUL_WRITE_DOCS=1` writes
it anew.

Certainty of the published value: **read** in the source; **memory**: recalled, not checked again; **practice**: common
practice of the trade, no source; **calculated**: worked out apart from Brimful, by hand or with another program.

"""


def page() -> Iterator[str]:
    """The page, line by line."""
    yield from OPENING.splitlines()
    for topic, rows in TOPICS.items():
        yield f"## {topic}"
        yield ""
        yield from lines(rows)
        yield ""
    yield from hand_sums.page()


@pytest.mark.parametrize("row", [row for rows in TOPICS.values() for row in rows], ids=lambda row: row.what)
def test_row_holds(row: Row) -> None:
    """Ours is as near the published value as the row says, and the row says how sure that value is."""
    assert abs(row.difference()) <= row.tolerance * (1 + 1e-9)
    assert row.certainty in CERTAINTIES
    assert row.source


def test_page_says_what_the_code_gives() -> None:
    """The committed page equals the page written from the code now."""
    written = "\n".join(page()) + "\n"
    if os.environ.get("BRIMFUL_WRITE_DOCS"):
        PAGE.write_text(written, encoding="utf-8")
    assert PAGE.read_text(encoding="utf-8") == written
