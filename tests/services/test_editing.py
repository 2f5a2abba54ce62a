"""A plan on disk as a draft: saved whole or not at all, never over what someone else has saved meanwhile."""

import errno
import os
import stat
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from subprocess import run

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.errors import NotSaved, PlanChanged, PlanUnreadable
from brimful.services.editing import Draft, compared, digest_of, new_draft, open_draft, save

TEXTS = st.text(st.characters(exclude_categories=("Cs",)), max_size=40)
LINES = st.lists(st.sampled_from(["", "a = 1", "# b", "[c]", "é = '🪴'"]), max_size=8)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan on disk."""
    path = tmp_path / "square.toml"
    path.write_text('title = "Square"\n')
    return path


def _draft(data: bytes) -> Draft:
    plain = data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    return Draft(Path("a.toml"), plain, digest_of(data), data)


def test_a_saved_text_is_what_is_opened_next(plan: Path) -> None:
    """What was saved stands on disk, and the draft that save gives is as if it had been opened anew."""
    saved = save(open_draft(plan), 'title = "Quay"\n')
    assert plan.read_text() == 'title = "Quay"\n'
    assert saved == open_draft(plan)
    assert save(saved, 'title = "Mole"\n') == open_draft(plan)


@given(LINES, LINES, st.sampled_from(["\n", "\r\n", "\r"]), st.sampled_from(["", "\ufeff"]))
def test_mark_and_line_ends_of_the_file_are_kept(old: list[str], new: list[str], end: str, mark: str) -> None:
    """A file with a byte order mark and any line ends keeps them, whatever is written into it."""
    data = (mark + end.join([*old, "", ""])).encode()
    written = _draft(data).bytes_with("\n".join(new)).decode()
    assert written.startswith("\ufeff") == bool(mark)
    assert written.removeprefix("\ufeff") == end.join(new)


@given(st.lists(st.tuples(st.sampled_from(["a", "b", "c"]), st.sampled_from(["\n", "\r\n"])), min_size=1, max_size=8))
def test_lines_that_stay_keep_their_own_line_ends(lines: list[tuple[str, str]]) -> None:
    """Where a file mixes line ends, a line added at the end changes no other; and the same text is the same bytes."""
    data = "".join(line + end for line, end in lines).encode()
    draft = _draft(data)
    assert draft.bytes_with(draft.text) == data
    assert draft.bytes_with(draft.text + "new").startswith(data)


@given(TEXTS)
def test_any_text_comes_back(text: str) -> None:
    """Whatever a person writes is read back as written, but for line ends, which are plain in a draft."""
    draft = _draft(b"x")
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    assert draft.bytes_with(text).decode() == plain


def test_what_someone_else_saved_is_not_lost(plan: Path) -> None:
    """The save is refused, and carries both versions; saved on theirs, mine goes over it knowingly."""
    draft = open_draft(plan)
    plan.write_text("# theirs\n")
    with pytest.raises(PlanChanged, match="someone has changed it since you opened it") as refused:
        save(draft, "# mine\n")
    assert plan.read_text() == "# theirs\n"
    assert (refused.value.mine, refused.value.theirs.text) == ("# mine\n", "# theirs\n")
    save(refused.value.theirs, "# mine\n")
    assert plan.read_text() == "# mine\n"


def test_a_plan_that_is_gone_can_be_put_back(plan: Path) -> None:
    """A file removed meanwhile is told; saving once more puts it back."""
    draft = open_draft(plan)
    plan.unlink()
    with pytest.raises(PlanChanged, match="removed or renamed") as refused:
        save(draft, "# mine\n")
    assert not plan.exists()
    save(refused.value.theirs, "# mine\n")
    assert plan.read_text() == "# mine\n"


def test_a_new_plan_never_goes_over_a_file_that_is_there(plan: Path) -> None:
    """A draft of a plan that is not there yet is refused where one is."""
    with pytest.raises(PlanChanged, match="there already"):
        save(new_draft(plan), "# mine\n")
    assert plan.read_text() == 'title = "Square"\n'


def test_the_same_text_saved_by_both_is_no_quarrel(plan: Path) -> None:
    """Where someone else has saved just what I save, nothing is refused."""
    draft = open_draft(plan)
    plan.write_text("# same\n")
    assert save(draft, "# same\n").text == "# same\n"


def test_a_link_is_followed_and_the_mode_kept(plan: Path, tmp_path: Path) -> None:
    """A plan behind a link is replaced where it is, with its mode; the link stays a link."""
    plan.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(plan)
    save(open_draft(link), "# mine\n")
    assert link.is_symlink()
    assert plan.read_text() == "# mine\n"
    assert stat.S_IMODE(plan.stat().st_mode) == 0o640


@pytest.mark.parametrize(
    ("code", "words"),
    [(errno.ENOSPC, "disk is full"), (errno.EACCES, "may not be written to"), (errno.EROFS, "may only be read")],
)
def test_a_disk_that_takes_nothing_is_told_in_words(
    plan: Path, monkeypatch: pytest.MonkeyPatch, code: int, words: str
) -> None:
    """Full disk, closed folder: the file stays, nothing half written lies about, the text is carried along."""

    def fails(handle: int) -> None:
        raise OSError(code, os.strerror(code))

    draft = open_draft(plan)
    monkeypatch.setattr(os, "fsync", fails)
    with pytest.raises(NotSaved, match=words) as refused:
        save(draft, "# mine\n")
    assert refused.value.mine == "# mine\n"
    assert [(path.name, path.read_text()) for path in plan.parent.iterdir()] == [(plan.name, 'title = "Square"\n')]


def test_a_folder_that_is_gone_is_told(plan: Path) -> None:
    """Where the folder has been removed, the words say so."""
    draft = open_draft(plan)
    plan.unlink()
    plan.parent.rmdir()
    with pytest.raises(NotSaved, match="its folder is gone"):
        save(draft, "x")


def test_a_file_protected_against_writing_is_left_alone(plan: Path) -> None:
    """A file that may only be read is not replaced by way of its folder."""
    draft = open_draft(plan)
    plan.chmod(0o444)
    with pytest.raises(NotSaved, match="protected against writing"):
        save(draft, "x")
    assert plan.read_text() == 'title = "Square"\n'


@pytest.mark.parametrize("text", ["\ud800", "x" * 2_000_001])
def test_a_text_that_no_plan_can_be_is_not_saved(plan: Path, text: str) -> None:
    """A sign that no file can hold, and more than a plan may have, are refused before anything is written."""
    with pytest.raises(NotSaved):
        save(open_draft(plan), text)
    assert plan.read_text() == 'title = "Square"\n'


def test_what_cannot_be_opened_is_told(tmp_path: Path) -> None:
    """A file that is missing or no text is no draft."""
    with pytest.raises(PlanUnreadable, match="no such file"):
        open_draft(tmp_path / "none.toml")
    (tmp_path / "a.toml").write_bytes(b"\xff")
    with pytest.raises(PlanUnreadable, match="not text"):
        open_draft(tmp_path / "a.toml")


def test_of_many_savers_in_one_process_one_wins_and_the_others_are_told(plan: Path) -> None:
    """Twenty threads save on one draft: one text stands there, nineteen are carried along."""
    draft = open_draft(plan)

    def saved(number: int) -> bool:
        try:
            save(draft, f"# {number}\n" * 1000)
        except PlanChanged:
            return False
        return True

    with ThreadPoolExecutor(8) as pool:
        won = [number for number, done in enumerate(pool.map(saved, range(20))) if done]
    assert len(won) == 1
    assert plan.read_text() == f"# {won[0]}\n" * 1000


WRITER = """
import sys
from pathlib import Path
from brimful.errors import PlanChanged
from brimful.services.editing import open_draft, save
path = Path(sys.argv[1])
for number in range(15):
    draft = open_draft(path)
    while True:
        try:
            save(draft, f"{draft.text}# {sys.argv[2]} {number}\\n")
            break
        except PlanChanged as changed:
            draft = changed.theirs
"""


def test_no_save_of_two_processes_is_lost(tmp_path: Path) -> None:
    """Two processes add lines to one file, each on what the other left: no line is lost, each keeps its order."""
    path = tmp_path / "lines.toml"
    path.write_text("")
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(lambda who: run([sys.executable, "-c", WRITER, str(path), who], check=True), ("one", "two")))
    lines = path.read_text().splitlines()
    for who in ("one", "two"):
        assert [line for line in lines if who in line] == [f"# {who} {number}" for number in range(15)]
    assert len(lines) == 30


@given(LINES, LINES)
def test_a_comparison_holds_both_texts(one: list[str], other: list[str]) -> None:
    """Read down one side, a comparison gives that side's text, with its line numbers in order."""
    theirs, mine = "\n".join(one), "\n".join(other)
    lines = compared(theirs, mine)
    assert "\n".join(line.text for line in lines if line.side != "mine") == theirs
    assert "\n".join(line.text for line in lines if line.side != "theirs") == mine
    assert [line.theirs for line in lines if line.theirs] == list(range(1, theirs.count("\n") + 2))
    assert [line.mine for line in lines if line.mine] == list(range(1, mine.count("\n") + 2))
