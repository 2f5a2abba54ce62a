"""The row at the head of a page: a long one stands in several lines, each told by its numbers."""

import pytest

from brimful.web.leaf import Mark
from brimful.web.strip import ROOM_PX, Standing, StripRow, lines_of


def standing(count: int) -> tuple[Standing, ...]:
    """So many containers."""
    return tuple(Standing(f"side {n}", n, Mark(str(n)), chosen=False) for n in range(1, count + 1))


@pytest.mark.parametrize("count", [1, 2, 16, 17, 23, 40, 100])
@pytest.mark.parametrize("width_px", [20.0, 66.0, 300.0, 5000.0])
def test_lines_fit_and_are_alike(count: int, width_px: float) -> None:
    """Every container stands once, in order; no line is longer than the page where one container is not."""
    lines = lines_of(standing(count), width_px)
    assert [one for line in lines for one in line] == list(standing(count))
    lengths = {len(line) for line in lines}
    assert max(lengths) - min(lengths) <= 1
    assert max(lengths) == 1 or max(lengths) * width_px <= ROOM_PX


def test_a_part_of_a_row_tells_its_numbers() -> None:
    """A row that fits is told by its name alone."""
    whole = StripRow("side", "zone 1", "stand-1", 66.0, 80.0, standing(4))
    part = StripRow("side", "zone 1", "stand-1", 66.0, 80.0, standing(4)[2:], part=True)
    assert (whole.told, part.told) == ("side", "side, 3 to 4")
