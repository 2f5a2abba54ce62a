"""How a figure came about, in words: read off the very function that gave it, with what went in."""

import re
import textwrap
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from brimful.design.ledger import Working

_MARK = re.compile(r"^(Formula|Args|Returns|Valid|Raises|Source):|^>>>")
_INLINE = re.compile(r"\s(?=(?:Returns|Valid|Source): )")
WIDTH = 100


def working_lines(working: Working) -> Iterator[str]:
    """One figure: its value, what it is, the formula in words, the inputs with their values, range and source."""
    said = sections(working.words)
    yield f"{working.figure} = {shown(working.value)}"
    yield from _wrapped("", said.get("", ""))
    if "Formula" in said:
        yield from _wrapped("Formula: ", said["Formula"])
    yield "  Inputs:"
    for name, value in working.inputs.items():
        yield f"    {name} = {shown(value)}"
    if "Valid" in said:
        yield from _wrapped("Valid: ", said["Valid"])
    yield from _wrapped("Source: ", said.get("Source") or "arithmetic")


def sections(words: str) -> dict[str, str]:
    """A docstring by its parts: "" for what the figure is, then Formula, Args, Returns, Valid, Source.

    >>> sections("Twice [m].\\n\\nFormula: 2 x.\\nArgs: x [m]\\nSource: arithmetic")["Formula"]
    '2 x.'
    """
    found: dict[str, str] = {}
    part = ""
    for line in (piece for row in words.splitlines() for piece in _INLINE.split(row.strip())):
        mark = _MARK.match(line)
        if mark:
            part = mark[1] or ">>>"
            line = line[mark.end() :]  # noqa: PLW2901
        elif not line and part not in ("", "Args"):
            part = "more"
        found[part] = f"{found.get(part, '')} {line.strip()}".strip()
    return found


def shown(value: object) -> str:
    """A value in few words: numbers to five figures, long tables by what they are."""
    if isinstance(value, float):
        return f"{value:.5g}"
    if is_dataclass(value) and not isinstance(value, type):
        plain = [f for f in fields(value) if isinstance(getattr(value, f.name), int | float | str)]
        return f"{type(value).__name__}({', '.join(f'{f.name} {shown(getattr(value, f.name))}' for f in plain)})"
    if getattr(value, "shape", ()):
        return f"{getattr(value, 'size', 0)} values"
    if isinstance(value, tuple):
        return f"{len(value)} entries" if len(value) > 6 else "(" + ", ".join(shown(one) for one in value) + ")"
    words = str(value)
    return words if len(words) <= 80 else f"{words[:77]}..."


def _wrapped(mark: str, words: str) -> list[str]:
    return textwrap.wrap(f"{mark}{words}", WIDTH, initial_indent="  ", subsequent_indent="    ")
