"""Findings as plain text."""

from collections.abc import Iterable, Iterator

from brimful.findings import Finding


def finding_lines(findings: Iterable[Finding]) -> Iterator[str]:
    """Each finding as file:line:column, how bad, what is so, and what to do."""
    for finding in findings:
        place = f"{finding.where}: " if str(finding.where) else ""
        remedy = f" {finding.remedy}" if finding.remedy else ""
        ending = "" if finding.message.endswith((".", "?")) else "."
        yield f"{place}{finding.severity.value}: {finding.message}{ending}{remedy}"
