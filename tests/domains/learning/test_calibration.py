"""Truth drawn from the filter's own assumptions: means are right and intervals hold, for two seasons or for twelve."""

import os

import numpy as np
import pytest
from benchmarks.calibration import CASES, PARTS, strays

WHOLE = bool(os.environ.get("BRIMFUL_TEST_ALL"))
SEASONS = 12 if WHOLE else 2


def test_the_filter_believes_rightly_of_what_is_as_it_believes() -> None:
    """Simulation-based calibration: over seasons drawn from the prior the posterior's mean is the truth's mean, and
    nine of ten truths lie in the 90 % intervals. Few seasons, and 128 guesses a cause, may stray by so much."""
    told = [strays((20_000 + seed, CASES[0])) for seed in range(SEASONS)]
    for part in PARTS:
        off, inside = np.array([one[part] for one in told]).T
        assert off.mean() == pytest.approx(0.0, abs=0.02 if WHOLE else 0.05), part
        assert inside.mean() == pytest.approx(0.90, abs=0.04 if WHOLE else 0.08), part
