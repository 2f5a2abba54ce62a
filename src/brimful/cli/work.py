"""`brimful work PLAN`: set-out, handling, build and the season's tasks."""

from pathlib import Path

import click

from brimful.cli.care_door import show_part
from brimful.cli.design import json_option, out_option, units_option


@click.command("work")
@click.argument("plan", type=click.Path(path_type=Path))
@json_option
@out_option
@units_option
def command(plan: Path, as_json: bool, out: Path | None, units: str | None) -> None:
    """How to build PLAN and keep it: set-out, lifting, schedule of the crew, cards, the season's tasks."""
    show_part(plan, "work", as_json=as_json, out=out, units=units)
