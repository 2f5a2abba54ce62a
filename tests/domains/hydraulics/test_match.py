"""Emitters for unequal containers: exactness against every choice, and laws."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.hydraulics.match import ALIKE, matched_emitters

wishes = st.lists(st.floats(0.5, 20.0), min_size=1, max_size=3)


@given(wishes, st.floats(0.5, 4.0))
def test_no_other_choice_of_whole_emitters_has_a_smaller_greatest_surplus(wanted: list[float], flow: float) -> None:
    """Trying every combination of counts up to six finds nothing better by more than what counts as alike."""
    hours = [w / flow for w in wanted]
    if max(hours) / min(hours) > 6:
        return

    def worst(counts: tuple[int, ...]) -> float:
        time = max(h / n for h, n in zip(hours, counts, strict=True))
        return max(n * time / h - 1 for h, n in zip(hours, counts, strict=True))

    best = min(worst(counts) for counts in itertools.product(range(1, 7), repeat=len(wanted)))
    match = matched_emitters(wanted, [flow] * len(wanted), most=6)
    assert best - 1e-8 <= max(match.surplus_share) <= best + ALIKE + 1e-8


@given(wishes, st.floats(0.5, 4.0))
def test_nobody_gets_less_than_wanted(wanted: list[float], flow: float) -> None:
    """Counts times flow times hours covers every wish."""
    if max(wanted) / min(wanted) > 40:
        return
    match = matched_emitters(wanted, [flow] * len(wanted))
    for wish, count in zip(wanted, match.counts, strict=True):
        assert count * flow * match.minutes_per_day / 60 >= wish * (1 - 1e-8)


def test_equal_containers_need_no_surplus() -> None:
    """Containers that want the same get the same, exactly."""
    assert matched_emitters([3.0, 3.0, 3.0], [1.0, 1.0, 1.0]).surplus_share == (0.0, 0.0, 0.0)


@pytest.mark.parametrize(("wanted", "flows"), [([], []), ([1.0], [0.0]), ([-1.0], [1.0]), ([1.0], [1.0, 2.0])])
def test_what_cannot_be_is_refused(wanted: list[float], flows: list[float]) -> None:
    """Nothing wanted, no flow, or too many flows raise ValueError."""
    with pytest.raises(ValueError, match="given"):
        matched_emitters(wanted, flows)


def test_of_equal_choices_the_one_nearest_to_what_is_there_is_taken() -> None:
    """Containers that want the same keep the emitters they have, whatever their number."""
    assert matched_emitters([3.0, 3.0], [1.0, 1.0], near=14).counts == (7, 7)
