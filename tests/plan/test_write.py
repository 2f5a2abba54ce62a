"""Edits on a plan's text: notes, order and spelling of what is not touched stay, byte for byte."""

import copy
import re
import tomllib
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.plan.plan_texts import HOSTILE, VALUES, at, paths_in, plan_texts

from brimful.plan.write import Add, Duplicate, Move, Remove, Set, rewrite


def _data(text: str) -> Any:
    return tomllib.loads(text.removeprefix("\ufeff"))


def _notes(text: str) -> list[str]:
    return sorted(re.findall(r"# note \d+", text))


def _lists(data: Any) -> list[tuple[str | int, ...]]:
    return [path for path in paths_in(data) if isinstance(at(data, path), list)]


def _entries(data: Any) -> list[tuple[str | int, ...]]:
    return [path for path in paths_in(data) if isinstance(path[-1], int)]


def _kept(old: str, new: str) -> tuple[str, str]:
    """What of the old text, and what of the new, stands between what both begin with and what both end with."""
    start = next((i for i, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new)))
    most = min(len(old), len(new)) - start
    stop = next((i for i in range(most) if old[-1 - i] != new[-1 - i]), most)
    return old[start : len(old) - stop], new[start : len(new) - stop]


def _pick(data: st.DataObject, found: list[Any]) -> Any:
    assume(found)
    return data.draw(st.sampled_from(found))


@given(plan_texts(), VALUES, st.data())
def test_a_value_that_is_set_is_the_only_thing_that_changes(text: str, value: Any, data: st.DataObject) -> None:
    """After a field is set, the text reads as meant; what went is the old value, all else is as it was."""
    before = _data(text)
    path = _pick(data, paths_in(before))
    edit = rewrite(text, Set(path, value))
    if not edit.done:
        assert isinstance(at(before, path), dict | list)
        assert edit.text == text
        return
    wanted = copy.deepcopy(before)
    at(wanted, path[:-1])[path[-1]] = value
    assert _data(edit.text) == wanted
    went, _ = _kept(text, edit.text)
    assert _notes(edit.text) == _notes(text) or _notes(went)
    assert edit.text.startswith("\ufeff") == text.startswith("\ufeff")


@given(plan_texts(), st.data())
def test_a_list_that_is_set_keeps_the_notes_between_its_entries(text: str, data: st.DataObject) -> None:
    """Of a list only the entries that differ change: every note stays, and the others keep their spelling."""
    before = _data(text)
    leaves = [path for path in _lists(before) if not any(isinstance(one, dict | list) for one in at(before, path))]
    path = _pick(data, leaves)
    kept = data.draw(st.lists(st.sampled_from(at(before, path)), max_size=3)) if at(before, path) else []
    value = [*kept, *data.draw(st.lists(st.integers(), max_size=3))]
    edit = rewrite(text, Set(path, data.draw(st.permutations(value))))
    assert edit.done, edit.refusal
    assert _notes(edit.text) == _notes(text)


LIST = """plants = [
  "1 grass",  # tall, in the middle
  # the reds
  "4 geranium",
  '3 angelonia'  # spills
]
"""


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (["1 grass", "5 geranium", "3 angelonia"], LIST.replace("4", "5")),
        (["4 geranium", "3 angelonia"], LIST.replace('"1 grass",  # tall', "# tall")),
        (["1 grass", "3 angelonia"], LIST.replace('  "4 geranium",\n', "")),
        (
            ["1 grass", "4 geranium", "3 angelonia", "2 canna"],
            LIST.replace("'  # spills", '\',  # spills\n  "2 canna"'),
        ),
        (["2 canna", "1 grass", "4 geranium", "3 angelonia"], LIST.replace('  "1', '  "2 canna",\n  "1')),
    ],
)
def test_a_list_is_changed_entry_by_entry(value: list[str], text: str) -> None:
    """An entry changed, taken out, put behind and before, by hand: each note beside what it speaks of."""
    assert rewrite(LIST, Set(("plants",), value)).text == text


@given(plan_texts(), st.data())
def test_setting_what_stands_there_changes_nothing(text: str, data: st.DataObject) -> None:
    """A field set to the value it has keeps even its spelling."""
    path = _pick(data, paths_in(_data(text)))
    assert rewrite(text, Set(path, at(_data(text), path))).text == text


