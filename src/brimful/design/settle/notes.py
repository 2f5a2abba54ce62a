"""What settling a plan leaves behind: findings with their place, and assumptions with their source."""

from dataclasses import dataclass, field
from typing import TypeVar

from brimful.catalog import Catalog, Row, Table
from brimful.design.model import Assumption
from brimful.findings import Finding, Severity
from brimful.plan.read import Places
from brimful.plan.schema import Plan, Zone
from brimful.records import record

R = TypeVar("R", bound=Row)
Path = tuple[str | int, ...]


@dataclass(slots=True)
class Notes:
    """Collects findings and assumptions while a plan is settled."""

    places: Places
    findings: list[Finding] = field(default_factory=list)
    assumptions: dict[str, Assumption] = field(default_factory=dict)

    def wrong(self, code: str, path: Path, message: str, remedy: str = "") -> None:
        """Note an error, once: the plan cannot be worked out as it stands."""
        finding = Finding(code, Severity.ERROR, message, remedy, self.places.at(*path))
        if finding not in self.findings:
            self.findings.append(finding)

    def warn(self, code: str, path: Path, message: str, remedy: str = "") -> None:
        """Note a warning."""
        self.findings.append(Finding(code, Severity.WARNING, message, remedy, self.places.at(*path)))

    def note(self, code: str, path: Path, message: str, remedy: str = "") -> None:
        """Note something to know that needs no mending."""
        self.findings.append(Finding(code, Severity.NOTE, message, remedy, self.places.at(*path)))

    def assume(self, where: str, what: str, value: str, source: str = "common practice, no source") -> None:
        """Note what is taken where the plan is silent; once for each field."""
        self.assumptions.setdefault(where, Assumption(where, what, value, source))

    def pick(self, table: Table[R], word: str, path: Path, what: str) -> R | None:
        """The row that a word of the plan means, or an error that offers the nearest."""
        found = table.find(word)
        if not isinstance(found, tuple):
            return found
        offered = f"Did you mean {' or '.join(found)}?" if found else _known(table)
        self.wrong(f"unknown-{what.replace(' ', '-')}", path, f'no {what} is called "{word}"', offered)
        return None

    def usual(self, table: Table[R], key: str, where: str, what: str) -> R:
        """The row taken where the plan is silent, noted as an assumption."""
        row = table[key]
        self.assume(where, what, str(getattr(row, "name", key)), row.source)
        return row

    @property
    def sound(self) -> bool:
        """Whether nothing stops the design."""
        return not any(f.severity is Severity.ERROR for f in self.findings)


def _known(table: Table[R]) -> str:
    keys = list(table)
    more = f" and {len(keys) - 8} more" if len(keys) > 8 else ""
    return f"Known: {', '.join(keys[:8])}{more}. A file beside the plan can add more."


@record
class Desk:
    """What lies on the desk while a plan is settled: the plan, the tables, the notes."""

    plan: Plan
    catalog: Catalog
    notes: Notes

    def path_of(self, key: str, zone: Zone, row: int | None = None) -> Path:
        """Where the plan says `key` for a row or a zone: in the row itself, in its zone, or for all."""
        if row is not None and getattr(self.plan.containers[row], key) is not None:
            return ("containers", row, key)
        if getattr(zone, key) is not None:
            return ("zone", next(i for i, one in enumerate(self.plan.zone) if one is zone), key)
        return ("tubing", key) if row is None or getattr(self.plan.tubing, key) is not None else ("containers", row)
