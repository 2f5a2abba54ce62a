"""The lasting name of a plan, for identifiers that stay the same from one export to the next."""

import re
from pathlib import Path


def lasting_name(path: Path) -> str:
    """The plan's file name in plain letters: moving the file, or changing its title, keeps its events.

    >>> lasting_name(Path("somewhere/Our Plan (2).toml"))
    'our-plan-2'
    """
    return re.sub(r"[^a-z0-9]+", "-", path.stem.lower()).strip("-") or "plan"