@given(plan_texts(), VALUES, st.data())
def test_a_field_added_and_taken_out_gives_the_same_text(text: str, value: Any, data: st.DataObject) -> None:
    """A field that was not there goes in on lines of its own, or in its brackets, and comes out without a trace."""
    before = _data(text)
    table = _pick(data, [(), *(path for path in paths_in(before) if isinstance(at(before, path), dict))])
    path = (*table, "new")
    edit = rewrite(text, Set(path, value))
    assert edit.done
    wanted = copy.deepcopy(before)
    at(wanted, table)["new"] = value
    assert _data(edit.text) == wanted
    went, _ = _kept(text, edit.text)
    assert not went.strip("{} \t")
    again = rewrite(edit.text, Remove(path)).text
    if table and at(before, table) and f"[{table[0]}]\n" in text.replace("\r", ""):
        assert again == text
    added = {"", *({f"[{'.'.join(map(str, table))}]"} - set(_lines(text)))}
    if at(before, table):
        assert [line for line in _lines(again) if line not in added] == [line for line in _lines(text) if line]


@given(plan_texts(), HOSTILE, VALUES)
def test_a_missing_section_is_added_and_taken_out_again(text: str, key: str, value: Any) -> None:
    """A field of a section that is missing brings the section with it."""
    assume(text.strip("\ufeff\r\n"))
    edit = rewrite(text, Set(("feed", key), value))
    assert edit.done
    assert _data(edit.text) == {**_data(text), "feed": {key: value}}
    assert _kept(text, edit.text)[0] == ""
    assert rewrite(edit.text, Remove(("feed",))).text == text


@given(plan_texts(), st.data())
def test_what_is_taken_out_is_gone_and_the_rest_stays(text: str, data: st.DataObject) -> None:
    """A field, table or entry taken out leaves the data of all others as they were."""
    before = _data(text)
    path = _pick(data, paths_in(before))
    edit = rewrite(text, Remove(path))
    assert edit.done
    wanted = copy.deepcopy(before)
    del at(wanted, path[:-1])[path[-1]]
    assert _bare(_data(edit.text)) == _bare(wanted)
    assert len([line for line in _lines(edit.text) if line not in {"", *_lines(text)}]) <= 1


def _bare(data: Any) -> Any:
    """Data without its empty tables and lists; entries of a list stay."""
    if isinstance(data, list):
        return [_bare(entry) for entry in data]
    if not isinstance(data, dict):
        return data
    kept = {key: _bare(value) for key, value in data.items()}
    return {key: value for key, value in kept.items() if value not in ({}, [])}


def _lines(text: str) -> list[str]:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")


@given(plan_texts(), st.data())
def test_an_entry_doubled_and_taken_out_gives_the_same_text(text: str, data: st.DataObject) -> None:
    """An entry's like stands directly after it; taken out again, the text is as it was."""
    before = _data(text)
    path = _pick(data, _entries(before))
    edit = rewrite(text, Duplicate(path))
    assert edit.done
    wanted = copy.deepcopy(before)
    at(wanted, path[:-1]).insert(path[-1], at(before, path))
    assert _data(edit.text) == wanted
    assert _kept(text, edit.text)[0] == ""
    assert rewrite(edit.text, Remove((*path[:-1], path[-1] + 1))).text == text


@given(plan_texts(), st.data())
def test_an_entry_moved_there_and_back_gives_the_same_text(text: str, data: st.DataObject) -> None:
    """A move keeps every line, with the notes that stand directly above an entry, and can be undone."""
    before = _data(text)
    path = _pick(data, _entries(before))
    to = data.draw(st.integers(0, len(at(before, path[:-1])) - 1))
    edit = rewrite(text, Move(path, to))
    assert edit.done
    wanted = copy.deepcopy(before)
    entries = at(wanted, path[:-1])
    entries.insert(to, entries.pop(path[-1]))
    assert _data(edit.text) == wanted
    assert _notes(edit.text) == _notes(text)
    back = rewrite(edit.text, Move((*path[:-1], to), path[-1])).text
    assert back == text or [line for line in _lines(back) if line] == [line for line in _lines(text) if line]


