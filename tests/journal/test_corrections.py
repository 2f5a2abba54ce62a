"""Which entries stand: one of each chain, the same whatever the order of arrival."""

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st
from tests.journal.making import NOON, SHORT

from brimful.journal.corrections import Correction, superseded

NAMES = st.sampled_from("abcdefgh")


@st.composite
def corrections(draw: st.DrawFn) -> list[Correction]:
    """Any corrections among eight entries: chains, forks, rings, originals that are missing."""
    pairs = draw(st.dictionaries(NAMES, NAMES, max_size=8))
    minutes = draw(st.lists(st.integers(0, 3), min_size=8, max_size=8))
    return [
        (one, of, NOON + timedelta(minutes=m))
        for (one, of), m in zip(pairs.items(), minutes, strict=False)
        if one != of
    ]


def test_a_chain_a_fork_a_ring() -> None:
    """The end of a chain stands; of two ends the later made; of a ring the last made."""
    late = NOON + timedelta(hours=1)
    assert superseded([("b", "a", late), ("c", "b", NOON)]) == {"a", "b"}
    assert superseded([("b", "a", late), ("c", "a", NOON)]) == {"a", "c"}
    assert superseded([("b", "a", NOON), ("a", "b", late)]) == {"b"}
    assert superseded([]) == frozenset()


@SHORT
@given(corrections(), st.randoms())
def test_order_of_arrival_does_not_matter(made: list[Correction], chance: object) -> None:
    """The same corrections in another order give the same answer."""
    other = list(made)
    chance.shuffle(other)  # type: ignore[attr-defined]
    assert superseded(made) == superseded(other)


@SHORT
@given(corrections())
def test_one_of_each_chain_stands(made: list[Correction]) -> None:
    """Of the entries that hang together all but one are gone, and that one is no original that was corrected."""
    gone = superseded(made)
    together = {name: {name} for pair in made for name in pair[:2]}
    for one, of, _ in made:
        union = together[one] | together[of]
        for name in union:
            together[name] = union
    for chain in together.values():
        (stands,) = chain - gone
        assert stands in {id_ for id_, _, _ in made}
    assert gone <= set(together)
