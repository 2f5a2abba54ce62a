"""What an edit means for the text of a plan: which stretches give way to what."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from brimful.plan.positions import Path, Written
from brimful.plan.write.entries import by_entry
from brimful.plan.write.intent import around_of, plain, same
from brimful.plan.write.layout import Layout, Stretch
from brimful.plan.write.spelling import spelled, spelled_field, spelled_key
from brimful.plan.write.steps import Add, Duplicate, Move, Refused, Remove, Set, Step, Value, called

Splice = tuple[int, int, str]
_NOTE_BEHIND = re.compile(r"[ \t]*(?P<comma>,?)[ \t]*#[^\r\n]*")


def spliced(layout: Layout, step: Step) -> str:
    """The text after a step.

    Raises:
        Refused: what the step is to change is written in a way that it does not reach.
        ValueError: a value that a plan file cannot hold.
    """
    if isinstance(step, Set) and (small := by_entry(layout, step)):
        text = layout.text
        for one in small:
            text = spliced(Layout.of(text), one)
        return text
    parts, at = [], 0
    for start, end, new in sorted(_SPLICES[type(step)](layout, step)):
        parts += [layout.text[at:start], new]
        at = end
    return "".join([*parts, layout.text[at:]])


def _set(layout: Layout, step: Set) -> list[Splice]:
    path = step.path
    at = layout.values.get(path)
    if at is not None:
        around = around_of(layout.data, path, make=False)
        kept = same(around[path[-1]], plain(step.value))
        return [] if kept else [(at.value, at.end, spelled(step.value))]
    if isinstance(path[-1], int):
        return _add(layout, Add(path[:-1], step.value))
    if layout.index_at(path) or any(known[: len(path)] == path for known in layout.values):
        raise Refused(f"{called(path)} is a table with fields of its own; change them one by one.")
    return _new_field(layout, path, step.value)


def _new_field(layout: Layout, path: Path, value: Value) -> list[Splice]:
    """Write a field that is not there yet, in the nearest table around it that is."""
    table = path[:-1]
    around = layout.values.get(table)
    if around is not None:
        return [_into_brackets(layout, table, around.value, around.end, _item(path, value))]
    own = _own_header(layout, table)
    if own is not None:
        return [_below(layout, layout.line_stop(_last_of(layout, own)), [spelled_field(path[-1], value)])]
    beside = [one for known, one in layout.values.items() if known[: len(table)] == table]
    if not table:
        return [_in_root(layout, spelled_field(path[-1], value))]
    if beside and beside[-1].home != table and len(beside[-1].home) < len(table):
        return [_beside(layout, beside[-1], path, value)]
    if all(isinstance(part, str) for part in table) and _header_may_stand(layout, table):
        return [_new_table(layout, table, [spelled_field(path[-1], value)])]
    return _new_field(layout, table, {str(path[-1]): value})


def _own_header(layout: Layout, table: Path) -> int | None:
    return next((i for i, header in enumerate(layout.headers) if header.path == table), None)


def _last_of(layout: Layout, index: int) -> int:
    """The end of the last field under a header."""
    after = layout.headers[index + 1].start if index + 1 < len(layout.headers) else len(layout.text) + 1
    return layout.last_end(after)


def _header_may_stand(layout: Layout, table: Path) -> bool:
    """A new [table] is for what no table around it holds yet, or holds in tables under headers of their own."""
    around = [
        i for i in range(1, len(table)) if table[:i] in layout.values or _own_header(layout, table[:i]) is not None
    ]
    return not around and (table[0] not in layout.data or bool(layout.index_at(table[:1])))


def _item(path: Path, value: Value) -> str:
    return spelled(value) if isinstance(path[-1], int) else spelled_field(path[-1], value)


def _into_brackets(layout: Layout, table: Path, start: int, end: int, item: str) -> Splice:
    """Into an inline table or a list, after its last item."""
    inside = [one.end for known, one in layout.values.items() if known[:-1] == table or one.home == table]
    if inside:
        return max(inside), max(inside), f", {item}"
    if layout.text[start] == "{":
        return start, end, f"{{ {item} }}"
    return start + 1, start + 1, item


def _beside(layout: Layout, beside: Written, path: Path, value: Value) -> Splice:
    """After a field whose key has dots, in the same manner."""
    dotted = ".".join(spelled_key(str(part)) for part in path[len(beside.home) :])
    field = f"{dotted} = {spelled(value)}"
    if beside.home in layout.values:
        return beside.end, beside.end, f", {field}"
    return _below(layout, layout.line_stop(beside.end), [field])


def _below(layout: Layout, stop: int, lines: list[str]) -> Splice:
    return stop, stop, "".join(layout.line_end + line for line in lines)


def _in_root(layout: Layout, field: str) -> Splice:
    """Among the fields above the first header."""
    tail = layout.root_tail()
    if tail:
        return _below(layout, tail, [field])
    return _paragraph(layout, layout.lead(0) if layout.headers else len(layout.text), [field])


def _new_table(layout: Layout, table: Path, lines: list[str]) -> Splice:
    """A new [table]: above the tables inside it, below those beside it, above the first [[list]], or at the end."""
    content = [f"[{_header_name(table)}]", *lines]
    inside, beside = layout.index_at(table), layout.index_at(table[:-1]) if len(table) > 1 else []
    lists = [i for i, header in enumerate(layout.headers) if header.many]
    if beside and not inside:
        stretches = [(layout.lead(i), layout.tail(i)) for i in beside]
        return _after(layout, stretches, len(stretches) - 1, layout.line_end.join(content))
    before = next(iter([*inside, *lists]), None)
    return _paragraph(layout, len(layout.text) if before is None else layout.lead(before), content)


def _header_name(path: Path) -> str:
    return ".".join(spelled_key(part) for part in path if isinstance(part, str))


def _paragraph(layout: Layout, at: int, lines: list[str]) -> Splice:
    """Lines set off by a blank line, or as what stands around is set off, before the start of a line or at the end."""
    above = layout.gap_before(at) if at < len(layout.text) else layout.gap_before_end()
    content = layout.line_end.join(lines)
    if above <= layout.begin:
        below = layout.line_end * 2 if at < len(layout.text) else ""
        return at, at, content + below
    gap = layout.text[above:at] if at < len(layout.text) else layout.line_end * 2
    return above, above, gap + content


def _remove(layout: Layout, step: Remove) -> list[Splice]:
    path = step.path
    at = layout.values.get(path)
    if at is not None and isinstance(path[-1], int):
        return [_out_of_brackets(layout, path, at.value, at.end)]
    if at is not None and at.home in layout.values:
        return [_out_of_brackets(layout, path, at.key, at.end)]
    return _cut_table(layout, path)


def _cut_table(layout: Layout, path: Path) -> list[Splice]:
    """Take out a table, wherever parts of it stand."""
    fields = [one for known, one in layout.values.items() if known[: len(path)] == path]
    tables = {(), *(header.path for header in layout.headers)}
    own = [
        (layout.line_start(one.key), layout.line_stop(one.end)) for one in fields if _outside(one.home, path, tables)
    ]
    inline = [
        _out_of_brackets(layout, path, one.key, one.end)
        for one in fields
        if one.home in layout.values and one.home == path[: len(one.home)] != path
    ]
    return [
        *inline[:1],
        *(_cut(layout, start, stop, around=False) for start, stop in own),
        *(_cut(layout, start, stop, around=True) for start, stop in layout.stretches(path)),
    ]


def _outside(home: Path, path: Path, tables: set[Path]) -> bool:
    """Whether a field of the table at `path` stands, with dots in its key, under a header that stays."""
    return home in tables and home[: len(path)] != path


def _cut(layout: Layout, start: int, stop: int, *, around: bool) -> Splice:
    """Take out whole lines with the line end above them; a table's with the blank lines above it."""
    if not around:
        return (
            (layout.line_end_before(start), stop, "") if start > layout.begin else (start, layout.next_line(stop), "")
        )
    above = layout.gap_before(start)
    return (above, stop, "") if above > layout.begin else (start, layout.gap_after(stop), "")


