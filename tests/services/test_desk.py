"""The desk: what it says of a text is what opening it says, edit after edit, and little is redone."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brimful.plan.write import Set, rewrite
from brimful.render.as_json import to_data
from brimful.services import example, work_out
from brimful.services.desk import MOST_LOOKS, Look, PlanDesk

DEMO = example("alder_point_landing")
TEXT = DEMO.read_text(encoding="utf-8")
EDITS = st.lists(
    st.one_of(
        st.integers(4, 14).map(lambda feet: Set(("containers", 0, "apart"), f"{feet} ft")),
        st.integers(1, 3).map(lambda rise: Set(("containers", 1, "rise"), f"{rise} ft")),
        st.sampled_from(["US", "metric"]).map(lambda units: Set(("units",), units)),
        st.integers(40, 90).map(lambda psi: Set(("supply", "pressure"), f"{psi} psi")),
        st.sampled_from(["promenade", "gate", "none"]).map(lambda recipe: Set(("containers", 2, "recipe"), recipe)),
        st.just(Set(("containers", 0, "count"), 0)),
    ),
    max_size=4,
)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> PlanDesk:
    """A desk for the demo, with its weather beside it."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copy(DEMO.parent / "seattle_2012_2015.csv", folder)
    return PlanDesk(folder / "plan.toml")


def _same(look: Look, desk: PlanDesk, text: str) -> None:
    desk.path.write_text(text, encoding="utf-8")
    answer = work_out(desk.path)
    assert look.findings == answer.findings
    assert (look.opened is None) == (answer.design is None)
    if look.opened is not None and answer.design is not None:
        assert to_data(replace(look.opened.design, findings=look.findings)) == to_data(answer.design)


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(EDITS)
def test_a_look_is_what_opening_says(desk: PlanDesk, edits: list[Set]) -> None:
    """After any edits, sound or not, the desk's design and findings are those of the text worked out from the start."""
    text = TEXT
    for edit in edits:
        text = rewrite(text, edit).text
        look = desk.look(text)
    _same(look if edits else desk.look(text), desk, text)


def test_the_same_text_is_looked_up(desk: PlanDesk) -> None:
    """A text seen before comes back as it was, and nothing runs."""
    first = desk.look(TEXT)
    ran = len(desk.stages.ran)
    assert desk.look(TEXT) is first
    assert len(desk.stages.ran) == ran


def test_a_text_that_cannot_be_read_gives_findings(desk: PlanDesk) -> None:
    """Half-typed text is no error of the program."""
    for text in ("[[", "", "\ud800", "title = 1", '[[containers]]\nname = "a"\n'):
        look = desk.look(text)
        assert look.opened is None
        assert look.findings
        assert not look.sound


def test_looks_are_bounded(desk: PlanDesk) -> None:
    """However many texts are looked at, only so many are kept."""
    for number in range(MOST_LOOKS + 10):
        desk.look(f"x{number}")
    assert len(desk.looks) <= MOST_LOOKS


def test_a_file_beside_the_plan_that_changes_is_seen(tmp_path: Path) -> None:
    """Weather put right beside the plan mends the next look at the same text."""
    desk = PlanDesk(tmp_path / "plan.toml")
    assert not desk.look(TEXT).sound
    shutil.copy(DEMO.parent / "seattle_2012_2015.csv", tmp_path)
    assert desk.look(TEXT).sound
