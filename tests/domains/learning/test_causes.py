"""Causes ranked, and tests chosen by what they tell."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.learning import (
    CAUSE_KEYS,
    DRY,
    FIELD_TESTS,
    LOOK_SHARE,
    WET,
    Reading,
    after_test,
    entropy_bits,
    expected_bits,
    quickest_test,
    suspects,
    two_dry,
)

chances = st.lists(st.floats(0.01, 1.0), min_size=len(CAUSE_KEYS), max_size=len(CAUSE_KEYS)).map(
    lambda parts: np.array(parts) / sum(parts)
)


def between(one: str, other: str) -> np.ndarray:
    """Two causes, evenly likely."""
    return np.array([0.5 * (key in (one, other)) for key in CAUSE_KEYS])


def test_outcomes_of_every_test_add_up() -> None:
    """Each test's outcomes have chances that add up to 1 under each cause, and the test takes time."""
    for test in FIELD_TESTS:
        assert test.table().sum(axis=0) == pytest.approx(np.ones(len(CAUSE_KEYS)))
        assert test.table().shape[0] == len(test.outcomes)
        assert test.minutes > 0
        assert {key for key, _ in test.by_cause} <= set(CAUSE_KEYS)


@given(chances)
def test_a_test_never_tells_less_than_nothing(before: np.ndarray) -> None:
    """Expected bits lie between nothing and what there is to know, and outcomes average to the belief."""
    for test in FIELD_TESTS:
        assert 0.0 <= expected_bits(test, before) <= entropy_bits(before)
        weights = test.table() @ before
        mixed = sum(w * after_test(test, o, before) for w, o in zip(weights, test.outcomes, strict=True))
        assert mixed == pytest.approx(before)


@pytest.mark.parametrize(
    ("one", "other", "word"),
    [
        ("plugged emitters", "larger canopy", "catch|emitter|plants"),
        ("closed valve or kinked feeder", "leak or burst", "feeder"),
        ("more sun", "plugged emitters", "catch|emitter|sun"),
        ("drain blocked", "more shade", "drain"),
    ],
)
def test_the_suggested_test_is_about_the_difference(one: str, other: str, word: str) -> None:
    """For two causes the test is one a gardener would make, and none quicker tells nearly as much."""
    test = quickest_test(between(one, other))
    assert any(part in test.key for part in word.split("|"))
    told = {each.key: expected_bits(each, between(one, other)) for each in FIELD_TESTS}
    quicker = [each for each in FIELD_TESTS if each.minutes < test.minutes]
    assert all(told[each.key] < 0.6 * max(told.values()) for each in quicker)


def test_a_test_that_fits_one_cause_only_settles_it() -> None:
    """Next to nothing in the catch leaves a shut feeder likeliest; an unknown outcome is refused."""
    after = after_test(FIELD_TESTS[0], "next to nothing", between("plugged emitters", "closed valve or kinked feeder"))
    assert after[CAUSE_KEYS.index("closed valve or kinked feeder")] > 0.85
    with pytest.raises(ValueError, match="expected one of"):
        after_test(FIELD_TESTS[0], "plenty", after)


@given(st.lists(chances, min_size=1, max_size=6))
def test_suspects_are_those_in_doubt_surest_first(rows: list[np.ndarray]) -> None:
    """Named are all whose chance of a fault passes the mark, and no others, in falling order, causes ranked."""
    found = suspects(np.array(rows))
    assert {one.container for one in found} == {c for c, row in enumerate(rows) if row[0] < 1 - LOOK_SHARE}
    assert [one.chance for one in found] == sorted((one.chance for one in found), reverse=True)
    for one in found:
        ranked = [chance for _, chance in one.ranked]
        assert ranked == sorted(ranked, reverse=True)


def test_two_dry_in_a_row_counts_each_container_alone() -> None:
    """A wet test between, another container or another kind breaks no rule and makes none."""
    told = [Reading(1, 0, "finger", DRY), Reading(2, 1, "finger", DRY), Reading(3, 0, "finger", WET)]
    told += [Reading(4, 0, "finger", DRY), Reading(5, 0, "probe", 0.0)]
    assert two_dry(told) == ()
    assert two_dry([*told, Reading(9, 0, "finger", DRY)]) == ((9, 0),)
