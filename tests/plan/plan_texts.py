"""Plan-like texts in every manner that a person may write them in, for tests that edit them."""

from typing import Any

from hypothesis import strategies as st

HOSTILE = st.text(
    st.one_of(st.characters(exclude_categories=("Cs",)), st.sampled_from("\"'\\\n\r\t#]}[{=,.\u202e\u2028\u0085\0🪴é")),
    max_size=12,
)
LEAVES = st.one_of(HOSTILE, st.booleans(), st.integers(-(2**70), 2**70), st.floats(allow_nan=False))
VALUES = st.recursive(
    LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(HOSTILE, inner, max_size=3), max_leaves=6
)
_SPELLINGS = st.sampled_from(
    [
        '"31 in"',
        "'0.8 m'",
        "12",
        "0x1F",
        "true",
        "2027-05-15",
        '"""two\n# lines\n[[no]]"""',
        "'''\n# x = 1'''",
        '["a", "b # c", 3]',
        '[\n  "a",  # NOTE\n  "b",\n]',
        '[\n  { plant = "x", count = 2 },\n  # NOTE\n  { plant = "y" }\n]',
        "{ tube = 'pe', length = \"30 ft\" }",
        "{a.b=1,c=[{}]}",
        "[]",
        "{}",
        '"]] \\" 🪴"',
    ]
)
_KEYS = ["apart", "b", "container", '"quoted key"', "x.y", "x . 'z'", "count"]


@st.composite
def plan_texts(draw: st.DrawFn) -> str:
    """A text with notes, blank lines, tables, lists of tables, keys with dots, any line ends, a mark or none."""
    notes = iter(range(10_000))

    def note() -> str:
        return f"# note {next(notes)}"

    def gap() -> list[str]:
        return draw(st.sampled_from([[], [""], ["", ""], ["", note(), ""], [note()], ["", note()], [note(), ""]]))

    def fields() -> list[str]:
        lines = []
        for key in draw(st.lists(st.sampled_from(_KEYS), unique=True, max_size=3)):
            spelling = draw(_SPELLINGS).replace("NOTE", note())
            lines += [
                *draw(st.sampled_from([[], [note()], [""]])),
                f"{key} = {spelling}{draw(st.sampled_from(['', ' ' + note()]))}",
            ]
        return lines

    lines = [*gap(), *fields()]
    for table in draw(st.permutations(["[site]", "[site.weather]", "[tubing]", "[recipe.heat]"]))[
        : draw(st.integers(0, 3))
    ]:
        lines += [*gap(), table, *fields()]
    for name in draw(st.permutations(["containers", "zone", "shade"]))[: draw(st.integers(0, 2))]:
        for _ in range(draw(st.integers(1, 3))):
            lines += [*gap(), f"[[{name}]]", *fields()]
            if draw(st.booleans()):
                lines += [*gap(), f"[{name}.set_out]", *fields()]
    text = "\n".join([*lines, *gap()]) + draw(st.sampled_from(["", "\n", "\n\n"]))
    return draw(st.sampled_from(["", "\ufeff"])) + text.replace("\n", draw(st.sampled_from(["\n", "\r\n"])))


def paths_in(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every path in loaded data, the shallow ones first."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = [path] if path else []
    for key, one in inner:
        found += paths_in(one, (*path, key))
    return found


def at(value: Any, path: tuple[str | int, ...]) -> Any:
    """What stands at a path of loaded data."""
    for part in path:
        value = value[part]
    return value
