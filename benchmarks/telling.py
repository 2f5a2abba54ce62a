"""What a benchmark found, as a table or, with --json, as the list."""

import json
import string
import sys
from collections.abc import Mapping, Sequence
from typing import Any


def tell(rows: Sequence[Mapping[str, Any]], columns: Mapping[str, str]) -> None:
    """Print rows: a column for each heading, written by its form, such as "{ours_ms:.3g}"; nothing for what is None."""
    if "--json" in sys.argv[1:]:
        print(json.dumps(rows, indent=1))
        return
    print(f"| {' | '.join(columns)} |")
    print(f"|{'|'.join('---:' if ':' in form else '---' for form in columns.values())}|")
    for row in rows:
        print(f"| {' | '.join(_cell(form, row) for form in columns.values())} |")


def _cell(form: str, row: Mapping[str, Any]) -> str:
    named = [name for _, name, _, _ in string.Formatter().parse(form) if name]
    return "" if any(row[name] is None for name in named) else form.format(**row)
