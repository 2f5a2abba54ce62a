"""Undo and redo of texts."""

from hypothesis import given
from hypothesis import strategies as st

from brimful.services.history import History

MOVES = st.lists(st.one_of(st.integers(0, 5).map(str), st.sampled_from(["undo", "redo"])), max_size=40)


def _gone(history: History, moves: list[str]) -> History:
    for move in moves:
        history = (
            history.undone() if move == "undo" else history.redone() if move == "redo" else history.then(move, move)
        )
    return history


@given(MOVES, st.integers(1, 6))
def test_undo_after_a_step_gives_back_the_text(moves: list[str], most: int) -> None:
    """A step and an undo lead back, and a redo forward again, as long as there is room for two."""
    history = _gone(History.of("start", most), moves)
    after = history.then("next", "a change")
    assert after.text == "next"
    assert after.redoes is None
    if most > 1:
        assert after.undoes == "a change"
        assert after.undone().text == history.text
        assert after.undone().redone() == after
        assert after.undone().redoes == "a change"
    assert len(after.steps) <= most


@given(MOVES)
def test_as_many_undos_as_steps_lead_to_the_start(moves: list[str]) -> None:
    """Nothing is lost on the way back; the same text twice is one step."""
    history = _gone(History.of("start"), moves)
    while history.undoes is not None:
        history = history.undone()
    assert history.text == "start"
    assert history.then("start") is history


def test_what_someone_else_saved_is_a_step() -> None:
    """An undo after it leads back to what stood here."""
    history = History.of("a").then("mine", "apart").then_theirs("theirs")
    assert (history.text, history.undoes, history.undone().text) == ("theirs", "what someone else saved", "mine")
