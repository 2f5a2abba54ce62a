"""Plain text: findings, and the summary for a file."""

import io
from collections.abc import Iterable, Iterator

from brimful.design.model import Design
from brimful.findings import Finding


def finding_lines(findings: Iterable[Finding]) -> Iterator[str]:
    """Each finding as file:line:column, how bad, what is so, and what to do."""
    for finding in findings:
        place = f"{finding.where}: " if str(finding.where) else ""
        remedy = f" {finding.remedy}" if finding.remedy else ""
        ending = "" if finding.message.endswith((".", "?")) else "."
        yield f"{place}{finding.severity.value}: {finding.message}{ending}{remedy}"


def summary_text(design: Design, findings: tuple[Finding, ...]) -> str:
    """The summary as plain text, as wide as a printed page."""
    from rich.console import Console

    from brimful.render.summary import print_summary

    page = io.StringIO()
    print_summary(design, findings, None, Console(file=page, width=100, no_color=True, highlight=False))
    return page.getvalue()