def _out_of_brackets(layout: Layout, path: Path, start: int, end: int) -> Splice:
    """Take an item out of an inline table or a list, with one comma; notes between items stay."""
    text = layout.text
    inside = next(
        layout.values[path[:length]] for length in range(len(path) - 1, 0, -1) if path[:length] in layout.values
    )
    comma_before = re.compile(r",[ \t\r\n]*\Z").search(text[inside.value : start])
    comma_after = re.compile(r"[ \t\r\n]*,[ \t\r\n]*").match(text, end)
    if comma_before:
        return inside.value + comma_before.start(), end, ""
    return start, comma_after.end() if comma_after else end, ""


def _add(layout: Layout, step: Add) -> list[Splice]:
    path = step.path
    entries = _entries(layout, path)
    at = len(entries) if step.at is None else step.at
    known = layout.values.get(path)
    if known is not None:
        return _into_list(layout, known.value, entries, at, spelled(step.value))
    if not entries and (len(path) > 1 or not isinstance(step.value, Mapping)):
        return _new_field(layout, path, [step.value])
    if not isinstance(step.value, Mapping):
        raise Refused(f"An entry of {called(path)} is a table.")
    lines = [f"[[{_header_name(path)}]]", *(spelled_field(key, value) for key, value in step.value.items())]
    if at == len(entries) and entries:
        return [_after(layout, entries, at - 1, layout.line_end.join(lines))]
    return [_paragraph(layout, entries[at][0] if entries else len(layout.text), lines)]


