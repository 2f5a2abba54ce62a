"""Entries to test with."""

from datetime import UTC, datetime
from typing import Any

from hypothesis import HealthCheck, settings

from brimful.journal import Entry, new_id

SHORT = settings(deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
NOON = datetime(2026, 7, 2, 12, 0, tzinfo=UTC)


def entry(**fields: Any) -> Entry:
    """A sound entry, a finger test that felt dry, but for what is given."""
    value = 0.0 if fields.get("kind", "finger") == "finger" else None
    usual = {"id": new_id(), "made_at": NOON, "kind": "finger", "place": "water side 3", "value": value}
    return Entry(**{**usual, **fields})
