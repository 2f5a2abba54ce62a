"""Plain text: findings, explanations, and the summary for a file."""

import io
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass

from brimful.design.ledger import Working
from brimful.design.model import Design
from brimful.findings import Finding


def finding_lines(findings: Iterable[Finding]) -> Iterator[str]:
    """Each finding as file:line:column, how bad, what is so, and what to do."""
    for finding in findings:
        place = f"{finding.where}: " if str(finding.where) else ""
        remedy = f" {finding.remedy}" if finding.remedy else ""
        ending = "" if finding.message.endswith((".", "?")) else "."
        yield f"{place}{finding.severity.value}: {finding.message}{ending}{remedy}"


def working_lines(working: Working) -> Iterator[str]:
    """One figure: value, formula in words, inputs with their values, source."""
    yield f"{working.figure} = {shown(working.value)}"
    for line in working.words.splitlines():
        if not line.startswith(("Args:", ">>>", "Source:")):
            yield f"  {line}".rstrip()
    yield "  Inputs:"
    for name, value in working.inputs.items():
        yield f"    {name} = {shown(value)}"
    yield f"  Source: {working.source or 'arithmetic'}"


def shown(value: object) -> str:
    """A value in few words: numbers to five figures, long tables by what they are."""
    if isinstance(value, float):
        return f"{value:.5g}"
    if is_dataclass(value) and not isinstance(value, type):
        plain = [f for f in fields(value) if isinstance(getattr(value, f.name), int | float | str)]
        return f"{type(value).__name__}({', '.join(f'{f.name} {shown(getattr(value, f.name))}' for f in plain)})"
    if isinstance(value, tuple):
        return f"{len(value)} entries" if len(value) > 6 else "(" + ", ".join(shown(one) for one in value) + ")"
    words = str(value)
    return words if len(words) <= 80 else f"{type(value).__name__} of {getattr(value, 'size', len(words))} values"


def summary_text(design: Design, findings: tuple[Finding, ...]) -> str:
    """The summary as plain text, as wide as a printed page."""
    from rich.console import Console

    from brimful.render.summary import print_summary

    page = io.StringIO()
    print_summary(design, findings, None, Console(file=page, width=100, no_color=True, highlight=False))
    return page.getvalue()
