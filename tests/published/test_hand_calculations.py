"""The three examples by plain arithmetic: frustum, squares counted, ET0 × K × A, q = k·hˣ, minutes (by hand).

The sums stand in tests/docs/pencil.py and use nothing of Brimful's own; docs/evidence.md shows them step by step.
"""

import pytest
from tests.docs.hand_sums import CASES, Case, steps


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.plan)
def test_sheet_agrees_with_the_program(case: Case) -> None:
    """Each step by hand is as near the program's figure as the sheet says."""
    for step in steps(case):
        assert step.program == pytest.approx(step.pencil, rel=step.tolerance), step.words
