"""Tests a person makes at a container: minutes each takes, and what it shows under each cause.

All chances and minutes are common practice, no source; the catch, weight and feel rows allow for clumsy hands.
"""

import numpy as np

from brimful.domains.learning.faults import CAUSE_KEYS
from brimful.domains.learning.inputs import FloatArray
from brimful.records import record


@record
class FieldTest:
    """One test, and the chance of each outcome: by cause where it differs, else as usual."""

    key: str
    minutes: float
    outcomes: tuple[str, ...]
    usual: tuple[float, ...]
    by_cause: tuple[tuple[str, tuple[float, ...]], ...]

    def table(self) -> FloatArray:
        """Chance of each outcome under each cause, (outcomes, causes)."""
        special = dict(self.by_cause)
        return np.array([special.get(key, self.usual) for key in CAUSE_KEYS]).T


_PLUGGED, _LEAK, _CLOSED, _SUN, _SHADE, _CANOPY, _DRAIN = CAUSE_KEYS[1:]

FIELD_TESTS: tuple[FieldTest, ...] = (
    FieldTest(
        "catch test at this container and a sibling",
        12.0,
        ("next to nothing", "less", "alike"),
        (0.01, 0.07, 0.92),
        ((_PLUGGED, (0.10, 0.85, 0.05)), (_LEAK, (0.35, 0.58, 0.07)), (_CLOSED, (0.94, 0.05, 0.01))),
    ),
    FieldTest(
        "walk the feeder while the zone runs",
        4.0,
        ("wet ground or spray", "kink or shut valve", "sound"),
        (0.03, 0.01, 0.96),
        ((_LEAK, (0.90, 0.01, 0.09)), (_CLOSED, (0.02, 0.80, 0.18))),
    ),
    FieldTest(
        "look at each emitter while the zone runs",
        6.0,
        ("none drips", "some do not drip", "all drip"),
        (0.01, 0.06, 0.93),
        ((_PLUGGED, (0.08, 0.80, 0.12)), (_LEAK, (0.40, 0.35, 0.25)), (_CLOSED, (0.93, 0.06, 0.01))),
    ),
    FieldTest(
        "look at the drain after a run",
        5.0,
        ("runs", "dry, mix wet", "dry, mix dry"),
        (0.70, 0.05, 0.25),
        (
            (_PLUGGED, (0.10, 0.05, 0.85)),
            (_LEAK, (0.10, 0.05, 0.85)),
            (_CLOSED, (0.02, 0.03, 0.95)),
            (_SUN, (0.35, 0.05, 0.60)),
            (_CANOPY, (0.35, 0.05, 0.60)),
            (_DRAIN, (0.05, 0.90, 0.05)),
        ),
    ),
    FieldTest(
        "compare sun at 9, 12 and 15 o'clock with the plan",
        9.0,
        ("more sun", "as drawn", "more shade"),
        (0.05, 0.90, 0.05),
        ((_SUN, (0.90, 0.09, 0.01)), (_SHADE, (0.01, 0.09, 0.90))),
    ),
    FieldTest(
        "compare the plants with the siblings'",
        2.0,
        ("larger", "alike", "smaller"),
        (0.08, 0.80, 0.12),
        ((_CANOPY, (0.80, 0.18, 0.02)), (_SUN, (0.15, 0.75, 0.10))),
    ),
    FieldTest(
        "feel again in two other places",
        1.0,
        ("as before", "otherwise"),
        (0.85, 0.15),
        ((CAUSE_KEYS[0], (0.30, 0.70)),),
    ),
    FieldTest(
        "tip or weigh beside a sibling",
        6.0,
        ("lighter", "alike", "heavier"),
        (0.75, 0.22, 0.03),
        ((CAUSE_KEYS[0], (0.10, 0.80, 0.10)), (_SHADE, (0.05, 0.45, 0.50)), (_DRAIN, (0.02, 0.13, 0.85))),
    ),
)