@given(plan_texts(), st.dictionaries(HOSTILE, VALUES, min_size=1, max_size=3), st.data())
def test_an_entry_added_and_taken_out_gives_the_same_text(
    text: str, entry: dict[str, Any], data: st.DataObject
) -> None:
    """An entry goes into its list where it is wanted, and the list comes to be where there is none."""
    assume(text.strip("\ufeff\r\n"))
    before = _data(text)
    path = data.draw(st.sampled_from([("fence",), *_lists(before)]))
    entries = at(before, path) if path != ("fence",) else []
    where = data.draw(st.integers(0, len(entries)))
    edit = rewrite(text, Add(path, entry, where))
    assert edit.done
    wanted = copy.deepcopy(before)
    at(wanted, path[:-1]).setdefault(path[-1], []) if path == ("fence",) else None
    at(wanted, path).insert(where, entry)
    assert _data(edit.text) == wanted
    assert _kept(text, edit.text)[0] == ""
    assert rewrite(edit.text, Remove((*path, where))).text == text


HEAD = "# My pots\n[[containers]]  # by the door\nname = 'a'\napart = \"6 ft\"  # measured\n"
HOSTILE_WORDS = ['"', "'''", "]]", "\n[[containers]]\n", "🪴\u202e", "\\", "\0\x7f", "x" * 5000, " # no", "", "\r"]


@pytest.mark.parametrize("hostile", HOSTILE_WORDS)
def test_words_that_look_like_toml_stay_words(hostile: str) -> None:
    """Quotes, brackets, line ends and signs of any script go in as words and come out as such."""
    edit = rewrite(HEAD, Set(("containers", 0, "name"), hostile), Set(("stock", hostile), 1))
    assert edit.done
    assert _data(edit.text) == {"containers": [{"name": hostile, "apart": "6 ft"}], "stock": {hostile: 1}}
    assert all(line in edit.text for line in HEAD.split("\n") if "name" not in line)


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ([Set(("containers", 3, "apart"), "6 ft")], "containers has 1 entries, and no entry 4."),
        ([Set(("containers", 0, "apart", "x"), 1)], "containers entry 1 apart is a single value"),
        ([Remove(("site",))], "the plan has no site."),
        ([Move(("containers", 0), 1)], "containers has 1 entries."),
        ([Duplicate(("containers",))], "containers is not an entry of a list."),
        ([Set(("containers",), "x")], "containers is a table with fields of its own"),
        ([Set(("title",), "\ud800")], "by hand"),
        ([Set((), 1)], "Name the field"),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(steps: list[Any], words: str) -> None:
    """An edit that has no place in the plan leaves the text as it is and says why."""
    edit = rewrite(HEAD, *steps)
    assert words in edit.refusal
    assert edit.text == HEAD


def test_a_text_that_cannot_be_read_is_left_alone() -> None:
    """Where the text is no TOML, nothing is changed."""
    edit = rewrite("[[", Set(("title",), "x"))
    assert (edit.text, edit.done) == ("[[", False)


def test_steps_are_done_all_or_none() -> None:
    """The second step is refused, so the first is not done either."""
    assert rewrite(HEAD, Set(("title",), "x"), Remove(("site",))).text == HEAD


def test_entries_whose_tables_stand_apart_are_not_moved() -> None:
    """A row with a table of its own further down in the file is left to the person's hand."""
    text = "[[containers]]\n[[zone]]\n[containers.set_out]\ngap = 1\n[[containers]]\n"
    edit = rewrite(text, Move(("containers", 0), 1))
    assert edit.text == text
    assert "stand apart" in edit.refusal


def test_a_note_stays_with_its_row() -> None:
    """What is noted directly above a row, or at the end of its lines, moves with it; what is set off stays."""
    text = "# head\n\n# of a\n[[containers]]\nname = 'a'\n# last of a\n\n# of b\n[[containers]]\nname = 'b' # b\n"
    moved = "# head\n\n# of b\n[[containers]]\nname = 'b' # b\n\n# of a\n[[containers]]\nname = 'a'\n# last of a\n"
    assert rewrite(text, Move(("containers", 1), 0)).text == moved


def test_a_new_recipe_stands_below_the_others() -> None:
    """A table goes beside its likes; a section goes above the lists."""
    text = '[recipe.heat]\nplants = ["4 canna"]\n\n[[containers]]\nname = "a"\n'
    edit = rewrite(text, Set(("recipe", "shade", "plants"), ["3 fern"]), Set(("supply", "pressure"), "50 psi"))
    assert edit.text == (
        '[recipe.heat]\nplants = ["4 canna"]\n\n[recipe.shade]\nplants = ["3 fern"]\n\n'
        '[supply]\npressure = "50 psi"\n\n[[containers]]\nname = "a"\n'
    )