def _entries(layout: Layout, path: Path) -> list[Stretch]:
    """The stretches of a list's entries, whether in brackets or each under its header.

    Raises:
        Refused: the tables of an entry stand apart.
    """
    entries: list[Stretch] = []
    if path in layout.values:
        while (*path, len(entries)) in layout.values:
            one = layout.values[(*path, len(entries))]
            entries.append((one.value, one.end))
        return entries
    while stretches := layout.stretches((*path, len(entries))):
        if len(stretches) > 1:
            raise Refused(f"The parts of {called((*path, len(entries)))} stand apart; bring them together by hand.")
        entries += stretches
    return entries


def _into_list(layout: Layout, start: int, entries: list[Stretch], at: int, item: str) -> list[Splice]:
    if not entries:
        return [(start + 1, start + 1, item)]
    if at < len(entries):
        return [(entries[at][0], entries[at][0], f"{item}{_comma(layout, start, entries, at)}")]
    stop, comma = entries[-1][1], _comma(layout, start, entries, at - 1)
    note = _NOTE_BEHIND.match(layout.text, stop)
    if note is None or comma == ", ":
        return [(stop, stop, f"{comma}{item}")]
    below = comma.removeprefix(",") + item  # the note stays with the entry it stands behind
    more = [(note.end(), note.end(), below + ("," if note["comma"] else ""))]
    return more if note["comma"] else [(stop, stop, ","), *more]


def _comma(layout: Layout, start: int, entries: list[Stretch], at: int) -> str:
    """What parts two items of a list: a comma, and a new line where the entry `at` begins one."""
    begin = layout.line_start(entries[at][0])
    indent = layout.text[begin : entries[at][0]]
    return f",{layout.line_end}{indent}" if begin > start and not indent.strip() else ", "


def _after(layout: Layout, entries: list[Stretch], at: int, content: str) -> Splice:
    """After an entry under its own header, set off as it is set off itself."""
    start, stop = entries[at]
    above = layout.gap_before(start)
    gap = layout.text[above:start] if above > layout.begin else layout.line_end * 2
    if _ends_in_note(layout.text[start:stop]) and gap.strip(" \t") == layout.line_end:
        gap += layout.line_end
    return stop, stop, gap + content


def _ends_in_note(content: str) -> bool:
    """Whether a stretch ends in a note, which a header directly below would take for its own."""
    return re.split(r"[\r\n]", content)[-1].lstrip(" \t").startswith("#")


def _duplicate(layout: Layout, step: Duplicate) -> list[Splice]:
    path, index = step.path[:-1], int(step.path[-1])
    entries = _entries(layout, path)
    start, stop = entries[index]
    content = layout.text[start:stop]
    if path in layout.values:
        comma = _comma(layout, layout.values[path].value, entries, index)
        return [(stop, stop, comma + content)]
    return [_after(layout, entries, index, content)]


def _move(layout: Layout, step: Move) -> list[Splice]:
    """Entries change places; what stands between them stays, and a blank line more where a note would change hands."""
    path = step.path[:-1]
    entries = _entries(layout, path)
    contents = [layout.text[start:stop] for start, stop in entries]
    contents.insert(step.to, contents.pop(int(step.path[-1])))
    splices = [(start, stop, new) for (start, stop), new in zip(entries, contents, strict=True)]
    if path in layout.values:
        return splices
    return [(start, stop, new + _apart(layout, stop, new)) for start, stop, new in splices]


def _apart(layout: Layout, stop: int, content: str) -> str:
    below = layout.text[layout.next_line(stop) :]
    blank = not below.strip() or below.lstrip(" \t")[:1] in ("\r", "\n")
    return "" if blank or not _ends_in_note(content) else layout.line_end


_SPLICES: dict[type, Callable[[Layout, Any], list[Splice]]] = {
    Set: _set,
    Remove: _remove,
    Add: _add,
    Duplicate: _duplicate,
    Move: _move,
}
