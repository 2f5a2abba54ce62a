"""Finding a row by key, by name, and what is offered where there is none."""

from hypothesis import given
from hypothesis import strategies as st

from brimful.catalog import Row, load

CATALOG = load()


def test_by_key_and_by_name() -> None:
    """A plant is found by key, by common name and by botanical name, capitals aside."""
    wanted = CATALOG.plants["petunia-trailing"]
    assert CATALOG.plants.find("petunia-trailing") is wanted
    assert CATALOG.plants.find("Trailing Petunia") is wanted
    assert CATALOG.find("plants", "Lantana montevidensis").key == CATALOG.plants.find("trailing lantana").key  # type: ignore[union-attr]


def test_a_name_of_several_offers_them() -> None:
    """ "petunia" is no one row: both petunias are offered."""
    offered = CATALOG.plants.find("petunia")
    assert isinstance(offered, tuple)
    assert {"petunia-trailing", "petunia-mounding"} <= set(offered)


def test_a_slip_of_the_pen() -> None:
    """A misspelt key or name offers the right row first."""
    assert CATALOG.plants.find("colues")[0] == "coleus"  # type: ignore[index]
    assert CATALOG.containers.find("round-fiber-cement-30x24")[0] == "round-fibre-cement-30x24"  # type: ignore[index]
    assert CATALOG.mixes.find("peet-perlite")[0] == "peat-perlite"  # type: ignore[index]


def test_nothing_like_it() -> None:
    """A word like none offers nothing, and so does no word."""
    assert CATALOG.plants.find("qqqq") == ()
    assert CATALOG.plants.find("") == ()


@given(st.text(max_size=40))
def test_any_word(word: str) -> None:
    """Any text gives a row or keys that exist."""
    found = CATALOG.plants.find(word)
    assert isinstance(found, Row) or set(found) <= set(CATALOG.plants)
