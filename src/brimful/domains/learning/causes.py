"""Which container to look at, what is likely wrong with it, and the quickest test that tells."""

from collections.abc import Sequence

import numpy as np

from brimful.domains.learning.faults import CAUSE_KEYS
from brimful.domains.learning.field_tests import FIELD_TESTS, FieldTest
from brimful.domains.learning.inputs import FloatArray
from brimful.records import record

LOOK_SHARE = 0.35
"""Chance of something wrong from which a container is named."""
_GOOD_ENOUGH = 0.6  # of what the best test tells about the leading two: a quicker one that tells so much is taken


@record
class Suspect:
    """A container that has drifted from its siblings."""

    container: int
    chance: float
    """That anything is wrong."""
    ranked: tuple[tuple[str, float], ...]
    """Causes and their chances, likeliest first."""
    test: FieldTest
    """The quickest that tells the leading two apart."""
    bits: float
    """What the test is expected to tell about all causes."""


def suspects(causes: FloatArray, *, look_share: float = LOOK_SHARE) -> tuple[Suspect, ...]:
    """Containers to look at, the surest first.

    Args:
        causes: chance of each cause, (containers, causes), as in Belief
        look_share: chance of something wrong from which a container is named [-]
    Returns: Suspects
    Valid: chances that add up to 1 for each container
    Source: own
    """
    named = [c for c in np.argsort(causes[:, 0], kind="stable").tolist() if causes[c, 0] < 1.0 - look_share]
    return tuple(suspect(causes[c], container=c) for c in named)


def suspect(chances: FloatArray, *, container: int) -> Suspect:
    """What may be wrong with one container and how to find out.

    Args:
        chances: of each cause, (causes,)
        container: its index
    Returns: Suspect
    Valid: chances add up to 1
    Source: own
    """
    order = np.argsort(-chances, kind="stable").tolist()
    test = quickest_test(chances)
    ranked = tuple((CAUSE_KEYS[k], float(chances[k])) for k in order)
    return Suspect(container, float(1.0 - chances[0]), ranked, test, expected_bits(test, chances))


def entropy_bits(chances: FloatArray) -> float:
    """How unsure one is among causes, in bits.

    Formula: −Σ p log₂ p.

    Args:
        chances: of each cause [-], adding up to 1
    Returns: [bit]
    Valid: chances 0 or more
    Source: Shannon 1948 (memory)

    >>> entropy_bits(np.array([0.5, 0.5, 0.0]))
    1.0
    """
    some = chances[chances > 0.0]
    return float(-(some * np.log2(some)).sum()) + 0.0


def expected_bits(test: FieldTest, chances: FloatArray) -> float:
    """How much less unsure a test is expected to leave one, in bits.

    Formula: H(causes) − Σ over outcomes P(outcome) · H(causes given outcome).

    Args:
        test: its outcomes and their chances under each cause
        chances: of each cause, (causes,)
    Returns: [bit], 0 or more
    Valid: chances add up to 1
    Source: expected information, Lindley 1956 (memory)
    """
    joint = test.table() * chances
    told = sum(entropy_bits(row / row.sum()) * row.sum() for row in joint if row.sum() > 0.0)
    return max(entropy_bits(chances) - float(told), 0.0)


def quickest_test(chances: FloatArray, *, tests: Sequence[FieldTest] = FIELD_TESTS) -> FieldTest:
    """The quickest test that tells the leading two causes apart nearly as well as the best.

    Args:
        chances: of each cause, (causes,)
        tests: to choose from
    Returns: test
    Valid: two causes or more
    Source: own: least minutes among those that tell 60 % or more of the bits the best tells about the leading two
    """
    pair = np.zeros_like(chances)
    leading = np.argsort(-chances, kind="stable")[:2]
    pair[leading] = np.maximum(chances[leading], 1e-6)
    pair /= pair.sum()
    bits = [expected_bits(test, pair) for test in tests]
    able = [k for k, told in enumerate(bits) if told >= _GOOD_ENOUGH * max(bits)]
    return tests[min(able, key=lambda k: (tests[k].minutes, -bits[k]))]


def after_test(test: FieldTest, outcome: str, chances: FloatArray) -> FloatArray:
    """Chances of the causes once a test has been made.

    Args:
        test: the test
        outcome: one of its outcomes
        chances: before, (causes,) or (containers, causes)
    Returns: after, same shape
    Valid: outcome is one of the test's
    Raises: ValueError for any other
    Source: Bayes' rule
    """
    if outcome not in test.outcomes:
        raise ValueError(f"outcome of {test.key!r} is {outcome!r}, expected one of {', '.join(test.outcomes)}")
    joint = test.table()[test.outcomes.index(outcome)] * chances
    result: FloatArray = joint / joint.sum(axis=-1, keepdims=True)
    return result
